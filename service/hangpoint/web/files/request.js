/** What stands in the fields of the form as a hang point in JSON. No page and no network: plain functions. */

const NUMBER = /^[+-]?(\d+(\.\d*)?|\.\d+)$/;

/** A text of a field as its column has it in JSON; what can't be read stays text, and the service says why. */
export function valueOf(column, text) {
  if (column.several) {
    return text.split(";").map((part) => oneOf(column, part.trim()));
  }
  return oneOf(column, text);
}

function oneOf(column, text) {
  if (column.holds === "flag" && (text === "yes" || text === "no")) {
    return text === "yes";
  }
  const numeric = column.holds === "quantity" || column.holds === "number" || column.holds === "whole";
  return numeric && NUMBER.test(text) ? Number(text) : text;
}

/** The column of a path; those of later places of a list are as that of its first. */
export function columnOf(path, columns) {
  return columns[path] ?? columns[path.replace(/\.\d+(?=\.|$)/g, ".0")];
}

/**
 * The hang point of some fields.
 *
 * @param fields texts by the path of their column, empty ones left out of the answer.
 * @param columns of `GET /v1/columns`, by path.
 */
export function itemOf(fields, columns) {
  const item = {};
  for (const [path, text] of Object.entries(fields)) {
    const stated = text.trim();
    const column = columnOf(path, columns);
    if (stated && column) {
      put(item, path.split("."), valueOf(column, stated));
    }
  }
  return withoutHoles(item);
}

function withoutHoles(value) {
  if (Array.isArray(value)) {
    return value.filter((each) => each !== undefined).map(withoutHoles);
  }
  const isObject = typeof value === "object";
  return isObject ? Object.fromEntries(Object.entries(value).map(([name, own]) => [name, withoutHoles(own)])) : value;
}

function put(into, names, value) {
  names.forEach((name, at) => {
    if (at === names.length - 1) {
      into[name] = value;
      return;
    }
    into[name] ??= /^\d+$/.test(names[at + 1]) ? [] : {};
    into = into[name];
  });
}

/** The path of the column that a pointer of an error is about: `#/items/0/base/thickness` is `base.thickness`. */
export function pathOf(pointer) {
  const names = pointer.replace(/^#\/(items\/\d+\/?)?/, "").split("/");
  return names.map((name) => name.replaceAll("~1", "/").replaceAll("~0", "~")).join(".");
}

/** The fields of a product by its address in the catalogue: family, size and embedment, in the unit of its family. */
export function fieldsOfProduct(address, units) {
  const first = address.indexOf("/");
  const last = address.lastIndexOf("/");
  return {
    "anchor.family": address.slice(0, first),
    "anchor.size": address.slice(first + 1, last),
    "anchor.h_ef": `${address.slice(last + 1)} ${units === "si" ? "mm" : "in"}`,
  };
}

/** A number as it is read: three digits or more, and no more than its size needs. */
export function shown(value) {
  if (value === 0) {
    return "0";
  }
  const digits = Math.max(0, 2 - Math.floor(Math.log10(Math.abs(value))));
  return value.toLocaleString("en-US", { maximumFractionDigits: Math.min(digits, 6) });
}

/** A utilisation in per cent; what is above 1 never reads as 100 %. */
export function percent(value) {
  return `${(value > 1 ? Math.ceil(value * 1000 - 1e-9) / 10 : value * 100).toFixed(1)}%`;
}

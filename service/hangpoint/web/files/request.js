/** What stands in the fields of the form as a hang point in JSON. No page and no network: plain functions. */

const PLACE = /^\d+$/;
const FRACTION = /^(\d+[ -])?(\d+)\/(\d+)$/;
const NUMBER = /^[+-]?(\d+(\.\d*)?|\.\d+)$/;

/**
 * A text of a field as its column has it in JSON; what can't be read stays text, and the service says why.
 *
 * @param units `us` or `si`: a fraction without a unit gets that of the column, as it stands beside the field.
 */
export function valueOf(column, text, units) {
  if (column.several) {
    return text.split(";").map((part) => oneOf(column, part.trim(), units));
  }
  return oneOf(column, text, units);
}

function oneOf(column, text, units) {
  const word = column.words?.find((each) => each.toLowerCase() === text.toLowerCase());
  if (word !== undefined) {
    return column.holds === "flag" ? word === "yes" : word;
  }
  const [, , top, bottom] = text.match(FRACTION) ?? [];
  if (column[units] && Number(top) < Number(bottom)) {
    return `${text} ${column[units]}`;
  }
  const numeric = column.holds === "quantity" || column.holds === "number" || column.holds === "whole";
  return numeric && NUMBER.test(text) ? Number(text) : text;
}

/** The column of a path; those of later places of a list are as that of its first. */
export function columnOf(path, columns) {
  const first = path.replace(/\.\d+(?=\.|$)/g, ".0");
  return [path, first].filter((each) => Object.hasOwn(columns, each)).map((each) => columns[each])[0];
}

/** The paths of the columns that a text means: the one of this path or title, else all that it is a part of. */
export function columnsLike(text, columns) {
  const wanted = text.trim().toLowerCase();
  const path = wanted.replaceAll(" ", "_");
  if (!wanted || columnOf(path, columns)) {
    return wanted ? [path] : [];
  }
  const all = Object.values(columns);
  const exact = all.filter((each) => each.title.toLowerCase() === path);
  const part = all.filter((each) => each.path.includes(path) || each.text.toLowerCase().includes(wanted));
  return (exact.length ? exact : part).map((each) => each.path);
}

/**
 * The hang point of some fields.
 *
 * @param fields texts by the path of their column, empty ones left out of the answer.
 * @param columns of `GET /v1/columns`, by path.
 * @param units of numbers without one.
 */
export function itemOf(fields, columns, units) {
  const item = {};
  for (const [path, text] of Object.entries(fields)) {
    const stated = text.trim();
    const column = columnOf(path, columns);
    if (stated && column) {
      put(item, path.split("."), valueOf(column, stated, units));
    }
  }
  return withoutHoles(item);
}

/** What has nothing but places is a list, of those that are stated; with names beside them the service refuses it. */
function withoutHoles(value) {
  if (typeof value !== "object" || Array.isArray(value)) {
    return value;
  }
  const own = Object.entries(value).map(([name, inner]) => [name, withoutHoles(inner)]);
  const isList = own.length > 0 && own.every(([name]) => PLACE.test(name));
  return isList ? own.map(([, inner]) => inner) : Object.fromEntries(own);
}

function put(into, names, value) {
  for (const name of names.slice(0, -1)) {
    into[name] ??= {};
    into = into[name];
  }
  into[names.at(-1)] = value;
}

/** The path of the column that a pointer of an error is about: `#/items/0/base/thickness` is `base.thickness`. */
export function pathOf(pointer) {
  const names = (pointer ?? "").replace(/^#\/((items\/\d+|item)(\/|$))?/, "").split("/");
  return names.map((name) => name.replaceAll("~1", "/").replaceAll("~0", "~")).join(".");
}

/** The column that a row of a list lacks, by the pointer of its error; empty where it is of the whole row. */
export function lackingOf(pointer) {
  return /^#\/rows\/\d+\/(.+)$/.exec(pointer ?? "")?.[1] ?? "";
}

/** A path with the places of lists as the page has them: empty ones before them are not sent. */
export function placeOf(path, stated) {
  const own = [];
  for (const name of path.split(".")) {
    const start = own.map((each) => `${each}.`).join("");
    const inside = stated.filter((each) => each.startsWith(start)).map((each) => each.slice(start.length));
    const firsts = new Set(inside.map((each) => each.split(".")[0]));
    const places = [...firsts].filter((each) => PLACE.test(each)).sort((one, other) => one - other);
    own.push(PLACE.test(name) ? (places[Number(name)] ?? name) : name);
  }
  return own.join(".");
}

/** The field, of those on the page, that a path is about: itself, what says its kind, or the first within it. */
export function fieldOf(path, onPage) {
  const product = /^anchor\.(size|h_ef)$/.test(path) ? "product" : path;
  const ways = [path, `${path}.kind`, product, path.replace(/\.\d+$/, "")];
  const own = ways.find((each) => onPage.includes(each));
  return own ?? onPage.find((each) => path && each.startsWith(`${path}.`)) ?? null;
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

/** Values for all rows of a list, one a line as `base.density = normalweight`, as names and values of a query. */
export function defaultsOf(text) {
  const lines = text.split("\n").filter((line) => line.trim());
  return lines.map((line) => {
    const [path, ...value] = line.split("=");
    return [`default.${path.trim()}`, value.join("=").trim()];
  });
}

/** Sizes from the smallest: `1-1/4` stands behind `1`. */
export function inOrder(sizes) {
  const parts = (size) => size.split("-").map((part) => part.split("/"));
  const value = (size) => parts(size).reduce((sum, [top, bottom]) => sum + Number(top) / Number(bottom ?? 1), 0);
  return [...sizes].sort((one, other) => value(one) - value(other));
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

/** Words of which at most so many are named, unless hardly more are left. */
const MOST_WORDS = 8;
const FEW_LEFT = 3;

/** What may stand in a place, where an error says it. */
export function possibleText(allowed) {
  const words = allowed ?? [];
  const named = words.length > MOST_WORDS + FEW_LEFT ? words.slice(0, MOST_WORDS) : words;
  const left = words.length - named.length;
  return words.length ? ` Possible: ${named.join(", ")}${left ? ` and ${left} more` : ""}.` : "";
}

/** Errors in lists of those that say the same of several places of one line. */
export function alikeErrors(errors) {
  const alike = new Map();
  for (const error of errors) {
    const said = JSON.stringify([error.line, error.detail, error.allowed]);
    alike.set(said, [...(alike.get(said) ?? []), error]);
  }
  return [...alike.values()];
}

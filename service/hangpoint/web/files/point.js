/** The fields of one hang point: what stands in them, which are on the page, and how they are drawn. */

import { errorText, make } from "./answer.js";
import { at } from "./call.js";
import { GROUPS, labelOf, pathsOf, shownOf, statedOf, wordsUnder } from "./fields.js";
import { columnOf, fieldOf, fieldsOfProduct, inOrder, itemOf, pathOf, placeOf } from "./request.js";

/** What the service says of its fields; filled once it has. */
export const known = { columns: {}, order: [], words: {}, families: {}, pipes: {}, rods: [], classes: [], empty: {} };
const EUROPEAN = "en1992_4";
/** Texts by the path of their column; those of a kind that isn't chosen are kept and state nothing. */
export const fields = {};
/** Paths that were asked for under "another field". */
export const added = [];
const wrong = new Map();
const listeners = [];

/** Call something whenever what is stated has changed. */
export function onChange(listener) {
  listeners.push(listener);
}

export function restated() {
  listeners.forEach((listener) => listener());
}

function choices(path) {
  const column = columnOf(path, known.columns);
  if (path === "product") {
    const family = known.families[fields["anchor.family"]];
    return (family?.products ?? []).map((address) => [address, productText(address, family)]);
  }
  if (path === "anchor.family") {
    const european = at("code").value === EUROPEAN;
    const families = Object.values(known.families).filter((family) => (family.basis === "en") === european);
    return families.map((family) => [family.id, family.name]);
  }
  if (path === "base.strength.class") {
    return known.classes.map((name) => [name, name]);
  }
  if (path === "rod.size") {
    return known.rods.map((size) => [size, size]);
  }
  const sizes = known.pipes[fields["hangs.material"]];
  if (path === "hangs.size" && sizes) {
    return inOrder(Object.keys(sizes)).map((size) => [size, size]);
  }
  if (path === "hangs.schedule" && sizes?.[fields["hangs.size"]]) {
    return sizes[fields["hangs.size"]].map((schedule) => [schedule, schedule]);
  }
  if (column?.words && column.holds !== "quantity" && !column.several) {
    return wordsUnder(at("code").value, path, column.words).map((word) => [word, word.replaceAll("_", " ")]);
  }
  return null;
}

function productText(address, family) {
  const own = fieldsOfProduct(address, family.units);
  return `${own["anchor.size"]}, embedded ${own["anchor.h_ef"]}`;
}

/** An entry of a list of choices. */
export function option(value, text) {
  return make("option", { value }, text);
}

function hint(column) {
  const word = column.words?.length ? `or ${column.words[0]}` : "";
  return [word, column.several ? "several with ; between" : ""].filter(Boolean).join("; ");
}

function controlPart(path, id, column) {
  const words = choices(path);
  const value = fields[path] ?? "";
  const control = words
    ? make("select", { id }, option("", "—"), ...words.map(([word, text]) => option(word, text)))
    : make("input", { id, placeholder: hint(column), autocapitalize: "none", autocomplete: "off", spellcheck: false });
  if (words && value && !words.some(([word]) => word === value)) {
    control.append(option(value, value));
  }
  control.value = value;
  control.addEventListener("change", () => changed(path, control.value));
  control.addEventListener("input", () => {
    fields[path] = control.value;
    restated();
  });
  return control;
}

function fieldPart(path) {
  const column = columnOf(path, known.columns) ?? { text: "Nominal size and embedment, as the family has them." };
  const id = `field-${path}`;
  const control = controlPart(path, id, column);
  const help = make("small", { id: `help-${path}`, className: "help" }, column.text);
  const errors = (wrong.get(path) ?? []).map((text, place) => errorPart(path, text, place));
  control.setAttribute("aria-describedby", [help, ...errors].map((each) => each.id).join(" "));
  if (errors.length) {
    control.setAttribute("aria-invalid", "true");
  }
  const unit = column[at("units").value];
  const label = make("label", { htmlFor: id, title: column.text }, labelOf(path));
  label.append(...(unit ? [", ", make("span", { className: "unit" }, unit)] : []));
  return make("div", { className: "field", id: `place-${path}` }, label, control, help, ...errors);
}

function errorPart(path, text, place) {
  return make("small", { id: `wrong-${path}-${place}`, className: "wrong" }, text);
}

/** What follows from a field for those that depend on it: what is no longer to be had is emptied. */
const DEPENDENT = { "hangs.material": ["hangs.size", "hangs.schedule"], "hangs.size": ["hangs.schedule"] };
const REDRAWN = ["hangs.kind", "base.kind", "hangs.material", "hangs.size", "anchor.family"];

function changed(path, value) {
  fields[path] = value;
  if (path === "anchor.family") {
    fields.product = "";
  }
  if (path === "product" && value) {
    takeProduct(value);
    draw();
    at(`field-${path}`).focus();
  }
  for (const other of DEPENDENT[path] ?? []) {
    const own = choices(other);
    fields[other] = own && !own.some(([word]) => word === fields[other]) ? "" : fields[other];
  }
  if (REDRAWN.includes(path) && at(`field-${path}`).tagName === "SELECT") {
    draw();
    at(`field-${path}`).focus();
  }
  restated();
}

const OF_PRODUCT = ["anchor.size", "anchor.h_ef"];

/** State a product, in place of a size and an embedment that were stated by themselves. */
export function takeProduct(address) {
  fields.product = address;
  fields["anchor.family"] = address.slice(0, address.indexOf("/"));
  for (const path of OF_PRODUCT.filter((each) => added.includes(each))) {
    added.splice(added.indexOf(path), 1);
    fields[path] = "";
  }
}

/** Put a field on the page that isn't; a size or embedment by itself takes the place of a product. */
export function addField(path) {
  if (!shownPaths().includes(path)) {
    added.push(path);
    fields.product = OF_PRODUCT.includes(path) ? "" : fields.product;
    draw();
    restated();
  }
  at(`field-${path}`).focus();
}

/** What decides which fields are there. */
function chosen() {
  return { principle: known.families[fields["anchor.family"]]?.principle, code: at("code").value };
}

/** Drop a family whose figures are not for the design code that is chosen, and words that it only refuses. */
export function withoutForeign() {
  const family = known.families[fields["anchor.family"]];
  if (family && (family.basis === "en") !== (at("code").value === EUROPEAN)) {
    fields["anchor.family"] = fields.product = "";
  }
  for (const [path, value] of Object.entries(fields)) {
    if (!wordsUnder(at("code").value, path, [value]).length) {
      fields[path] = "";
    }
  }
}

/** The design code as a request states it: nothing for the one that holds where none is stated. */
export function ofCode() {
  return at("code").value === EUROPEAN ? { design_code: EUROPEAN } : {};
}

/** Paths that are on the page now, in their order. */
export function shownPaths() {
  return shownOf(fields, added, chosen());
}

/** Draw all fields anew. */
export function draw() {
  const groups = GROUPS.map((group) => [group.title, pathsOf(group, fields, chosen())]);
  const grouped = new Set(groups.flatMap(([, paths]) => paths));
  const parts = [...groups, ["Further fields", added.filter((path) => !grouped.has(path))]]
    .filter(([, paths]) => paths.length)
    .map(([title, paths]) => make("fieldset", {}, make("legend", {}, title), ...paths.map(fieldPart)));
  at("groups").replaceChildren(...parts);
}

/** What is stated: texts by path. */
export function stated() {
  return statedOf(fields, shownPaths());
}

/** The hang point that the form states; a name that nobody states is needed all the same. */
export function item({ withProduct = true } = {}) {
  const { product, ...own } = stated();
  if (!withProduct) {
    for (const path of ["anchor.family", ...OF_PRODUCT]) {
      delete own[path];
    }
  } else if (product) {
    const family = known.families[product.slice(0, product.indexOf("/"))];
    Object.assign(own, fieldsOfProduct(product, family?.units ?? at("units").value));
  }
  return { id: "P1", ...itemOf(own, known.columns, at("units").value) };
}

/** From an error to its field, or to one that the page doesn't show yet; nothing where there is no such field. */
export function toField(error) {
  const path = placeOf(pathOf(error.pointer), Object.keys(stated()));
  const own = fieldOf(path, shownPaths()) ?? (columnOf(path, known.columns) ? path : null);
  return own ? { path: own, go: () => addField(own) } : null;
}

/** Tell errors at their fields, in place of those that were told there. */
export function markErrors(errors) {
  wrong.clear();
  for (const error of errors) {
    const path = toField(error)?.path;
    const texts = wrong.get(path) ?? [];
    const text = errorText(error);
    wrong.set(path, texts.includes(text) ? texts : [...texts, text]);
  }
  const focused = document.activeElement;
  draw();
  if (focused?.id.startsWith("field-")) {
    const own = at(focused.id);
    own?.focus();
    own?.setSelectionRange?.(focused.selectionStart, focused.selectionEnd);
  }
}

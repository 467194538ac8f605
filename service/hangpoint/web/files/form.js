/** The page: its fields, what its buttons send, and where the answers go. */

import { listPart, make, problemPart, rankedPart, resultPart } from "./answer.js";
import { EXAMPLE, GROUPS, labelOf, pathsOf } from "./fields.js";
import { columnOf, fieldsOfProduct, itemOf, pathOf } from "./request.js";

const at = (id) => document.getElementById(id);

const known = { columns: {}, order: [], words: {}, families: {}, pipes: {}, empty: {} };
const fields = {};
const added = [];

/** A call of the service; a problem is thrown as the service said it. */
async function call(address, { body, type = "application/json", accept = "application/json" } = {}) {
  const token = sessionStorage.getItem("token");
  const headers = { Accept: accept, ...(body === undefined ? {} : { "Content-Type": type }) };
  if (token) {
    headers.Authorization = `Bearer ${token}`;
  }
  let response;
  try {
    response = await fetch(address, { method: body === undefined ? "GET" : "POST", headers, body });
  } catch {
    throw { title: "The service doesn't answer", detail: "Nothing was checked. Try again, or ask whoever runs it." };
  }
  if (response.status === 401) {
    at("token-asked").hidden = false;
  }
  if (!response.ok) {
    throw await response.json().catch(() => ({ title: `The service answered ${response.status}` }));
  }
  return response;
}

/** Do what a button asks for, and show in its place what went wrong. */
async function answered(place, work) {
  place.replaceChildren(make("p", {}, "Asking the service …"));
  try {
    place.replaceChildren(...[await work()].filter(Boolean));
  } catch (problem) {
    if (problem instanceof Error) {
      throw problem;
    }
    place.replaceChildren(problemPart(problem));
    markErrors(problem.errors ?? []);
  }
  place.focus({ preventScroll: true });
  place.scrollIntoView({ block: "nearest" });
}

function save(blob, name) {
  const link = make("a", { href: URL.createObjectURL(blob), download: name });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

/** Show a file of the service in a window of its own, opened before the answer so that no browser keeps it shut. */
async function shownApart(address, request) {
  const opened = window.open("", "_blank");
  try {
    const response = await call(address, request);
    const kept = URL.createObjectURL(await response.blob());
    if (opened) {
      opened.location = kept;
    } else {
      window.location = kept;
    }
  } catch (problem) {
    opened?.close();
    throw problem;
  }
  return null;
}

/* Fields. */

function choices(path) {
  const column = columnOf(path, known.columns);
  if (path === "product") {
    const family = known.families[fields["anchor.family"]];
    return (family?.products ?? []).map((address) => [address, productText(address, family)]);
  }
  if (path === "anchor.family") {
    return Object.values(known.families).map((family) => [family.id, family.name]);
  }
  if (path === "rod.size") {
    return known.rods.map((size) => [size, size]);
  }
  const sizes = known.pipes[fields["hangs.material"]];
  if (path === "hangs.size" && sizes) {
    return Object.keys(sizes).map((size) => [size, size]);
  }
  if (path === "hangs.schedule" && sizes?.[fields["hangs.size"]]) {
    return sizes[fields["hangs.size"]].map((schedule) => [schedule, schedule]);
  }
  if (column?.words && column.holds !== "quantity") {
    return column.words.map((word) => [word, word.replaceAll("_", " ")]);
  }
  return null;
}

function productText(address, family) {
  const own = fieldsOfProduct(address, family.units);
  return `${own["anchor.size"]}, embedded ${own["anchor.h_ef"]}`;
}

function option(value, text) {
  return make("option", { value }, text);
}

function fieldPart(path) {
  const column = columnOf(path, known.columns) ?? { text: "Nominal size and embedment, as the family has them." };
  const id = `field-${path}`;
  const words = choices(path);
  const value = fields[path] ?? "";
  const control = words
    ? make("select", { id }, option("", "—"), ...words.map(([word, text]) => option(word, text)))
    : make("input", { id, placeholder: hint(column) });
  if (words && value && !words.some(([word]) => word === value)) {
    control.append(option(value, value));
  }
  control.value = value;
  control.title = column.text;
  control.addEventListener("change", () => changed(path, control.value));
  control.addEventListener("input", () => {
    fields[path] = control.value;
  });
  const label = make("label", { htmlFor: id, title: column.text }, labelOf(path));
  return make("div", { className: "field", id: `place-${path}` }, label, control);
}

function hint(column) {
  const unit = column[at("units").value];
  const word = column.words?.length ? ` or ${column.words[0]}` : "";
  return `${unit ?? ""}${word}${column.several ? "; several with ; between" : ""}`;
}

const REDRAWN = ["hangs.kind", "base.kind", "hangs.material", "hangs.size", "anchor.family"];

function changed(path, value) {
  fields[path] = value;
  if (path === "anchor.family") {
    fields.product = "";
  }
  if (path === "hangs.material") {
    fields["hangs.size"] = fields["hangs.schedule"] = "";
  }
  if (path === "hangs.size") {
    fields["hangs.schedule"] = "";
  }
  if (REDRAWN.includes(path)) {
    draw();
    at(`field-${path}`)?.focus();
  }
  remember();
}

/** Paths that are on the page now; a field of a kind that isn't chosen states nothing. */
function shownPaths() {
  return [...GROUPS.flatMap((group) => pathsOf(group, fields)), ...added];
}

function draw() {
  const groups = [...GROUPS.map((group) => [group.title, pathsOf(group, fields)]), ["Further fields", added]];
  const parts = groups
    .filter(([, paths]) => paths.length)
    .map(([title, paths]) => make("fieldset", {}, make("legend", {}, title), ...paths.map(fieldPart)));
  at("groups").replaceChildren(...parts);
}

function markErrors(errors) {
  for (const old of document.querySelectorAll(".wrong")) {
    old.remove();
  }
  for (const error of errors) {
    const path = pathOf(error.pointer);
    const place = [path, `${path}.kind`, path.startsWith("anchor") ? "product" : ""].map((each) => at(`place-${each}`));
    place.find(Boolean)?.append(make("small", { className: "wrong" }, error.detail));
  }
}

/** The hang point that the form states. */
function item({ withProduct = true } = {}) {
  const shown = new Set(shownPaths());
  const stated = Object.fromEntries(Object.entries(fields).filter(([path]) => shown.has(path) && path !== "product"));
  const family = known.families[fields["anchor.family"]];
  if (withProduct && family && fields.product) {
    Object.assign(stated, fieldsOfProduct(fields.product, family.units));
  }
  if (!withProduct) {
    delete stated["anchor.family"];
  }
  return { id: "P1", ...itemOf(stated, known.columns) }; // a name that nobody states is needed all the same
}

function bodyOf(own, more = {}) {
  return JSON.stringify({ units: at("units").value, ...more, items: [own] });
}

/* The address of the page keeps what is stated, so that it can be sent on. */

function remember() {
  const shown = new Set(shownPaths());
  const stated = Object.entries(fields).filter(([path, text]) => text && shown.has(path));
  const query = new URLSearchParams([["units", at("units").value], ...stated]);
  history.replaceState(null, "", `#point?${query}`);
}

function recall() {
  const [, query] = location.hash.split("?");
  for (const [path, text] of new URLSearchParams(query ?? "")) {
    if (path === "units") {
      at("units").value = text === "si" ? "si" : "us";
    } else if (path === "product" || columnOf(path, known.columns)) {
      fields[path] = text;
    }
  }
  const shown = new Set(shownPaths());
  added.push(...Object.keys(fields).filter((path) => !shown.has(path)));
}

function turnTo() {
  const part = location.hash.startsWith("#list") ? "list" : "point";
  for (const name of ["point", "list"]) {
    at(name).hidden = name !== part;
    document.querySelector(`nav a[href="#${name}"]`).toggleAttribute("aria-current", name === part);
  }
}

/* What the buttons do. */

function check() {
  markErrors([]);
  remember();
  answered(at("point-answer"), async () => {
    const answer = await (await call("/v1/hang-points", { body: bodyOf(item(), { detail: "modes" }) })).json();
    const [own] = answer.items;
    markErrors(own.problem?.errors ?? []);
    caution(answer.cautions);
    const sent = make("pre", {}, JSON.stringify(item(), null, 2));
    const asked = make("details", {}, make("summary", {}, "What was sent"), sent);
    return make("div", {}, resultPart(own, answer, known.words), asked);
  });
}

function choose() {
  markErrors([]);
  answered(at("point-answer"), async () => {
    const want = { objective: at("objective").value };
    const body = bodyOf(item({ withProduct: false }), { most: 10, want });
    const answer = await (await call("/v1/selections", { body })).json();
    caution(answer.cautions);
    markErrors(answer.items[0].problem?.errors ?? []);
    return rankedPart(answer.items[0], answer, known.words, (address) => {
      fields["anchor.family"] = address.slice(0, address.indexOf("/"));
      fields.product = address;
      draw();
      check();
    });
  });
}

function sheet(form, accept) {
  const body = JSON.stringify({ units: at("units").value, item: item() });
  answered(at("point-answer"), () => shownApart(`/v1/hang-point?format=${form}`, { body, accept }));
}

function listAddress(resource, form) {
  return `${resource}?${new URLSearchParams({ units: at("list-units").value, format: form })}`;
}

function checkList() {
  answered(at("list-answer"), async () => {
    const request = { body: at("rows").value, type: "text/csv; charset=utf-8" };
    const answer = await (await call(`${listAddress("/v1/hang-points", "json")}&detail=modes`, request)).json();
    caution(answer.cautions);
    return listPart(answer, known.words);
  });
}

function saveList(address, name, accept) {
  answered(at("list-answer"), async () => {
    const response = await call(address, { body: at("rows").value, type: "text/csv; charset=utf-8", accept });
    save(await response.blob(), name);
    return make("p", {}, `Saved: ${name}`);
  });
}

function caution(texts) {
  at("cautions").replaceChildren(make("ul", {}, ...texts.map((text) => make("li", {}, text))));
}

function addField() {
  const wanted = at("more").value.trim();
  const byTitle = known.order.find((each) => known.columns[each].title === wanted);
  const path = columnOf(wanted, known.columns) ? wanted : byTitle;
  if (path && !shownPaths().includes(path)) {
    added.push(path);
    draw();
  }
  if (path) {
    at("more").value = "";
    at(`field-${path}`)?.focus();
  }
}

function listen() {
  at("point-form").addEventListener("submit", (event) => {
    event.preventDefault();
    check();
  });
  at("list-form").addEventListener("submit", (event) => {
    event.preventDefault();
    checkList();
  });
  at("choose").addEventListener("click", choose);
  at("sheet").addEventListener("click", () => sheet("html", "text/html"));
  at("sheet-pdf").addEventListener("click", () => sheet("pdf", "application/pdf"));
  at("units").addEventListener("change", () => {
    draw();
    remember();
  });
  at("example").addEventListener("click", () => {
    Object.assign(fields, EXAMPLE);
    draw();
    remember();
  });
  at("clear").addEventListener("click", () => {
    Object.keys(fields).forEach((path) => delete fields[path]);
    added.length = 0;
    at("point-answer").replaceChildren();
    draw();
    remember();
  });
  at("more-add").addEventListener("click", addField);
  at("file").addEventListener("change", async () => {
    const [file] = at("file").files;
    at("rows").value = file ? await file.text() : "";
  });
  at("empty-file").addEventListener("click", () => {
    save(new Blob(["\ufeff", known.empty[at("list-units").value]], { type: "text/csv" }), "hang_points.csv");
  });
  for (const button of document.querySelectorAll("[data-form]")) {
    const form = button.dataset.form;
    const accept = form === "csv" ? "text/csv" : "*/*";
    button.addEventListener("click", () => saveList(listAddress("/v1/hang-points", form), `schedule.${form}`, accept));
  }
  at("submittal").addEventListener("click", () => {
    saveList(listAddress("/v1/submittals", "pdf"), "submittal.pdf", "application/pdf");
  });
  at("token-asked").addEventListener("submit", (event) => {
    event.preventDefault();
    sessionStorage.setItem("token", at("token").value.trim());
    at("token-asked").hidden = true;
    start();
  });
  window.addEventListener("hashchange", turnTo);
}

async function start() {
  try {
    const [columns, quantities, families] = await Promise.all(
      ["/v1/columns", "/v1/quantities", "/v1/families"].map(async (address) => (await call(address)).json()),
    );
    known.columns = Object.fromEntries(columns.columns.map((column) => [column.path, column]));
    known.order = columns.columns.map((column) => column.path);
    known.empty = columns.empty;
    const entries = [...quantities.modes, ...quantities.findings];
    known.words = Object.fromEntries(entries.map((each) => [each.code, each.text]));
    known.pipes = quantities.pipes;
    known.rods = quantities.rod_sizes;
    const objectives = quantities.selections.objectives;
    at("objective").replaceChildren(...objectives.map((word) => option(word, word.replaceAll("_", " "))));
    known.families = Object.fromEntries(families.families.map((family) => [family.id, family]));
  } catch (problem) {
    if (problem instanceof Error) {
      throw problem;
    }
    at("groups").replaceChildren(problemPart(problem));
    return;
  }
  const options = known.order.map((path) => option(path, known.columns[path].text));
  at("more-list").replaceChildren(...options);
  recall();
  draw();
}

listen();
turnTo();
start();

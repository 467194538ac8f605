/** Answers of the service as parts of the page. Every text goes in as text, never as markup. */

import { labelOf } from "./fields.js";
import { alikeErrors, lackingOf, pathOf, percent, possibleText, shown } from "./request.js";

/** An element with its properties and what is in it; nothing where a child is null. */
export function make(tag, properties, ...children) {
  const made = Object.assign(document.createElement(tag), properties);
  made.append(...children.filter((child) => child !== null && child !== undefined));
  return made;
}

function list(title, texts, kind = "ul") {
  return texts.length
    ? make("div", {}, make("h3", {}, title), make(kind, {}, ...texts.map((text) => make("li", {}, text))))
    : null;
}

function folded(title, texts, { open = false } = {}) {
  const items = texts.map((text) => make("li", {}, text));
  const summary = make("summary", {}, `${title} (${texts.length})`);
  return texts.length ? make("details", { open }, summary, make("ul", {}, ...items)) : null;
}

function scroll(title, table) {
  return make("div", { className: "scroll", tabIndex: 0, role: "region", ariaLabel: title }, table);
}

function cell(text, className = "") {
  return make("td", { className }, text);
}

function head(...titles) {
  return make("thead", {}, make("tr", {}, ...titles.map((title) => make("th", { scope: "col" }, title))));
}

/** The status of a result in words, and what governs it. */
export function verdict(item, words) {
  const assumed = item.on_assumptions && item.status === "passed" ? " on assumptions" : "";
  if (item.status === "invalid") {
    return item.problem.error_count === 1 ? "invalid: one error" : `invalid: ${item.problem.error_count} errors`;
  }
  if (item.status === "refused") {
    return `refused: ${item.reason.text}`;
  }
  const governing = item.governing;
  const violation = (item.findings ?? []).find((finding) => finding.severity === "violation");
  if (violation && !(governing?.utilisation > 1)) {
    return `failed: ${violation.text}`;
  }
  const by = governing
    ? `: used to ${percent(governing.utilisation)}, ${words[governing.mode] ?? governing.mode} (${governing.load_case})`
    : "";
  return `${item.status}${assumed}${by}`;
}

/** What an error says, to whoever sees the field that it is about. */
export function errorText(error) {
  return error.code === "missing" ? "Needed." : `${error.detail}${possibleText(error.allowed)}`;
}

/** Errors of the fields of the page, each with a button that leads to its field where there is one. */
function errorList(errors, toField) {
  const lines = new Map();
  for (const error of errors) {
    const field = toField(error);
    const name = labelOf(field?.path ?? pathOf(error.pointer));
    const text = field ? `: ${errorText(error)}` : [name, error.detail].filter(Boolean).join(": ");
    const button = field ? make("button", { type: "button", onclick: field.go }, name) : null;
    lines.set(`${name} ${text}`, make("li", {}, ...[button, text].filter(Boolean)));
  }
  return make("div", {}, make("h3", {}, "What is missing or can't be read"), make("ul", {}, ...lines.values()));
}

/** Errors of an item of a list, one line for each thing that is wrong. */
export function errorTexts(item) {
  return alikeErrors(item.problem.errors).map((errors) => {
    const [error] = errors;
    const cells = errors.map((each) => {
      const column = each.column ?? lackingOf(each.pointer);
      return each.cell ? `${column} “${each.cell}”` : column;
    });
    const where = [error.line ? `line ${error.line}` : "", ...cells].filter(Boolean).join(", ");
    const places = errors.map((each) => labelOf(pathOf(each.pointer))).join(", ");
    return `${where || places}: ${error.detail}${possibleText(error.allowed)}`;
  });
}

function findingText(finding, answer) {
  const unit = finding.quantity === "ratio" ? "" : ` ${answer.units[finding.quantity] ?? ""}`;
  const limit = finding.limit === undefined ? "" : `, the limit ${shown(finding.limit)}${unit}`;
  const value = finding.value === undefined ? "" : ` It is ${shown(finding.value)}${unit}${limit}.`;
  return `${finding.severity}: ${finding.text}${value} [${finding.clause}]`;
}

function modeTable(item, answer, words) {
  const force = answer.units.force;
  const rows = item.modes
    .filter((mode) => mode.applies)
    .map((mode) => {
      const governs = item.governing && mode.mode === item.governing.mode;
      const noForce = mode.mode.endsWith("interaction");
      return make(
        "tr",
        { className: governs ? "governs" : "" },
        cell(words[mode.mode] ?? mode.mode),
        cell(noForce ? "" : shown(mode.demand), "number"),
        cell(noForce ? "" : shown(mode.design_strength), "number"),
        cell(percent(mode.utilisation), "number"),
        cell(mode.load_case),
        cell(mode.clause),
      );
    });
  const titles = head("Mode", `Demand, ${force}`, `Design strength, ${force}`, "Used", "Load case", "Clause");
  return rows.length ? scroll("Modes", make("table", {}, titles, make("tbody", {}, ...rows))) : null;
}

function nearTexts(near) {
  const others = [
    [near.together, "Checked together with"],
    [near.unlike, "Of another product or depth, and near:"],
    [near.by_spacing, "Looked at by its distance alone:"],
  ];
  const texts = others.filter(([ids]) => ids?.length).map(([ids, words]) => `${words} ${ids.join(", ")}.`);
  return [...texts, `Alone it would be used to ${percent(near.alone.utilisation)}.`];
}

/**
 * One result, whole: verdict, modes, what was found, what was assumed, what isn't checked.
 *
 * @param words texts of modes and findings by their code.
 * @param toField from an error to its field, as `path` and how to `go` there; of a list none.
 */
export function resultPart(item, answer, words, toField = null) {
  const alone = answer.items.length === 1;
  const own = item.assumptions ?? [];
  const assumed = alone ? Object.values(answer.assumptions) : own.map((code) => answer.assumptions[code]);
  return make(
    "div",
    {},
    make("p", { className: `verdict ${item.status}` }, `${item.id ?? ""} ${verdict(item, words)}`.trim()),
    item.product ? make("p", {}, `Product: ${item.product.address} (${item.product.data} data).`) : null,
    item.status === "invalid" && toField ? errorList(item.problem.errors, toField) : null,
    item.status === "invalid" && !toField ? list("What is missing or can't be read", errorTexts(item)) : null,
    item.modes ? modeTable(item, answer, words) : null,
    list("Findings", (item.findings ?? []).map((finding) => findingText(finding, answer))),
    list("For the engineer", (item.to_engineer ?? []).map((each) => `${each.text} ${each.question}`)),
    item.neighbours ? list("Near it", nearTexts(item.neighbours)) : null,
    item.status === "invalid" ? null : folded("Assumed", assumed, { open: alone }),
    folded("Not checked", (item.not_checked ?? []).map((code) => answer.not_checked[code])),
  );
}

/** A problem that stopped the whole request. */
export function problemPart(problem, toField = null) {
  if (problem.errors?.length && toField) {
    const title = make("p", { className: "verdict invalid" }, problem.title ?? "The request failed");
    return make("div", {}, title, errorList(problem.errors, toField));
  }
  const errors = problem.errors?.length ? errorTexts({ problem }) : [];
  const told = errors.length ? errors : [problem.detail ?? "The service gave no reason."];
  return make(
    "div",
    {},
    make("p", { className: "verdict invalid" }, problem.title ?? "The request failed"),
    make("ul", {}, ...told.map((text) => make("li", {}, text))),
  );
}

/** Rows that are shown before somebody asks for all. */
const AT_ONCE = 500;

const ORDER = ["invalid", "refused", "failed", "passed"];

/** The results of a list: counts, then a row each, those that need a look first. */
export function listPart(answer, words) {
  const counts = answer.summary;
  const parts = ORDER.map((status) => `${counts[status]} ${status}`);
  const assumed = counts.passed_on_assumptions ? `, ${counts.passed_on_assumptions} of them on assumptions` : "";
  const order = [...answer.items].sort((one, other) => ORDER.indexOf(one.status) - ORDER.indexOf(other.status));
  const rowOf = (item) => {
    const name = item.id ?? `row ${item.index + 1}`;
    const button = make("button", { type: "button", ariaExpanded: "false" }, name);
    const told = item.status === "invalid" ? errorTexts(item) : (item.findings ?? []).map((each) => each.text);
    const row = make(
      "tr",
      {},
      make("td", {}, button),
      cell(item.status, item.status),
      cell(item.product?.address ?? ""),
      cell(item.governing ? percent(item.governing.utilisation) : "", "number"),
      cell(item.governing ? (words[item.governing.mode] ?? item.governing.mode) : (item.reason?.text ?? ""), "why"),
      make("td", { className: "told-of" }, ...told.map((text) => make("p", {}, text))),
    );
    let whole = null;
    button.onclick = () => {
      const open = button.ariaExpanded === "true";
      button.ariaExpanded = String(!open);
      if (open) {
        whole.remove();
        return;
      }
      const part = make("div", { className: "whole" }, resultPart(item, answer, words));
      whole ??= make("tr", {}, make("td", { colSpan: 6 }, part));
      row.after(whole);
    };
    return row;
  };
  const body = make("tbody", {}, ...order.slice(0, AT_ONCE).map(rowOf));
  const rest = make("button", { type: "button", hidden: order.length <= AT_ONCE }, `Show all ${order.length}`);
  rest.onclick = () => {
    const more = order.slice(AT_ONCE).map(rowOf);
    body.append(...more);
    more[0].querySelector("button").focus();
    rest.remove();
  };
  const titles = head("Hang point", "Status", "Product", "Used", "What governs, or why refused", "Told");
  return make(
    "div",
    {},
    make("p", { className: "verdict" }, `${counts.total} hang points: ${parts.join(", ")}${assumed}.`),
    scroll("Hang points, those that need a look first", make("table", {}, titles, body)),
    rest,
  );
}

/** The products that hold, best first, with a button that takes one; then the others by their reason. */
export function rankedPart(item, answer, words, { take, toField }) {
  if (item.status === "invalid" || !item.counts) {
    return resultPart(item, answer, words, toField);
  }
  const takes = ({ product }) =>
    make("button", { type: "button", ariaLabel: `Take ${product}`, onclick: () => take(product) }, "Take it");
  const rows = (item.ranked ?? []).map((each) =>
    make(
      "tr",
      {},
      cell(String(each.rank), "number"),
      make("td", {}, takes(each)),
      cell(each.name),
      cell(each.product),
      cell(percent(each.utilisation), "number"),
      cell(shown(each.cost_index), "number"),
      cell(shown(each.minutes), "number"),
      cell(each.cautions.map((code) => words[code] ?? code).join(" ")),
    ),
  );
  const why = (item.rejected ?? []).map((each) => `${each.reason.text} (${each.products.length} of them)`);
  const by = rows.length ? `, by ${answer.objective.replaceAll("_", " ")}` : "";
  const titles = head("Rank", "", "Family", "Product", "Used", "Cost index", "Minutes", "Cautions");
  return make(
    "div",
    {},
    make(
      "p",
      { className: `verdict ${item.counts.held ? "passed" : "failed"}` },
      `${item.counts.held} of ${item.counts.candidates} products hold` +
        `${rows.length < item.counts.held ? `; the first ${rows.length}` : ""}${by}.`,
    ),
    rows.length ? scroll("Products that hold", make("table", {}, titles, make("tbody", {}, ...rows))) : null,
    list("Why, and what would help", [
      ...(item.nearest?.text ? [item.nearest.text] : []),
      ...(item.nearest?.changes ?? []).map((change) => change.text),
      ...(item.nearest?.engineer ? [item.nearest.engineer] : []),
    ]),
    folded("Why the others don't", why),
    folded("Assumed", Object.values(answer.assumptions)),
    folded("Not checked", Object.values(answer.not_checked)),
  );
}

/** The page: what its buttons do, and the address that keeps what is stated. */

import { make, problemPart, rankedPart, resultPart } from "./answer.js";
import { answered, at, call, dropped, save, shownApart, tell } from "./call.js";
import { EXAMPLES, labelOf } from "./fields.js";
import { listen as listenToList } from "./list.js";
import { added, addField, draw, fields, item, known, markErrors, onChange, option } from "./point.js";
import { ofCode, restated, shownPaths, stated, takeProduct, toField, withoutForeign } from "./point.js";
import { columnOf, columnsLike } from "./request.js";

let asked = null;
let remembered = null;

/* The address of the page keeps what is stated, so that it can be sent on. */

function addressed() {
  const chosen = ["units", "code"].map((name) => [name, at(name).value]);
  return `#point?${new URLSearchParams([...chosen, ...Object.entries(stated())])}`;
}

function remember() {
  remembered = addressed();
  history.replaceState(null, "", remembered);
}

/** Keep an entry of what is stated, to which the browser goes back from what comes now. */
function leave() {
  remember();
  history.pushState(null, "", remembered);
}

/** Fill the fields from the address; what is no field of the form is told. */
function recall() {
  emptied();
  const unknown = [];
  const given = [...new URLSearchParams(location.hash.split("?").slice(1).join("?"))];
  for (const [path, text] of given) {
    if (path === "units") {
      at("units").value = text === "si" ? "si" : "us";
    } else if (path === "code") {
      at("code").value = text === "en1992_4" ? text : "aci318_19";
    } else if (path === "product" || columnOf(path, known.columns)) {
      fields[path] = text;
    } else {
      unknown.push(path);
    }
  }
  if (fields.product) {
    takeProduct(fields.product);
  }
  const shown = new Set(shownPaths());
  added.push(...Object.keys(fields).filter((path) => !shown.has(path)));
  draw();
  remembered = location.hash;
  tell("point", unknown.length ? `The address names what is no field: ${unknown.join(", ")}.` : "");
}

function emptied() {
  dropped("point");
  Object.keys(fields).forEach((path) => delete fields[path]);
  added.length = 0;
  asked = null;
  markErrors([]);
  at("point-answer").replaceChildren();
  tell("point", "");
  at("point-stale").hidden = true;
}

function turnTo() {
  const part = location.hash.startsWith("#list") ? "list" : "point";
  for (const name of ["point", "list"]) {
    at(name).hidden = name !== part;
    const link = document.querySelector(`nav a[href="#${name}"]`);
    link.setAttribute("aria-current", name === part ? "page" : "false");
  }
  if (part === "point" && known.order.length) {
    if (location.hash.includes("?") && location.hash !== remembered) {
      recall();
    } else {
      remember();
    }
  }
}

/* One hang point. */

/** An answer is of what was stated when it was asked for; one that is still waited for is no longer wanted. */
function changed() {
  remember();
  if (asked !== addressed()) {
    dropped("point");
    at("point-stale").hidden = asked === null;
  } else {
    at("point-stale").hidden = true;
  }
}

function ask(resource, body, part) {
  const own = addressed();
  remember();
  markErrors([]);
  at("point-answer").replaceChildren();
  at("point-stale").hidden = true;
  asked = null;
  answered(
    "point",
    async (signal) => (await call(resource, { body: JSON.stringify(body), signal })).json(),
    (answer) => {
      asked = own;
      caution(answer.cautions);
      markErrors(answer.items[0].problem?.errors ?? []);
      at("point-answer").replaceChildren(...part(answer));
      return at("point-answer").querySelector(".verdict").textContent;
    },
    toField,
  );
}

function check() {
  const body = { units: at("units").value, ...ofCode(), detail: "modes", items: [item()] };
  ask("/v1/hang-points", body, (answer) => {
    const sent = make("pre", { tabIndex: 0 }, JSON.stringify(body, null, 2));
    const asked = make("details", {}, make("summary", {}, "What was sent"), sent);
    return [resultPart(answer.items[0], answer, known.words, toField), asked];
  });
}

/** Products that hold: of the family that is stated, or of all; a size that is stated is what is looked for. */
function choose({ ofAll = false } = {}) {
  const family = ofAll ? "" : (stated()["anchor.family"] ?? "");
  const want = { objective: at("objective").value, ...(family ? { families: [family] } : {}) };
  const body = { units: at("units").value, ...ofCode(), most: 10, want, items: [item({ withProduct: false })] };
  ask("/v1/selections", body, (answer) => {
    const take = (address) => {
      takeProduct(address);
      draw();
      at("check").focus();
      check();
    };
    const all = () => {
      at("choose").focus();
      choose({ ofAll: true });
    };
    const more = make("button", { type: "button", onclick: all }, "Look at all families");
    const only = `Only ${known.families[family]?.name ?? family} was looked at, in all its sizes.`;
    const limited = make("p", { className: "row" }, only, more);
    const { product, "anchor.size": size, "anchor.h_ef": depth } = stated();
    const left = "The size and embedment that are stated were left out: they are what is looked for.";
    const leftOut = product || size || depth ? make("p", {}, left) : null;
    const part = rankedPart(answer.items[0], answer, known.words, { take, toField });
    return [family ? limited : null, leftOut, part].filter(Boolean);
  });
}

function sheetRequest(accept) {
  remember();
  markErrors([]);
  return { body: JSON.stringify({ units: at("units").value, ...ofCode(), item: item() }), accept };
}

function sheet() {
  answered(
    "point",
    (signal) => shownApart("/v1/hang-point?format=html", { ...sheetRequest("text/html"), signal }),
    ({ kept, opened }) => {
      if (!opened) {
        const link = make("a", { href: kept, target: "_blank" }, "Open the calculation sheet");
        at("point-answer").prepend(make("p", {}, link));
      }
      return opened ? "The calculation sheet is in a window of its own." : "The calculation sheet is ready.";
    },
    toField,
  );
}

function sheetAsPdf() {
  const name = `${item().id.replace(/[^\w.-]+/g, "_").slice(0, 80)}.pdf`;
  answered(
    "point",
    async (signal) => (await call("/v1/hang-point?format=pdf", { ...sheetRequest("application/pdf"), signal })).blob(),
    (blob) => {
      save(blob, name);
      return `Saved: ${name}`;
    },
    toField,
  );
}

function caution(texts) {
  at("cautions").replaceChildren(make("ul", {}, ...texts.map((text) => make("li", {}, text))));
}

/** Put the field on the page that is meant; where it may be several, a button for each. */
function addMore() {
  const paths = columnsLike(at("more").value, known.columns);
  const [only] = paths;
  at("more").setAttribute("aria-invalid", String(!only));
  if (paths.length === 1) {
    at("more").value = "";
    at("more-told").replaceChildren();
    addField(only);
    return;
  }
  const buttons = paths.slice(0, 12).map((path) => {
    const onclick = () => {
      at("more").value = "";
      at("more-told").replaceChildren();
      addField(path);
    };
    return make("button", { type: "button", onclick, title: known.columns[path].text }, labelOf(path));
  });
  const rest = paths.length > 12 ? [`and ${paths.length - 12} more: say it closer.`] : [];
  at("more-told").replaceChildren(...(only ? ["Which? ", ...buttons, ...rest] : ["There is no field of this name."]));
}

/* The page. */

function listenToPoint() {
  at("point-form").addEventListener("submit", (event) => {
    event.preventDefault();
    check();
  });
  at("choose").addEventListener("click", () => choose());
  at("sheet").addEventListener("click", sheet);
  at("sheet-pdf").addEventListener("click", sheetAsPdf);
  at("units").addEventListener("change", () => {
    draw();
    restated();
  });
  at("code").addEventListener("change", () => {
    withoutForeign();
    draw();
    restated();
  });
  at("example").addEventListener("click", () => {
    leave();
    emptied();
    Object.assign(fields, EXAMPLES[at("code").value]);
    draw();
    restated();
  });
  at("clear").addEventListener("click", () => {
    leave();
    emptied();
    remember();
  });
  at("explain").addEventListener("click", () => {
    const on = at("groups").classList.toggle("explained");
    at("explain").setAttribute("aria-pressed", String(on));
  });
  at("more-add").addEventListener("click", addMore);
  at("more").addEventListener("keydown", (event) => {
    if (event.key === "Enter") {
      event.preventDefault();
      addMore();
    }
  });
}

function listenToToken() {
  at("token").addEventListener("input", () => at("token").setCustomValidity(""));
  at("token-asked").addEventListener("submit", (event) => {
    event.preventDefault();
    const token = at("token").value.trim();
    if (!/^[!-~]+$/.test(token)) {
      at("token").setCustomValidity("A token has letters, digits and signs without spaces.");
      at("token").reportValidity();
      return;
    }
    sessionStorage.setItem("token", token);
    at("token-asked").hidden = true;
    if (known.order.length) {
      for (const name of ["point", "list"]) {
        at(`${name}-answer`).replaceChildren();
        tell(name, "The token is kept: ask again.");
      }
      document.querySelector("section:not([hidden]) button.main").focus();
    } else {
      start();
    }
  });
}

/** What the service says of its fields; until it has, nothing can be stated. */
async function load() {
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
  known.classes = Object.keys(quantities.strength_classes);
  known.families = Object.fromEntries(families.families.map((family) => [family.id, family]));
  const objectives = quantities.selections.objectives;
  at("objective").replaceChildren(...objectives.map((word) => option(word, word.replaceAll("_", " "))));
  at("more-list").replaceChildren(...known.order.map((path) => option(path, known.columns[path].text)));
}

async function start() {
  at("start").replaceChildren();
  try {
    await load();
  } catch (thrown) {
    const problem = thrown instanceof Error ? { title: "The answer can't be read" } : thrown;
    const again = make("button", { type: "button", onclick: start }, "Try again");
    at("start").replaceChildren(problemPart(problem), again);
    return;
  }
  at("main").inert = false;
  recall();
  turnTo();
}

onChange(changed);
listenToPoint();
listenToList(known, caution);
listenToToken();
window.addEventListener("hashchange", turnTo);
turnTo();
start();

/** The part of the page where a list is pasted or taken from a file. */

import { listPart } from "./answer.js";
import { answered, at, call, dropped, save, tell } from "./call.js";
import { defaultsOf } from "./request.js";

const WORKBOOK = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

let asked = null;
let workbook = null; // the bytes of the one that was taken last, if the file was one

function address(resource, form, more = {}) {
  const code = at("list-code").value;
  const units = at("list-units").value; // where none are stated, a number without a unit is told and not guessed
  const stated = { units, decimal: at("decimal").value, notes: at("notes").value.trim(), design_code: code, ...more };
  const query = [
    ["format", form],
    ...Object.entries(stated).filter(([, text]) => text),
    ...defaultsOf(at("defaults").value),
  ];
  return `${resource}?${new URLSearchParams(query)}`;
}

/** What an answer depends on. */
function stated() {
  return [at("rows").value, address("", "")].join("\n");
}

function changed() {
  dropped("list");
  at("list-stale").hidden = asked === null || asked === stated();
}

function check(words, caution) {
  const own = stated();
  const to = address("/v1/hang-points", "json", { detail: "modes" });
  const request = { body: at("rows").value, type: "text/csv; charset=utf-8" };
  at("list-answer").replaceChildren();
  asked = null;
  changed();
  answered(
    "list",
    async (signal) => (await call(to, { ...request, signal })).json(),
    (answer) => {
      asked = own;
      caution(answer.cautions);
      at("list-answer").replaceChildren(listPart(answer, words));
      return at("list-answer").querySelector(".verdict").textContent;
    },
  );
}

function saveAs(from, name, accept) {
  const marked = name.endsWith(".csv") ? ["\ufeff"] : []; // spreadsheets take a CSV without it for another encoding
  const request = { body: at("rows").value, type: "text/csv; charset=utf-8", accept };
  answered(
    "list",
    async (signal) => (await call(from, { ...request, signal })).blob(),
    (blob) => {
      save(new Blob([...marked, blob]), name);
      return `Saved: ${name}`;
    },
  );
}

/** The text of a file, and what is to be told of how it was read. */
function textOf(bytes) {
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) {
    return [new TextDecoder(bytes[0] === 0xff ? "utf-16le" : "utf-16be").decode(bytes), ""];
  }
  try {
    return [new TextDecoder("utf-8", { fatal: true }).decode(bytes), ""];
  } catch {
    const told = "This file isn't in UTF-8: its letters were read as windows-1252. See whether they are right.";
    return [new TextDecoder("windows-1252").decode(bytes), told];
  }
}

function isWorkbook(bytes) {
  return bytes[0] === 0x50 && bytes[1] === 0x4b;
}

/** Offer the sheets of a workbook; the one that is chosen stays so. */
function offerSheets(names, chosen) {
  const options = ["", ...names].map((name) => new Option(name || "not stated", name, false, name === chosen));
  at("sheet-name").replaceChildren(...options);
}

async function rowsOfWorkbook(signal) {
  const stated = {
    sheet: at("sheet-name").value,
    header: at("header-row").value.trim(),
    hidden: at("hidden-cells").value,
    decimal: at("decimal").value,
  };
  const query = new URLSearchParams(Object.entries(stated).filter(([, text]) => text));
  try {
    return (await call(`/v1/workbook-rows?${query}`, { body: workbook, type: WORKBOOK, signal })).json();
  } catch (problem) {
    const names = problem.errors?.find((error) => error.pointer === "?sheet")?.allowed;
    if (names) {
      offerSheets(names, "");
    }
    throw problem;
  }
}

/** Put the rows of a sheet where rows are pasted, so that they are seen before they are checked. */
function takeSheet() {
  at("of-workbook").hidden = false;
  at("rows").value = "";
  at("list-answer").replaceChildren();
  asked = null;
  changed();
  answered("list", rowsOfWorkbook, (read) => {
    offerSheets(read.sheets.includes(read.sheet) ? read.sheets : [...read.sheets, read.sheet], read.sheet);
    at("rows").value = read.csv;
    changed();
    return [`Taken: ${read.rows} rows of the sheet ${read.sheet}.`, ...read.notes].join(" ");
  });
}

async function taken() {
  const [file] = at("file").files;
  if (!file) {
    return;
  }
  dropped("list");
  const bytes = new Uint8Array(await file.arrayBuffer());
  workbook = isWorkbook(bytes) ? bytes : null;
  at("of-workbook").hidden = true;
  if (workbook) {
    offerSheets([], "");
    at("header-row").value = "";
    at("hidden-cells").value = "";
    takeSheet();
    return;
  }
  const [text, told] = textOf(bytes);
  tell("list", told || `Taken: ${file.name}`);
  at("rows").value = text;
  changed();
}

/** Let the buttons of this part work; `known` holds what the service said of its fields. */
export function listen(known, caution) {
  at("list-form").addEventListener("submit", (event) => {
    event.preventDefault();
    check(known.words, caution);
  });
  for (const id of ["rows", "list-units", "list-code", "decimal", "defaults", "notes"]) {
    at(id).addEventListener("input", changed);
  }
  at("file").addEventListener("click", () => {
    at("file").value = ""; // the same file may have been mended meanwhile
  });
  at("file").addEventListener("change", taken);
  for (const id of ["sheet-name", "header-row", "hidden-cells"]) {
    at(id).addEventListener("change", takeSheet);
  }
  at("empty-file").addEventListener("click", () => {
    save(new Blob(["\ufeff", known.empty[at("list-units").value || "us"]], { type: "text/csv" }), "hang_points.csv");
  });
  at("schedule").addEventListener("click", () => {
    saveAs(address("/v1/hang-points", "csv"), "schedule.csv", "text/csv");
  });
  at("workbook").addEventListener("click", () => {
    saveAs(address("/v1/hang-points", "xlsx"), "schedule.xlsx", "*/*");
  });
  at("submittal").addEventListener("click", () => {
    saveAs(address("/v1/submittals", "pdf"), "submittal.pdf", "application/pdf");
  });
  at("rfis").addEventListener("click", () => {
    saveAs(address("/v1/rfis", "pdf"), "rfis.pdf", "application/pdf");
  });
}

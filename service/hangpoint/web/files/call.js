/** Calls of the service, and the places of the page where their answers go. */

import { make, problemPart } from "./answer.js";

export const at = (id) => document.getElementById(id);

const NO_ANSWER = { title: "The service doesn't answer", detail: "Nothing came back: ask again, or whoever runs it." };
const BROKEN_OFF = { title: "The answer can't be read", detail: "It may have broken off on its way: ask again." };

/** A call of the service; a problem is thrown as the service said it. */
export async function call(address, { body, type = "application/json", accept = "application/json", signal } = {}) {
  const token = sessionStorage.getItem("token");
  const headers = { Accept: accept, ...(body === undefined ? {} : { "Content-Type": type }) };
  if (token) {
    headers.Authorization = `Bearer ${token}`;
  }
  let response;
  try {
    response = await fetch(address, { method: body === undefined ? "GET" : "POST", headers, body, signal });
  } catch {
    throw NO_ANSWER;
  }
  if (response.status === 401) {
    at("token-asked").hidden = false;
    at("token").focus();
  }
  if (!response.ok) {
    throw await response.json().catch(() => ({ title: `The service answered ${response.status}` }));
  }
  return response;
}

/** Tell a line of a part of the page, also to whoever listens; it isn't seen where the answer begins with the same. */
export function tell(name, text) {
  at(`${name}-told`).textContent = text;
  const seen = at(`${name}-answer`).querySelector(".verdict");
  at(`${name}-told`).classList.toggle("unseen", seen?.textContent === text);
}

const underWay = {};

/** What a part of the page still waits for is no longer wanted: its answer would be of what was asked before. */
export function dropped(name) {
  if (underWay[name]) {
    underWay[name].abort();
    delete underWay[name];
    tell(name, "What was asked for has changed on the way: ask again.");
  }
}

/**
 * Do what a button asks for; only the newest of a part of the page has its answer shown.
 *
 * @param name of the part: `point` or `list`, before `-told` and `-answer` in the ids of its places.
 * @param work from a signal, on which it stops, to what its answer is.
 * @param show what the answer is, once it is there and nothing newer was asked: what is told of it in a line.
 * @param toField from an error to its field, where the part has fields.
 */
export async function answered(name, work, show, toField = null) {
  dropped(name);
  const own = new AbortController();
  underWay[name] = own;
  tell(name, "Asking the service …");
  try {
    const answer = await work(own.signal);
    if (!own.signal.aborted) {
      tell(name, show(answer));
    }
  } catch (thrown) {
    if (own.signal.aborted) {
      return;
    }
    const problem = thrown instanceof Error ? BROKEN_OFF : thrown;
    at(`${name}-answer`).replaceChildren(problemPart(problem, toField));
    tell(name, problem.title);
    if (thrown instanceof Error) {
      throw thrown;
    }
  } finally {
    if (underWay[name] === own) {
      delete underWay[name];
      const told = at(`${name}-told`);
      const seen = told.classList.contains("unseen") ? at(`${name}-answer`).querySelector(".verdict") : told;
      seen.scrollIntoView({ block: "start" });
    }
  }
}

/** Save a file under a name. */
export function save(blob, name) {
  const link = make("a", { href: URL.createObjectURL(blob), download: name });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

/** Show a page of the service in a window, which is opened before the answer so that no browser keeps it shut. */
export async function shownApart(address, request) {
  const opened = window.open("", "_blank");
  try {
    const response = await call(address, request);
    const kept = URL.createObjectURL(await response.blob());
    if (opened) {
      opened.location = kept;
    }
    return { kept, opened };
  } catch (problem) {
    opened?.close();
    throw problem;
  }
}

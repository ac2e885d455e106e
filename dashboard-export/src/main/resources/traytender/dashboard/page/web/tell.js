// What the grower does, told to the program, with a way back.
import { ask } from "./ask.js";
import { el, replaceContent } from "./dom.js";

async function send(method, path, body) {
  const response = await fetch(`/api/v1/${path}`, {
    method, headers: { "Content-Type": "application/json" }, body: body === undefined ? undefined : JSON.stringify(body),
  });
  if (response.status === 401) {
    location.assign("/login");
    throw new Error("log in first");
  }
  const answer = await response.json();
  if (!response.ok) throw new Error(answer.error ?? `the program answered ${response.status}`);
  return answer;
}

export const post = (path, body = {}) => send("POST", path, body);
export const put = (path, body) => send("PUT", path, body);
export const remove = (path) => send("DELETE", path);
export { ask };

const place = () => document.getElementById("told");
let lastUndo = null;

/** Says what was done and offers to take it back; it stays until the next thing is done or it is closed. */
export function said(words, undo) {
  lastUndo = undo ?? null;
  const gone = () => replaceContent(place());
  replaceContent(place(), el("p", {}, words), undo && el("button", { type: "button", id: "undo", onclick: () => takeBack() }, "Undo"),
    el("button", { type: "button", class: "plain", id: "told-close", "aria-label": "Close this message", onclick: gone }, "✕"));
}

export function failed(error) {
  lastUndo = null;
  replaceContent(place(), el("p", { class: "wrong", role: "alert" }, `Not done: ${error.message}`),
    el("button", { type: "button", class: "plain", id: "told-close", "aria-label": "Close this message", onclick: () => replaceContent(place()) }, "✕"));
}

/** Nothing is left to be told: what could not be done is done now. */
export const quiet = () => replaceContent(place());

/** Takes the last thing back. */
export async function takeBack() {
  if (!lastUndo) return;
  const undo = lastUndo;
  lastUndo = null;
  try {
    await undo();
    said("Taken back.");
  } catch (error) {
    failed(error);
  }
}

/** Does something once, with its buttons out of reach meanwhile, and says so when it cannot be done. */
export async function doing(button, work) {
  button.disabled = true;
  try {
    await work();
  } catch (error) {
    failed(error);
  } finally {
    button.disabled = false;
  }
}

/** Writes journal entries and says so, with undo. */
export async function writeEntries(entries, words) {
  const kept = await post("journal", entries);
  const doubts = [...new Set(kept.flatMap(({ doubts: why }) => why ?? []))];
  said(doubts.length ? `${words} But: ${doubts.join("; ")}.` : words, async () => {
    for (const { number } of kept) await remove(`journal/${number}`);
  });
  return kept;
}

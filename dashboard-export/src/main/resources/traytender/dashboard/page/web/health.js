// What keeps the program from its work, and what must be known besides, above every view.
import { ask } from "./ask.js";
import { el, replaceContent } from "./dom.js";

/** Shortest time between two questions. */
const PACE_MS = 5000;

const place = document.getElementById("health");
let asked = -Infinity;
let shown = "";

/** Asks the program how it is, unless it has been asked just now. */
export async function tellHealth() {
  if (performance.now() - asked < PACE_MS) return;
  asked = performance.now();
  const { causes, notes } = await ask("health");
  const text = JSON.stringify([causes, notes]);
  // Said anew only when it changes, or a screen reader would repeat it.
  if (text === shown) return;
  shown = text;
  replaceContent(place,
    causes.map((cause) => el("p", { class: "wrong" }, `The program cannot do all its work: ${cause}`)),
    notes.map((note) => el("p", {}, `Good to know: ${note}`)));
}

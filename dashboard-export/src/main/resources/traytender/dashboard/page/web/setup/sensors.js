// Setup: sensors that speak but have no place yet, and those that have one.
import { bench } from "../bench.js";
import { el } from "../dom.js";
import { ask } from "../tell.js";
import { head, load } from "./file.js";
import { heardCard, idOf, keyOf, showHeard } from "./heard.js";
import { Movement } from "./movement.js";
import { placed, showPlaced } from "./placed.js";

const LOOK_MS = 2000;

export function sensorsView({ go }) {
  const state = { heard: [], movement: new Movement(), first: new Map(), filledIn: [], redraw: () => go("/setup/sensors", { replace: true }) };
  return { title: "Sensors", on: [], isHeld: () => true, load: () => fetchAll(state), draw: () => draw(state),
    drawn: () => { fillInAgain(state); update(state); follow(state); } };
}

async function fetchAll(state) {
  [state.heard] = await Promise.all([ask("site/sensors"), load()]);
  note(state);
}

function note(state) {
  for (const one of state.heard) {
    if (!state.first.has(one.topic)) state.first.set(one.topic, { count: one.count, last: Date.parse(one.last) });
    one.fields.forEach((found) => state.movement.see(keyOf(one.topic, found.where), found.value, one.count));
  }
}

/** Values change in place while the page is looked at; forms are left as they are. */
async function follow(state) {
  const list = document.getElementById("heard");
  while (list?.isConnected) {
    await new Promise((resolve) => setTimeout(resolve, LOOK_MS));
    if (!list.isConnected) return;
    const before = state.heard;
    state.heard = await ask("site/sensors").catch(() => before);
    note(state);
    if (!before.length !== !state.heard.length) return state.redraw();
    addAndRemove(state, list, before);
    update(state);
  }
}

/** Cards come and go by themselves; what is being filled in on the others stays. */
function addAndRemove(state, list, before) {
  const isIn = (topics, { topic }) => topics.some((one) => one.topic === topic);
  before.filter((one) => !isIn(state.heard, one)).forEach(({ topic }) => document.getElementById(`topic-${idOf(topic)}`)?.remove());
  list.append(...state.heard.filter((one) => !isIn(before, one)).map((one) => heardCard(state, one, false)));
}

function update(state) {
  const moving = state.movement.moving();
  // Messages are newer than the page's own clock, which the program sets every ten seconds.
  const now = Math.max(bench.now, ...state.heard.map(({ last }) => Date.parse(last)));
  for (const one of state.heard) showHeard(one, now, moving);
  showPlaced();
}

/** What is being filled in on the cards: drawing anew after another sensor was placed must not change where this one is said to stand. */
const filledIn = () => [...document.querySelectorAll("#heard select, #heard input")].map(({ id, value }) => [id, value]);

function fillInAgain(state) {
  for (const [id, value] of state.filledIn) {
    const field = document.getElementById(id);
    if (!field?.closest("#heard") || field.value === value) continue;
    field.value = value;
    field.dispatchEvent(new Event(field.tagName === "SELECT" ? "change" : "input"));
  }
}

function draw(state) {
  state.filledIn = filledIn();
  return [...head("Sensors", "A sensor that sends is listed here by itself. Say what it measures and tap the cell it stands in."),
    el("section", { "aria-labelledby": "heard-title" }, el("h2", { id: "heard-title" }, "Not placed yet"),
      state.heard.length > 0 && el("div", { class: "buttons" },
        el("button", { type: "button", id: "which", onclick: (event) => {
          state.movement.begin();
          event.target.textContent = "Watching: hold, warm or dip the sensor now";
        } }, "Which is it?"),
        el("span", { class: "quiet" }, "Press, then take one sensor in your hand, warm it or dip it: the one that moves is marked.")),
      el("div", { id: "heard" }, state.heard.map((one) => heardCard(state, one, state.heard.length === 1))),
      !state.heard.length && el("p", { class: "quiet" }, "Nothing is heard that has no place yet. ", el("a", { href: "/setup/devices" }, "What to type into the board"))),
    placed(state)];
}

// Open and past alerts with their evidence.
import { alertItem, inOrder } from "../alert-item.js";
import { ask } from "../ask.js";
import { bench } from "../bench.js";
import { el } from "../dom.js";
import { longDay } from "../words.js";

/** How many past alerts are shown at first, and more each time; our choice. */
const STEP = 40;

export function alertsView() {
  const state = { most: STEP, all: [] };
  return { title: "Alerts", on: ["alerts"], load: () => load(state), draw: () => draw(state) };
}

async function load(state) {
  state.all = await ask("alerts", { limit: state.most + bench.alerts.length });
}

function draw(state) {
  const open = inOrder(state.all.filter((alert) => !alert.closed));
  const past = state.all.filter((alert) => alert.closed);
  let lastDay = "";
  return [el("h1", {}, "Alerts"),
    el("section", { "aria-label": "Open" }, el("h2", {}, "Open", el("span", { class: "count" }, ` ${open.length}`)),
      open.length ? open.map((alert) => alertItem(alert)) : el("p", { class: "quiet" }, "None.")),
    el("section", { "aria-label": "Past" }, el("h2", {}, "Past"),
      past.length ? past.map((alert) => {
        const newDay = longDay(alert.opened) === lastDay ? null : el("p", { class: "day" }, longDay(alert.opened));
        lastDay = longDay(alert.opened);
        return [newDay, alertItem(alert)];
      }) : el("p", { class: "quiet" }, "None yet."),
      past.length >= state.most && el("button", { type: "button", id: "more", onclick: async (event) => {
        state.most += STEP;
        event.target.disabled = true;
        await load(state);
        event.target.closest("main").replaceChildren(...draw(state).flat(Infinity));
      } }, "Earlier ones"))];
}

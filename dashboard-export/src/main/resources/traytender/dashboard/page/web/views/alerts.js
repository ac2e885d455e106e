// Open and past alerts with their evidence.
import { alertItem, inOrder } from "../alert-item.js";
import { ask } from "../ask.js";
import { bench } from "../bench.js";
import { el } from "../dom.js";
import { capital, lasting, longDay, spoken, zoneWords } from "../words.js";

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
  return [el("h1", {}, "Alerts"),
    el("section", { "aria-label": "Open" }, el("h2", {}, "Open", el("span", { class: "count" }, ` ${open.length}`)),
      open.length ? open.map((alert) => alertItem(alert)) : el("p", { class: "quiet" }, "None.")),
    el("section", { "aria-label": "Past" }, el("h2", {}, "Past"),
      past.length ? groups(past).map(group) : el("p", { class: "quiet" }, "None yet."),
      past.length >= state.most && el("button", { type: "button", id: "more", onclick: async (event) => {
        state.most += STEP;
        event.target.disabled = true;
        await load(state);
        event.target.closest("main").replaceChildren(...draw(state).flat(Infinity));
      } }, "Earlier ones"))];
}

/** Past alerts of one kind at one place together, the one that closed last first. */
function groups(past) {
  const byPlace = new Map();
  for (const alert of past) {
    const key = JSON.stringify([alert.kind, alert.tray ?? alert.room, alert.zone, alert.reason]);
    byPlace.set(key, [...(byPlace.get(key) ?? []), alert]);
  }
  const newest = (alerts) => Math.max(...alerts.map(({ closed }) => Date.parse(closed)));
  return [...byPlace.values()].sort((one, other) => newest(other) - newest(one));
}

function group(alerts) {
  if (alerts.length === 1) return alertItem(alerts[0]);
  const [last] = alerts;
  const place = [last.tray ?? capital(spoken(last.room)), last.zone && last.zone !== "tray" && zoneWords(last.zone)].filter(Boolean).join(", ");
  const open = alerts.reduce((sum, { opened, closed }) => sum + Date.parse(closed) - Date.parse(opened), 0);
  return el("details", { class: "group", id: `group-${last.id}` },
    el("summary", {}, el("strong", {}, `${place}: ${spoken(last.kind)}, ${alerts.length} times`),
      ` from ${longDay(alerts.at(-1).opened)} to ${longDay(last.opened)}, ${lasting(open)} in all`),
    alerts.map((alert) => alertItem(alert)));
}

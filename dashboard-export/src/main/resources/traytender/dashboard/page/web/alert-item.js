// One alert as the grower reads it: what to do first, then what is so, where, since when and until when.
import { bench } from "./bench.js";
import { el } from "./dom.js";
import { evidence } from "./trace.js";
import { capital, clock, inScale, lasting, spoken, when, zoneWords } from "./words.js";

const ORDER = { now: 0, today: 1, note: 2 };
export const URGENCY = {
  now: { sign: "!", title: "Now" },
  today: { sign: "•", title: "Today" },
  note: { sign: "i", title: "Good to know" },
};

/** When an alert must be seen to: its expected time, where it looks ahead, else at once. */
const due = (alert) => Date.parse(alert.expected ?? alert.opened);

/** Alerts in the order in which they are to be seen to. */
export function inOrder(alerts) {
  return [...alerts].sort((one, other) => ORDER[one.urgency] - ORDER[other.urgency]
    || due(one) - due(other) || one.id.localeCompare(other.id));
}

export function alertItem(alert, level = "h3") {
  const tray = bench.trays.find(({ id }) => id === alert.tray);
  const open = !alert.closed;
  return el("article", { class: `alert ${open ? alert.urgency : "past"}`, "data-alert": alert.id, "data-kind": alert.kind },
    el("p", { class: "sign", "aria-hidden": "true" }, open ? URGENCY[alert.urgency].sign : "✓"),
    el("div", { class: "alert-words" },
      el(level, {}, inScale(alert.do)),
      el("p", {}, inScale(alert.says)),
      el("p", { class: "where" }, ...where(alert, tray), " · ", times(alert)),
      evidence(alert)));
}

function where(alert, tray) {
  if (!alert.tray) return [capital(spoken(alert.room))];
  const link = el("a", { href: `/trays/${encodeURIComponent(alert.tray)}` }, alert.tray);
  const zone = alert.zone && alert.zone !== "tray" ? ` ${zoneWords(alert.zone)}` : "";
  const stands = tray ? `, ${tray.room}${tray.bench ? `, ${tray.bench} bench` : ""}` : "";
  return [link, `${zone}${stands}`];
}

function times(alert) {
  const { now } = bench;
  if (alert.closed) {
    return `${when(alert.opened, now)} until ${when(alert.closed, now)} (${lasting(Date.parse(alert.closed) - Date.parse(alert.opened))})`;
  }
  if (alert.expected) {
    return `until about ${when(alert.expected, now)} (${clock(alert.earliest)} to ${clock(alert.latest)})`;
  }
  return `since ${when(alert.opened, now)}, ${lasting(now - Date.parse(alert.opened))}`;
}

// One alert as the grower reads it: what to do first, then what is so, where, since when and until when.
import { bench } from "./bench.js";
import { el } from "./dom.js";
import { isHeat } from "./round.js";
import { evidence } from "./trace.js";
import { capital, clock, degrees, degreesApart, inScale, lasting, percent, spoken, when, zoneWords } from "./words.js";

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
  return [...alerts].sort((one, other) => ORDER[one.urgency] - ORDER[other.urgency] || isHeat(other) - isHeat(one)
    || due(one) - due(other) || one.id.localeCompare(other.id));
}

/** An alert; actions: buttons beneath its words, none where there is nothing to tap. */
export function alertItem(alert, level = "h3", actions = null) {
  const tray = bench.trays.find(({ id }) => id === alert.tray);
  const open = !alert.closed;
  // This kind compares two temperatures: its figures are differences.
  const apart = alert.kind === "uneven-heat";
  return el("article", { class: `alert ${open ? alert.urgency : "past"}`, "data-alert": alert.id, "data-kind": alert.kind },
    el("p", { class: "sign", "aria-hidden": "true" }, open ? URGENCY[alert.urgency].sign : "✓"),
    el("div", { class: "alert-words" },
      el(level, {}, place(alert), ": ", inScale(alert.do, apart)),
      el("p", {}, inScale(alert.says, apart)),
      el("p", { class: "where" }, [...where(alert, tray), times(alert), ...marked(alert)].join(" · ")),
      actions,
      evidence(alert)));
}

/** The tray or room in front of what is to be done: the hand must know where to go. */
function place(alert) {
  return alert.tray ? el("a", { href: `/trays/${encodeURIComponent(alert.tray)}` }, alert.tray) : capital(spoken(alert.room));
}

function where(alert, tray) {
  return [...(tray ? [spoken(tray.room) + (tray.bench ? `, ${spoken(tray.bench)} bench` : "")] : []), ...nowAt(alert, tray)];
}

const ABOUT_MOISTURE = ["dry", "drying-soon", "staying-wet", "missed-watering"];
const ABOUT_ROOT_ZONE = ["centre-overheating", "root-cold", "mat-not-heating", "mat-not-stopping"];
const ABOUT_AIR = ["night-cold", "air-hot", "frost-risk"];

/** What the place is at now, since an alert's own figures are as at its opening. */
function nowAt(alert, tray) {
  if (alert.closed) return [];
  if (ABOUT_MOISTURE.includes(alert.kind)) {
    const moisture = tray?.zones.find(({ zone }) => zone === alert.zone)?.moisture;
    return Number.isFinite(moisture) ? [`now at ${percent(moisture)}`] : [];
  }
  if (ABOUT_ROOT_ZONE.includes(alert.kind)) return rootZoneNow(alert, tray);
  return ABOUT_AIR.includes(alert.kind) ? airNow(bench.rooms.find(({ id }) => id === (alert.room ?? tray?.room))) : [];
}

/** A zone's own temperature; a whole tray's by its coldest place where cold is the trouble, else by its hottest. */
function rootZoneNow(alert, tray) {
  const zones = tray?.zones.filter(({ zone, temperature }) => temperature !== null && (zone === alert.zone || alert.zone === "tray")) ?? [];
  if (!zones.length) return [];
  const cold = ["root-cold", "mat-not-heating"].includes(alert.kind);
  const at = zones.reduce((one, other) => ((other.temperature < one.temperature) === cold ? other : one));
  return [`now at ${degrees(at.temperature)}${alert.zone === "tray" && zones.length > 1 ? ` in the ${zoneWords(at.zone)}` : ""}`];
}

function airNow(room) {
  if (!room || room.airTemperature === null) return [];
  const { night } = room;
  return [`now at ${degrees(room.airTemperature)}`,
    ...(night ? [`lowest expected now ${degrees(night.lowest)}, give or take ${degreesApart(night.doubt)}`] : [])];
}

const MARKS = { done: "done", later: "put off", "not-so": "marked not so", seen: "seen" };

function marked({ mark, closed }) {
  if (!mark) return [];
  const again = mark.until && !mark.holds && !closed ? ", still so" : "";
  return [`${MARKS[mark.mark]} at ${when(mark.at, bench.now)}${again}`];
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

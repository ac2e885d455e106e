// The start page: what to do now, then every tray as its cells.
import { alertItem, inOrder, URGENCY } from "../alert-item.js";
import { bench } from "../bench.js";
import { el } from "../dom.js";
import { trayCard } from "../tray-card.js";
import { clock, dateOf, when } from "../words.js";

export function todoView() {
  return { title: "To do", on: ["alerts", "trays"], draw };
}

function draw() {
  return [el("h1", {}, "What to do"), el("div", { class: "todo" },
    el("section", { class: "todo-list", "aria-label": "What to do" }, ...list()),
    el("section", { "aria-labelledby": "bench-title" },
      el("h2", { id: "bench-title" }, "The trays"),
      bench.trays.length ? el("div", { class: "cards small" }, worstFirst().map((tray) => trayCard(tray)))
        : el("p", { class: "quiet" }, "No trays in the site folder yet.")))];
}

function list() {
  const open = inOrder(bench.alerts);
  const toDo = open.filter((alert) => alert.urgency !== "note");
  const parts = toDo.length ? [] : [el("p", { class: "nothing" }, nothing())];
  for (const urgency of ["now", "today", "note"]) {
    const of = open.filter((alert) => alert.urgency === urgency);
    if (!of.length) continue;
    const { title } = URGENCY[urgency];
    parts.push(el("section", { class: `urgency ${urgency}`, "aria-label": title },
      el("h2", {}, title, el("span", { class: "count" }, ` ${of.length}`)), of.map((alert) => alertItem(alert))));
  }
  return parts;
}

/** Said when nothing is to be done: until the first zone is expected to be dry, or the next morning round. */
function nothing() {
  const { now } = bench;
  const coming = bench.trays.flatMap((tray) => tray.zones).map((zone) => Date.parse(zone.expected))
    .filter((time) => time > now);
  const round = bench.site.morningRound;
  const roundIsToday = clock(now) < round;
  const first = coming.length ? Math.min(...coming) : Infinity;
  const today = dateOf(first === Infinity ? now : first) === dateOf(now);
  if (first !== Infinity && (today || roundIsToday)) return `Nothing to do until about ${when(first, now)}.`;
  return `Nothing to do until the morning round at ${round}${roundIsToday ? "" : " tomorrow"}.`;
}

const RANK = { now: 0, today: 1, note: 2 };

function worstFirst() {
  const rank = (tray) => Math.min(3, ...bench.alerts.filter((alert) => alert.tray === tray.id).map(({ urgency }) => RANK[urgency]));
  return [...bench.trays].sort((one, other) => rank(one) - rank(other));
}

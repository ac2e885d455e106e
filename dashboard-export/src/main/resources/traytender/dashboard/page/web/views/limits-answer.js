// What other limits would have made different: in a sentence, on a timeline, alert by alert, and in hours of each tray.
import { bench } from "../bench.js";
import { el, svg, table } from "../dom.js";
import { limitName } from "../limit-words.js";
import { clock, day, hours, lasting, listed, spoken, when, zoneWords } from "../words.js";

const DAY = 86400000;
const WHATS = { gained: "gained", lost: "lost", earlier: "earlier", later: "later", same: "the same" };
const alertOf = ({ before, after }) => after ?? before;
const count = (list, what) => list.filter((one) => one.what === what).length;
const shift = ({ before, after }) => Math.abs(Date.parse(after.opened) - Date.parse(before.opened));
const middle = (numbers) => [...numbers].sort((one, other) => one - other)[Math.floor(numbers.length / 2)];

/** What came of a trial: the sentence, the timeline, the tables. */
export function answerParts(state, period) {
  const { differences, from, to, outside } = state.trial;
  const changed = differences.filter(({ what }) => what !== "same");
  return [el("p", { class: "lead", id: "answer-sentence" }, sentence(state.trial, period)),
    changed.length > 0 && [timeline(changed, Date.parse(from), Date.parse(to)), differenceTable(changed)],
    el("div", { id: "outside-hours" }, hoursTable(outside))];
}

function sentence({ differences }, period) {
  const part = (what, words) => {
    const of = differences.filter((one) => one.what === what);
    if (!of.length) return null;
    const by = what === "earlier" || what === "later" ? `, by ${lasting(middle(of.map(shift)))} in the middle` : ` (${kinds(of)})`;
    return `${of.length} ${words}${by}`;
  };
  const parts = [part("gained", "more"), part("lost", "gone"), part("earlier", "earlier"), part("later", "later")].filter(Boolean);
  if (!parts.length) return `Over ${period} nothing would have been different: ${differences.length} alerts, the same ones.`;
  const notSo = differences.filter(({ what, mark }) => what === "lost" && mark === "not-so").length;
  return `Over ${period}: ${listed(parts)}; ${count(differences, "same")} the same.${
    notSo ? ` Of those gone you had marked ${notSo} as not so.` : ""}`;
}

function kinds(of) {
  const counts = new Map();
  for (const one of of) counts.set(alertOf(one).kind, (counts.get(alertOf(one).kind) ?? 0) + 1);
  return listed([...counts].sort((one, other) => other[1] - one[1]).map(([kind, number]) => `${number} ${spoken(kind)}`));
}

const placeOf = (alert) => (alert.tray ? `${alert.tray}${alert.zone && alert.zone !== "tray" ? ` ${zoneWords(alert.zone)}` : ""}` : spoken(alert.room));

/** Old above, new below, a row a place; drawn as bars from opening to closing. */
function timeline(changed, from, to) {
  const first = Math.max(from, Math.min(...changed.map((one) => Date.parse((one.before ?? one.after).opened))) - 3 * 3600000);
  const places = [...new Set(changed.map((one) => placeOf(alertOf(one))))].sort().slice(0, 24);
  const [width, left, row, top] = [700, 130, 26, 18];
  const height = top + places.length * row + 4;
  const x = (time) => left + (Math.min(to, Math.max(first, time)) - first) / (to - first) * (width - left - 4);
  const bar = (alert, y, kind) => {
    const [start, end] = [x(Date.parse(alert.opened)), x(alert.closed ? Date.parse(alert.closed) : bench.now)];
    return svg("rect", { x: start, y, width: Math.max(3, end - start), height: 9, class: `bar ${kind}` },
      svg("title", {}, `${kind === "old" ? "By the old limits" : "By the new"}: ${placeOf(alert)}, ${spoken(alert.kind)}, from ${when(alert.opened, bench.now)}`));
  };
  const days = [];
  for (let time = first; time < to; time += DAY) {
    const midnight = Date.parse(new Date(time).toISOString().slice(0, 10));
    if (midnight > first) days.push(midnight);
  }
  return el("figure", { class: "timeline" },
    el("figcaption", {}, "Alerts that differ: above by the old limits ", el("span", { class: "swatch old", "aria-hidden": "true" }), ", below by the new ",
      el("span", { class: "swatch new", "aria-hidden": "true" }), ". The table beneath says the same."),
    el("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": "Timeline" },
      svg("svg", { viewBox: `0 0 ${width} ${height}`, role: "img", "aria-label": "Timeline of the alerts that differ" },
        days.filter((_, i) => i % Math.ceil(days.length / 8) === 0).map((time) => [svg("line", { x1: x(time), x2: x(time), y1: top - 2, y2: height, class: "tick" }),
          svg("text", { x: x(time) + 3, y: 12 }, day(time))]),
        places.map((place, i) => {
          const y = top + i * row;
          return [svg("text", { x: 0, y: y + 14 }, place),
            changed.filter((one) => placeOf(alertOf(one)) === place).map(({ before, after }) => [before && bar(before, y + 2, "old"), after && bar(after, y + 12, "new")])];
        }))));
}

function differenceTable(changed) {
  const at = (alert) => (alert ? `${day(alert.opened)} ${clock(alert.opened)}` : "—");
  const rows = changed.map((one) => [placeOf(alertOf(one)), spoken(alertOf(one).kind), at(one.before), at(one.after),
    one.before && one.after ? `${WHATS[one.what]} by ${lasting(shift(one))}` : WHATS[one.what], one.mark ? spoken(one.mark) : "—"]);
  return el("details", { id: "differences", open: rows.length <= 12 }, el("summary", {}, `Alert by alert: ${rows.length}`),
    table("What would have been different", ["Where", "What", "Old limits", "New limits", "Difference", "You said"], rows));
}

/** How long each tray's worst place stood outside a limit, by the old ones and by the new; where it is as it was, no row. */
function hoursTable(outside) {
  const rows = outside.filter(({ before, after }) => Math.abs(after - before) >= 0.05)
    .map(({ tray, limit, before, after }) => [tray, limitName(limit), hours(before), hours(after)]);
  if (!rows.length) return el("p", {}, "No tray would have been outside its limits for longer or shorter.");
  return table("Hours outside a limit, in the tray's worst place, where they differ", ["Tray", "Limit", "Old limits", "New limits"], rows, "Hours outside");
}

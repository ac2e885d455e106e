// Few probes, many trays: what is known of trays without one, and how little.
import { bench } from "./bench.js";
import { el } from "./dom.js";
import { listed, percent } from "./words.js";

/** A tray without a probe in a sentence; null for one with a probe, or with nothing growing in it. */
export function judgedWords({ id, judged }) {
  if (judged) return `No probe of its own. Judged from ${judged.from}: its driest part is at about ${percent(judged.moisture)}, give or take ${percent(2 * judged.spread)}.`;
  return bench.coverage?.blind.includes(id) ? "No probe, and no like tray that has one: nothing is known of its water. Look at it yourself." : null;
}

const link = (id) => el("a", { href: `/trays/${encodeURIComponent(id)}` }, id);

/** Trays to look at on the round because a like one is dry, or may be within the doubt. They raise no alert. */
export function lookAt() {
  const trays = bench.trays.filter(({ judged }) => judged && judged.moisture - 2 * judged.spread < judged.dryLine)
    .sort((one, other) => one.judged.moisture - other.judged.moisture);
  if (!trays.length) return null;
  return el("section", { class: "card", id: "look-at", "aria-labelledby": "look-at-title" },
    el("h2", { id: "look-at-title" }, "Without a probe: look yourself"),
    el("ul", {}, trays.map(({ id, judged }) => el("li", {}, link(id), ` ${judged.moisture < judged.dryLine ? "is probably dry" : "may be dry"}: judged from ${
      judged.from}, ${percent(judged.moisture)} ± ${percent(2 * judged.spread)}, dry line ${percent(judged.dryLine)}.`))));
}

/** How far the probes reach; null when every tray has one. */
export function coverageWords() {
  const { coverage } = bench;
  if (!coverage || (!coverage.judged.length && !coverage.blind.length)) return null;
  const { probed, judged, blind, next } = coverage;
  const all = probed.length + judged.length + blind.length;
  return el("details", { class: "card", id: "coverage" },
    el("summary", {}, el("strong", {}, `${probed.length} of ${all} trays have a probe`), `; ${judged.length} judged from others, ${blind.length} not at all`),
    judged.length > 0 && el("p", {}, `Judged from a like tray (same crop, stage, cells, medium, bench and mat, watered together), with more doubt: ${
      listed(judged.map(({ tray, from }) => `${tray} from ${from}`))}.`),
    blind.length > 0 && el("p", {}, `Not judged at all: ${listed(blind)}.`),
    next && el("p", {}, "The next probe helps most in the centre of ", link(next.tray), next.forBlind
      ? `: it would tell of ${next.speaksFor.length === 1 ? "a tray" : `${next.speaksFor.length} trays`} of which nothing is known.`
      : `: ${next.speaksFor.length === 1 ? "that tray is" : `${next.speaksFor.length} like trays are`} judged from others today.`));
}

/** A tray on a load cell in a sentence; null for any other. */
export function wholeWords({ whole }) {
  if (!whole) return null;
  const by = whole.byProbes === null ? "by its weight" : `by its weight ${percent(whole.byWeight)}, by its probes ${percent(whole.byProbes)}`;
  return `The whole tray is at ${percent(whole.moisture)} ± ${percent(2 * whole.spread)}: ${by}.${whole.disagree
    ? " The two disagree: weigh it dry and drained anew, or see to the probes." : ""}`;
}

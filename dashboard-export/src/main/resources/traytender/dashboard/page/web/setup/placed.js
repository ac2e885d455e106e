// Setup: probes that have their place, by tray, with what can be done to each.
import { bench } from "../bench.js";
import { el, replaceContent } from "../dom.js";
import { doing } from "../tell.js";
import { measuresWords } from "../words.js";
import { newest } from "./dated.js";
import { change, probes } from "./file.js";
import { moveForm } from "./move.js";
import { placeText } from "./place.js";
import { lastOf } from "./told.js";

/** What there is something to hold, weigh or compare for; the others are taken as they are sent. */
const CALIBRATED = ["moisture", "temperature", "air-temperature", "mat-surface", "weight"];

const toldWords = (probe) => lastOf(probe) || "not heard yet";

/** What they tell now, where they are listed. */
export function showPlaced() {
  for (const probe of probes()) {
    const place = document.querySelector(`[data-told="${CSS.escape(probe.id)}"]`);
    if (place) place.textContent = toldWords(probe);
  }
}

export function placed(state) {
  const by = new Map();
  for (const probe of probes()) {
    const { tray, mat, room } = newest(probe.at);
    by.set(tray ?? mat ?? room, [...(by.get(tray ?? mat ?? room) ?? []), probe]);
  }
  return el("section", { "aria-labelledby": "placed-title" }, el("h2", { id: "placed-title" }, "Placed"),
    by.size ? [...by].map(([place, all]) => [el("h3", {}, place), el("ul", { class: "placed", "aria-label": `At ${place}` }, all.map((probe) => item(state, probe)))])
      : el("p", { class: "quiet" }, "None yet."));
}

function item(state, probe) {
  const live = bench.probes.find(({ id }) => id === probe.id);
  const now = newest(probe.calibration);
  const offered = live?.offeredWet && now?.dry !== undefined && live.offeredWet !== now.wet ? live.offeredWet : null;
  const move = el("div", {});
  return el("li", { class: "card", "data-probe": probe.id },
    el("p", {}, el("strong", {}, probe.id), `: ${measuresWords(probe.measures)} ${placeText(newest(probe.at))}, `, el("span", { "data-told": probe.id }, toldWords(probe)),
      probe.measures === "moisture" && (!now || now === "none") && el("span", { class: "wrong" }, " — not calibrated yet")),
    offered && el("p", {}, `After soaks it stands at ${offered}, not at its wet end ${now.wet}: calibration is due again. `,
      el("button", { type: "button", id: `offer-${probe.id}`, onclick: (event) => doing(event.target, () => change([{ do: "calibrate", probe: probe.id,
        calibration: { dry: now.dry, wet: offered }, since: new Date(bench.now).toISOString() }], `${probe.id} has the wet end ${offered} from now on.`, state.redraw)) }, `Take ${offered} from now on`)),
    el("div", { class: "folds" }, CALIBRATED.includes(probe.measures) && el("a", { class: "button", href: `/setup/calibrate/${encodeURIComponent(probe.id)}`, "aria-label": `Calibrate ${probe.id}` }, "Calibrate"),
      // Drawn when it is asked for: a tray's cells for each probe would make a long page slow.
      el("details", { id: `move-${probe.id}`, ontoggle: ({ target }) => target.open && !move.firstChild && replaceContent(move, moveForm(state, probe)) },
        el("summary", {}, "Move, lend, take away"), move,
        el("button", { type: "button", "aria-label": `Take away ${probe.id}`, onclick: (event) => doing(event.target, () =>
          change([{ do: "remove", of: "probes", id: probe.id }], `${probe.id} is taken away; its readings stay on disk.`, state.redraw)) }, "Take away"))));
}

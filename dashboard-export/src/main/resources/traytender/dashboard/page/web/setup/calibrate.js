// Setup: one probe calibrated by hand-holding: its ends held, the spread seen, the effect on yesterday shown before it counts.
import { bench } from "../bench.js";
import { el, replaceContent, svg } from "../dom.js";
import { ask, doing, post, quiet } from "../tell.js";
import { clock, degreesApart, measuresWords, percent, valueOf as shown } from "../words.js";
import { newest } from "./dated.js";
import { change, choice, head, load, probes, text, valueOf } from "./file.js";
import { counts, isCounts } from "./told.js";

const LOOK_MS = 1000;
/** So many readings make an end; our choice. */
const FEWEST = 5;
const TEMPERATURES = ["temperature", "air-temperature", "mat-surface"];

export function calibrateView({ id, go }) {
  const state = { id, ends: {}, held: null, trial: null, redraw: () => go("/setup/sensors") };
  return { title: `Calibrate ${id}`, on: [], isHeld: () => true, load, draw: () => draw(state) };
}

function draw(state) {
  const probe = probes().find(({ id }) => id === state.id);
  if (!probe) return head("No such probe");
  const now = newest(probe.calibration);
  return [...head(`Calibrate ${probe.id}`, null),
    el("p", {}, el("a", { href: "/setup/sensors" }, "All sensors"), `. It measures ${measuresWords(probe.measures)}; its calibration now: `,
      now && now !== "none" ? calibrationWords(now) : "none", "."),
    probe.measures === "moisture" ? moisture(state, probe) : TEMPERATURES.includes(probe.measures) ? temperature(state, probe)
      : probe.measures === "weight" ? weight(state, probe) : el("p", {}, "It is taken as it is sent."),
    el("section", { id: "effect", "aria-live": "polite" })];
}

function moisture(state, probe) {
  return [holder(state, probe, "dry", "Dry end", "Stick it into air-dry medium of the same mix, firmly, as deep as in a cell. Wait until it is steady."),
    holder(state, probe, "wet", "Wet end", "Water a cell through, let it drain for half an hour, stick the probe in. Wait until it is steady."),
    el("details", { id: "weighing" }, el("summary", {}, "By weighing the tray instead of an end"),
      el("p", {}, "Kitchen scale: the tray dry, watered and drained, and now, with the probe in it. Take the reading while it is weighed."),
      text("w-dry", "Dry, g", "", { type: "number", min: "0" }), text("w-drained", "Drained, g", "", { type: "number", min: "0" }), text("w-now", "Now, g", "", { type: "number", min: "0" }),
      holder(state, probe, "weighed", "Reading now", "Hold still until it is steady.")),
    el("button", { type: "button", id: "show-effect", class: "main-button", onclick: (event) => doing(event.target, () => effect(state, probe, fromEnds(state))) }, "Show what it changes")];
}

/** What is held is listened to from the press on; its middle and its spread are shown until it is taken. */
function holder(state, probe, name, title, words) {
  const told = el("p", { id: `held-${name}`, role: "status" }, state.ends[name] ? endWords(state.ends[name]) : "");
  const take = el("button", { type: "button", id: `take-${name}`, disabled: true, onclick: () => {
    state.ends[name] = state.held.now;
    state.held = null;
    told.textContent = `Taken: ${endWords(state.ends[name])}`;
    take.disabled = true;
  } }, "Take it");
  return el("section", { class: "card", "aria-label": title }, el("h2", {}, title), el("p", {}, words),
    el("div", { class: "buttons" }, el("button", { type: "button", id: `hold-${name}`, onclick: () => {
      const held = { name, now: null };
      state.held = held;
      told.textContent = "Listening…";
      listen(state, probe, held, told, take);
    } }, "It is in"), take), told);
}

async function listen(state, probe, held, told, take) {
  // The program's own time, not the page's of some seconds ago: what it told before it was in does not count.
  const since = (await ask("site")).now;
  while (state.held === held && told.isConnected) {
    const { readings } = await ask("site/hand", { probe: probe.id, since }).catch(() => ({ readings: [] }));
    if (state.held !== held) return;
    if (readings.length) {
      held.now = spreadOf(readings.slice(-12).map(([, raw]) => raw));
      told.textContent = `${readings.length} readings: ${endWords(held.now)}. ${readings.length < FEWEST ? `Wait for ${FEWEST}.` : "Take it when it no longer drifts."}`;
      take.disabled = readings.length < FEWEST;
    }
    await new Promise((resolve) => setTimeout(resolve, LOOK_MS));
  }
}

function spreadOf(values) {
  const sorted = [...values].sort((one, other) => one - other);
  return { middle: sorted[Math.floor(sorted.length / 2)], spread: sorted.at(-1) - sorted[0] };
}

const endWords = ({ middle, spread }) => `${Number(middle.toPrecision(6))}, spread ${Number(spread.toPrecision(3))}`;

/** A calibration from the ends held; what cannot be is refused with the reason. */
function fromEnds({ ends }) {
  const points = [];
  if (ends.dry) points.push([ends.dry, 0]);
  if (ends.wet) points.push([ends.wet, 1]);
  if (ends.weighed) points.push([ends.weighed, weighed()]);
  if (points.length < 2) throw new Error("two ends are needed: the dry and the wet one, or one of them and a weighing");
  points.sort(([one], [other]) => one.middle - other.middle);
  for (let i = 1; i < points.length; i++) {
    const [[one, below], [other, above]] = [points[i - 1], points[i]];
    const unrest = Math.max(one.spread, other.spread);
    if (other.middle - one.middle <= 2 * unrest || other.middle === one.middle) {
      throw new Error(`${one.middle} and ${other.middle} are not apart by more than the readings spread (${unrest}): look at the contact, or whether this is the right probe`);
    }
    if (i > 1 && Math.sign(above - below) !== Math.sign(points[i - 1][1] - points[i - 2][1])) throw new Error("the weighing does not lie between the ends: weigh again");
  }
  if (ends.dry && ends.wet && !ends.weighed) return { dry: round(ends.dry.middle), wet: round(ends.wet.middle) };
  return { points: points.map(([{ middle }, moist]) => [round(middle), round(moist)]) };
}

const round = (value) => Number(value.toPrecision(5));

function weighed() {
  const [dry, drained, now] = ["w-dry", "w-drained", "w-now"].map((id) => Number(valueOf(id)));
  if (!(dry > 0 && drained > dry && now >= dry * 0.98 && now <= drained * 1.1)) throw new Error("the weights do not fit: dry is the lightest, drained the heaviest, now between them");
  return Math.max(0, Math.min(1.1, (now - dry) / (drained - dry)));
}

function temperature(state, probe) {
  const others = bench.probes.filter((other) => other.id !== probe.id && TEMPERATURES.includes(other.measures) && other.last);
  return [holder(state, probe, "ice", "In ice water", "Crushed ice with a little water in a cup, stirred, is at 0 °C. Hold the probe in it, in a bag if it is not tight, until it is steady."),
    el("button", { type: "button", id: "ice-effect", class: "main-button", onclick: (event) => doing(event.target, () => {
      if (!state.ends.ice) throw new Error("take the reading in ice water first");
      return effect(state, probe, offset(-state.ends.ice.middle));
    }) }, "Show what it changes"),
    others.length > 0 && el("section", { class: "card", "aria-label": "Against another" }, el("h2", {}, "Against another probe"),
      el("p", {}, "Put both into the same cup of water at room temperature for ten minutes. Then the other one's value counts."),
      choice("other-probe", "The other", others.map(({ id }) => [id, id]), others[0].id),
      el("button", { type: "button", id: "other-effect", onclick: (event) => doing(event.target, async () => {
        const since = new Date(bench.now - 300000).toISOString();
        const [mine, theirs] = await Promise.all([probe.id, valueOf("other-probe")].map((id) => ask("site/hand", { probe: id, since })));
        if (mine.readings.length < 3 || theirs.readings.length < 3) throw new Error("three readings of each in the last five minutes are needed");
        return effect(state, probe, offset(spreadOf(theirs.readings.map(([, , value]) => value)).middle - spreadOf(mine.readings.map(([, raw]) => raw)).middle));
      }) }, "Show what it changes"))];
}

function offset(value) {
  if (Math.abs(value) > 5) throw new Error(`it would be put right by ${value.toFixed(1)} °C: that is no calibration but a fault, or it does not send °C`);
  return { offset: Number(value.toFixed(2)) };
}

function weight(state, probe) {
  return el("section", { class: "card" }, el("p", {}, "The load cell's own grams become the moisture of the whole tray: the tray with dry medium, and watered through and drained."),
    text("tare", "Dry, g", "", { type: "number", min: "1" }), text("drained", "Drained, g", "", { type: "number", min: "1" }),
    el("button", { type: "button", id: "weight-effect", class: "main-button", onclick: (event) => doing(event.target, () => {
      const [tare, drained] = [Number(valueOf("tare")), Number(valueOf("drained"))];
      if (!(tare > 0 && drained > tare)) throw new Error("drained is heavier than dry");
      return effect(state, probe, { tare, drained });
    }) }, "Show what it changes"));
}

async function effect(state, probe, calibration) {
  const trial = await post("site/calibration-trial", { probe: probe.id, calibration });
  const place = cellOf(probe);
  const keep = (dated) => (event) => doing(event.target, async () => {
    // The program's own time, not the page's of some seconds ago, and rounded up, since the file keeps whole seconds:
    // or the last words from the cup would count in the cell.
    const now = new Date(Math.ceil(Date.parse((await ask("site")).now) / 1000) * 1000).toISOString();
    const changes = [{ do: "calibrate", probe: probe.id, calibration, ...(dated && { since: now }) }];
    // What it told in hand and cup is then compared with nothing that its cell tells.
    if (document.getElementById("back-in-cell")?.checked) changes.push({ do: "move", probe: probe.id, at: place, since: now });
    return change(changes, `${probe.id} is calibrated${dated ? " from now on" : ", for all its readings"}.`, state.redraw);
  });
  quiet();
  replaceContent(document.getElementById("effect"), el("h2", {}, "What it changes"), el("p", { id: "effect-sentence" }, sentence(probe, trial)),
    trial.readings.length > 1 && trace(trial),
    el("p", { id: "new-calibration" }, `New calibration: ${calibrationWords(calibration)}.`),
    place && el("label", { class: "check" }, el("input", { type: "checkbox", id: "back-in-cell", checked: Object.keys(state.ends).length > 0 }),
      ` It is back in its cell, row ${place.row}, column ${place.column} of ${place.tray}: its place counts anew from now on`),
    el("div", { class: "buttons" },
      el("button", { type: "button", id: "keep-all", onclick: keep(false) }, "Use it for all its readings"),
      el("button", { type: "button", id: "keep-now", onclick: keep(true) }, "Use it from now on")));
  document.getElementById("effect").scrollIntoView({ block: "nearest" });
}

/** A calibration as one says it; a rare kind as the file has it. */
function calibrationWords({ since, ...calibration }) {
  const { dry, wet, points, offset: added, tare, drained } = calibration;
  if (dry !== undefined) return `${dry} counts are dry, ${wet} are wet`;
  if (points) return points.map(([raw, moist]) => `${raw} counts are ${percent(moist)}`).join(", ");
  if (added !== undefined) return `${degreesApart(added)} added to what it sends`;
  return tare === undefined ? JSON.stringify(calibration) : `${tare} g are dry, ${drained} g are drained`;
}

function cellOf(probe) {
  const { since, ...at } = newest(probe.at);
  return at.row ? at : null;
}

function sentence(probe, { readings, outside }) {
  if (!readings.length) return "There are no readings of the last day to show it on.";
  const { unit } = bench.probes.find(({ id }) => id === probe.id) ?? {};
  const tell = (value) => (probe.measures !== "moisture" ? shown(probe.measures, unit, value) : isCounts(probe.measures, value) ? counts(value) : percent(value));
  const range = (i) => { const all = readings.map((one) => one[i]).filter((value) => value !== null); return `${tell(Math.min(...all))} to ${tell(Math.max(...all))}`; };
  return `From ${clock(readings[0][0])} until now it told ${range(1)}; with the new calibration it would have told ${range(2)}.${
    outside ? ` ${outside} of ${readings.length} readings lie outside its ends.` : ""}`;
}

function trace({ readings }) {
  const fresh = readings.map(([time, , value]) => [Date.parse(time), value]).filter(([, value]) => value !== null);
  const [low, high] = [Math.min(...fresh.map(([, value]) => value)), Math.max(...fresh.map(([, value]) => value))];
  const [from, to] = [fresh[0][0], fresh.at(-1)[0]];
  const path = fresh.map(([time, value], i) => `${i ? "L" : "M"}${((time - from) / (to - from || 1) * 300).toFixed(1)} ${(56 - (value - low) / (high - low || 1) * 50).toFixed(1)}`).join("");
  return el("figure", { class: "trace" }, svg("svg", { viewBox: "0 0 300 60", preserveAspectRatio: "none", role: "img", "aria-label": "The last day with the new calibration" },
    svg("path", { d: path, class: "trace-line" })), el("figcaption", {}, "The last day with the new calibration."));
}

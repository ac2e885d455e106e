// Setup: sensors that speak but have no place yet, and those that have one.
import { bench } from "../bench.js";
import { el } from "../dom.js";
import { ask, doing } from "../tell.js";
import { lasting, measuresWords, valueOf as shown } from "../words.js";
import { Movement } from "./movement.js";
import { change, choice, head, load, newest, probes, trays, valueOf } from "./file.js";
import { atOf, placeFields, placeText, showPlaces } from "./place.js";
import { moveForm } from "./move.js";

const LOOK_MS = 2000;
const MEASURES = ["moisture", "temperature", "air-temperature", "humidity", "light", "weight", "mat-surface", "mat-power", "battery"];
const USUAL_SECONDS = [10, 30, 60, 120, 300, 600, 900, 1800, 3600];

export function sensorsView({ go }) {
  const state = { heard: [], movement: new Movement(), first: new Map(), filledIn: [], redraw: () => go("/setup/sensors", { replace: true }) };
  return { title: "Sensors", on: [], isHeld: () => true, load: () => fetchAll(state), draw: () => draw(state),
    drawn: () => { fillInAgain(state); follow(state); } };
}

async function fetchAll(state) {
  [state.heard] = await Promise.all([ask("site/sensors"), load()]);
  note(state);
}

const idOf = (topic) => topic.replaceAll(/[^A-Za-z0-9]+/g, "-");
const keyOf = (topic, where) => `${topic} ${where}`;

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
  list.append(...state.heard.filter((one) => !isIn(before, one)).map((one) => heardCard(state, one)));
}

function update(state) {
  const moving = state.movement.moving();
  for (const one of state.heard) {
    document.querySelectorAll(`[data-last="${CSS.escape(one.topic)}"]`).forEach((place) => { place.textContent = heardWords(one); });
    for (const found of one.fields) {
      const place = document.querySelector(`[data-field="${CSS.escape(keyOf(one.topic, found.where))}"]`);
      if (!place) continue;
      place.querySelector("output").textContent = number(found.value);
      place.classList.toggle("moves", moving === keyOf(one.topic, found.where));
      place.querySelector(".moves-word").textContent = moving === keyOf(one.topic, found.where) ? "◀ this one moves" : "";
    }
  }
}

const number = (value) => String(Number(value.toPrecision(6)));
const heardWords = (one) => `${one.count} messages, the last ${lasting(Math.max(0, bench.now - Date.parse(one.last)))} ago`;

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
      el("div", { id: "heard" }, state.heard.map((one) => heardCard(state, one))),
      !state.heard.length && el("p", { class: "quiet" }, "Nothing is heard that has no place yet. ", el("a", { href: "/setup/devices" }, "What to type into the board"))),
    placed(state)];
}

function heardCard(state, one) {
  const id = idOf(one.topic);
  const place = placeFields(id, one.fields.map(({ measures }) => measures));
  return el("details", { class: "card", id: `topic-${id}`, open: state.heard.length < 4 }, el("summary", {}, el("code", {}, one.topic), ` `,
    el("span", { class: "quiet", "data-last": one.topic }, heardWords(one))),
  one.fields.length === 0 && el("p", {}, "No number is found in its message: ", el("code", {}, one.payload)),
  one.fields.length > 0 && el("form", { "aria-label": `Place ${one.topic}`, onsubmit: (event) => {
    event.preventDefault();
    doing(event.submitter, () => assign(state, one, id));
  } },
  one.fields.map((found, i) => fieldRow(one, found, `${id}-${i}`,
    () => showPlaces(id, one.fields.map((unused, each) => valueOf(`measures-${id}-${each}`))))),
  place,
  el("button", { type: "submit", id: `assign-${id}`, class: "main-button", disabled: !trays().length }, "It stands here"),
  !trays().length && el("p", {}, "Add a tray first: ", el("a", { href: "/setup/trays" }, "Trays"))));
}

function fieldRow(one, found, id, chosen) {
  return el("div", { class: "sensor-field", "data-field": keyOf(one.topic, found.where) },
    el("p", {}, el("code", {}, found.where || "the number"), " ", el("output", { class: "live" }, number(found.value)), found.unit && ` ${found.unit}`, " ",
      el("strong", { class: "moves-word" })),
    choice(`measures-${id}`, "Measures", [["", "leave out"], ...MEASURES.map((one) => [one, measuresWords(one)])], found.measures ?? "",
      { onchange: chosen, hint: found.why ? `Proposed ${found.why}.` : undefined }));
}

/** How often it speaks, from what was heard while the page was open; undefined when that is too little. */
function everyOf(state, one) {
  const first = state.first.get(one.topic);
  const messages = one.count - (first?.count ?? one.count);
  if (messages < 3) return null;
  const seconds = (Date.parse(one.last) - first.last) / messages / 1000;
  const usual = USUAL_SECONDS.reduce((best, each) => (Math.abs(Math.log(each / seconds)) < Math.abs(Math.log(best / seconds)) ? each : best));
  return usual < 60 ? `PT${usual}S` : usual < 3600 ? `PT${usual / 60}M` : "PT1H";
}

async function assign(state, one, id) {
  const used = new Set(probes().map((probe) => probe.id));
  const changes = [];
  one.fields.forEach((found, i) => {
    const measures = valueOf(`measures-${id}-${i}`);
    if (!measures) return;
    const stem = `${one.topic.split("/").slice(-2).join("-").replaceAll(/[^A-Za-z0-9_.-]+/g, "-").slice(0, 40)}-${measures}`;
    let name = stem;
    for (let n = 2; used.has(name); n++) name = `${stem}-${n}`;
    used.add(name);
    changes.push({ do: "put", of: "probes", id: name, keys: {
      measures, at: atOf(measures, id), message: messageOf(one, found),
      ...(found.scale && measures === found.measures && { calibration: found.scale }), ...(everyOf(state, one) && { every: everyOf(state, one) }) } });
  });
  if (!changes.length) throw new Error("say what at least one of its numbers measures");
  await change(changes, `${one.topic} stands ${placeText(changes[0].keys.at)}. Its readings are kept from now on.`, state.redraw);
}

function messageOf(one, found) {
  if (found.format === "text") return { topic: one.topic, format: "text" };
  if (found.format === "senml") return { topic: one.topic, format: "senml", name: found.where };
  return { topic: one.topic, format: "json", value: found.where, ...(one.time && { time: one.time }) };
}

function placed(state) {
  return el("section", { "aria-labelledby": "placed-title" }, el("h2", { id: "placed-title" }, "Placed"),
    probes().length ? el("ul", { class: "entries" }, probes().map((probe) => placedItem(state, probe))) : el("p", { class: "quiet" }, "None yet."));
}

function placedItem(state, probe) {
  const live = bench.probes.find(({ id }) => id === probe.id);
  const now = newest(probe.calibration);
  const offered = live?.offeredWet && now?.dry !== undefined && live.offeredWet !== now.wet ? live.offeredWet : null;
  return el("li", { class: "card", "data-probe": probe.id },
    el("p", {}, el("strong", {}, probe.id), `: ${measuresWords(probe.measures)} ${placeText(newest(probe.at))}`, live?.last && `, ${shown(probe.measures, live.unit, live.last.value)}`,
      probe.measures === "moisture" && (!now || now === "none") && el("span", { class: "wrong" }, " — not calibrated yet")),
    offered && el("p", {}, `After soaks it stands at ${offered}, not at its wet end ${now.wet}: calibration is due again. `,
      el("button", { type: "button", id: `offer-${probe.id}`, onclick: (event) => doing(event.target, () => change([{ do: "calibrate", probe: probe.id,
        calibration: { dry: now.dry, wet: offered }, since: new Date(bench.now).toISOString() }], `${probe.id} has the wet end ${offered} from now on.`, state.redraw)) }, `Take ${offered} from now on`)),
    el("div", { class: "buttons" }, el("a", { class: "button", href: `/setup/calibrate/${encodeURIComponent(probe.id)}` }, "Calibrate"),
      el("button", { type: "button", "aria-label": `Take away ${probe.id}`, onclick: (event) => doing(event.target, () =>
        change([{ do: "remove", of: "probes", id: probe.id }], `${probe.id} is taken away; its readings stay on disk.`, state.redraw)) }, "Take away")),
    el("details", { id: `move-${probe.id}` }, el("summary", {}, "Move or lend"), moveForm(state, probe)));
}

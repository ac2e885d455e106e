// Setup: a sensor that speaks but has no place yet: its numbers as they come, what they probably are, and where it stands.
import { el } from "../dom.js";
import { doing } from "../tell.js";
import { lasting } from "../words.js";
import { change, choice, probes, trays, valueOf } from "./file.js";
import { atOf, placeFields, placeText, showPlaces } from "./place.js";

/** What a number can be, as one asks for it who has the sensor in the hand. */
const MEASURES = [["", "leave out"], ["moisture", "moisture of the medium"], ["temperature", "temperature in the medium"], ["air-temperature", "temperature of the air"],
  ["humidity", "humidity of the air"], ["light", "light"], ["weight", "weight of the tray"], ["mat-surface", "temperature of the mat"], ["mat-power", "power of the mat"], ["battery", "battery"]];
const USUAL_SECONDS = [10, 30, 60, 120, 300, 600, 900, 1800, 3600];

export const idOf = (topic) => topic.replaceAll(/[^A-Za-z0-9]+/g, "-");
export const keyOf = (topic, where) => `${topic} ${where}`;

const number = (value) => String(Number(value.toPrecision(6)));
/** Numbers of a message in a line, as its card shows them while it is folded. */
const numbers = (one) => one.fields.slice(0, 4).map(({ where, value }) => `${where.split(/[/:]/).at(-1) || "it says"} ${number(value)}`).join(", ");

function heardWords(one, now) {
  const ms = Math.max(0, now - Date.parse(one.last));
  const ago = ms < 1500 ? "just now" : ms < 60000 ? `${Math.round(ms / 1000)} s ago` : `${lasting(ms)} ago`;
  return `${one.count} ${one.count === 1 ? "message" : "messages"}, the last ${ago}`;
}

/** One of them is open at a time, or a phone's page would be very long. */
export function heardCard(state, one, isOpen) {
  const id = idOf(one.topic);
  const place = placeFields(id, one.fields.map(({ measures }) => measures));
  return el("details", { class: "card", id: `topic-${id}`, name: "heard", open: isOpen }, el("summary", {}, el("code", {}, one.topic), " ",
    el("span", { class: "live", "data-numbers": one.topic }, numbers(one)), " ", el("strong", { class: "moves-word", "data-moves": one.topic }), " ",
    el("span", { class: "quiet", "data-last": one.topic })),
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
    choice(`measures-${id}`, "Measures", MEASURES, found.measures ?? "",
      { onchange: chosen, hint: found.why ? `Proposed ${found.why}.` : undefined }));
}

/** What it says now, in its card; moving is the key of the number that moves. */
export function showHeard(one, now, moving) {
  const tell = (name, words) => document.querySelectorAll(`[data-${name}="${CSS.escape(one.topic)}"]`).forEach((place) => { place.textContent = words; });
  tell("last", heardWords(one, now));
  tell("numbers", numbers(one));
  tell("moves", one.fields.some(({ where }) => keyOf(one.topic, where) === moving) ? "◀ this one moves" : "");
  for (const found of one.fields) {
    const key = keyOf(one.topic, found.where);
    const place = document.querySelector(`[data-field="${CSS.escape(key)}"]`);
    if (!place) continue;
    place.querySelector("output").textContent = number(found.value);
    place.classList.toggle("moves", moving === key);
    place.querySelector(".moves-word").textContent = moving === key ? "◀ this one moves" : "";
  }
}

/** How often it speaks, from what was heard while the page was open; null when that is too little. */
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

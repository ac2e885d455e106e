// What a journal entry can be about, and how it is said.
import { capital, listed, spoken, zoneWords } from "./words.js";

const ROWS = { key: "rows", label: "Rows", hint: "1-4; empty for the whole tray", pattern: "\\s*\\d{1,3}(\\s*-\\s*\\d{1,3})?\\s*" };
const COUNT = { key: "count", label: "How many", type: "number", min: 0 };
const ZONES = { key: "zones", label: "Where in the tray", choice: "zones" };

/** Kinds of entry in the order in which a thumb wants them, each with the fields that may come with it. */
export const KINDS = [
  { word: "watered", name: "Watered", fields: [ZONES,
    { key: "from", label: "From", choice: "one", options: [["above", "above"], ["below", "below"]] },
    { key: "litres", label: "Litres", type: "number", min: 0, step: "0.1" }] },
  { word: "wants-water", name: "Would water now", fields: [ZONES] },
  { word: "fed", name: "Fed", fields: [ROWS] },
  { word: "emerged", name: "Emerged", fields: [{ key: "percent", label: "Percent up", type: "number", min: 0, max: 100 }, COUNT,
    { key: "of", label: "Out of", type: "number", min: 1 }, ROWS] },
  { word: "potted-up", name: "Potted up", fields: [{ key: "to", label: "Into tray", choice: "tray" }, ROWS,
    { ...ROWS, key: "to-rows", label: "Into rows" }, COUNT] },
  { word: "moved", name: "Moved", fields: [{ key: "to", label: "To room", choice: "room", needed: true },
    { key: "mat", label: "On mat", choice: "mat" }] },
  { word: "turned", name: "Turned round", fields: [] },
  { word: "covered", name: "Covered", fields: [] },
  { word: "uncovered", name: "Uncovered", fields: [] },
  { word: "mat-on", name: "Mat on", fields: [] },
  { word: "mat-off", name: "Mat off", fields: [] },
  { word: "thinned", name: "Thinned", fields: [COUNT, ROWS] },
  { word: "losses", name: "Losses", fields: [COUNT, ROWS] },
  { word: "hardening", name: "Hardening", fields: [ROWS] },
  { word: "planted-out", name: "Planted out", fields: [COUNT, ROWS] },
  { word: "sown", name: "Sown", fields: [{ key: "crop", label: "Crop" }, { key: "variety", label: "Variety" }, ROWS,
    { key: "seeds-per-cell", label: "Seeds a cell", type: "number", min: 1 }] },
  { word: "stage", name: "Stage", fields: [{ key: "stage", label: "Stage", choice: "one", needed: true,
    options: ["germinating", "seedling", "recovering", "growing-on", "hardening", "planted-out"].map((stage) => [stage, spoken(stage)]) }, ROWS] },
  { word: "note", name: "Note", fields: [] },
];

export const kindOf = (word) => KINDS.find((kind) => kind.word === word) ?? { word, name: capital(spoken(word)), fields: [] };

const zoneList = (text) => listed(text.split(/[,\s+/]+/).filter(Boolean).map(zoneWords));

const SAID = {
  zones: (value) => `the ${zoneList(value)}`, zone: (value) => `the ${zoneList(value)}`, from: (value) => `from ${value}`,
  litres: (value) => `${value}\u00a0litres`, percent: (value) => `${value}\u00a0%`, count: (value) => value, of: (value) => `of ${value}`,
  rows: (value) => `rows ${value}`, "to-rows": (value) => `into rows ${value}`, to: (value) => `to ${value}`, mat: (value) => `mat ${value}`,
  by: (value) => `by the ${value}`, reason: (value) => spoken(value), stage: (value) => spoken(value), crop: (value) => value, variety: (value) => value, "seeds-per-cell": (value) => `${value} a cell`,
};
const ORDER = Object.keys(SAID);

/** The detail of an entry and its note, as one says them. */
export function detailWords({ detail, note }) {
  const parts = Object.entries(detail).sort(([one], [other]) => ORDER.indexOf(one) - ORDER.indexOf(other))
    .map(([key, value]) => SAID[key]?.(value) ?? `${spoken(key)} ${value}`);
  if (note) parts.push(note);
  return parts.join(", ");
}

/** An entry in words: Watered: the centre, from below. */
export function entryWords(entry) {
  const detail = detailWords(entry);
  return `${kindOf(entry.entry).name}${detail ? `: ${detail}` : ""}`;
}

// Limits as a grower says them.
import { degrees, degreesApart, listed, spoken, theSite } from "./words.js";

const NAMES = {
  "dry-line": "Dry line", "wet-line": "Wet line", "wet-hours": "Longest above the wet line", "uneven-ratio": "Uneven drying, fastest to slowest",
  "lasting-minutes": "Must last before an alert", "clear-margin": "Back past the line by", "root-cold": "Root zone too cold below",
  "root-target-low": "Root zone right from", "root-target-high": "Root zone right up to", "root-hot": "Root zone too hot from",
  "root-shut-off": "Mat off now from", "root-spread": "Centre warmer than the edge by", "air-night-cold": "Night air too cold below",
  "air-hot": "Air too hot above", "recovery-days": "Recovers after potting up", "feed-days": "No feed after potting up", "harden-days": "Hardening",
  frost: "Frost harm at", "soak-hours": "May be wet after potting up", "damp-air-humidity": "Damp air from", "damp-air-hours": "Damp air for",
  "dry-horizon-hours": "Looks ahead for drying",
};
export const limitName = (limit) => NAMES[limit] ?? spoken(limit);

const isMoisture = (limit) => ["dry-line", "wet-line", "clear-margin"].includes(limit);

export function limitValue({ limit, unit, value }) {
  if (isMoisture(limit)) return `${Number((value * 100).toFixed(1))}\u00a0%`;
  switch (unit) {
    case "Cel": return degrees(value);
    case "K": return degreesApart(value);
    case "1": return `${value}\u00a0times`;
    default: return `${value}\u00a0${UNITS[unit] ?? unit}`;
  }
}
const UNITS = { h: "h", min: "min", d: "days", "%": "%" };

/** What a limit is moved in, for a form: the unit's word, the size of one step, and how many of the file's units that is. */
export function stepOf({ limit, unit }) {
  if (isMoisture(limit)) return { words: "points", step: 1, scale: 0.01 };
  const kelvin = unit === "Cel" || unit === "K";
  if (kelvin) return { words: `°${theSite().temperature}`, step: 0.5, scale: theSite().temperature === "F" ? 1 / 1.8 : 1 };
  if (unit === "1") return { words: "times", step: 0.1, scale: 1 };
  if (unit === "%") return { words: "points", step: 1, scale: 1 };
  return { words: UNITS[unit] ?? unit, step: 1, scale: 1 };
}

/** A change in words: the dry line 5 points higher. */
export function changeWords(change, unit) {
  const { words, scale } = stepOf({ limit: change.limit, unit });
  const by = Number((change.by / scale).toFixed(2));
  const where = [change.crop, change.stage && spoken(change.stage)].filter(Boolean).join(" ");
  return `${where ? `${where}: ` : ""}the ${limitName(change.limit).toLowerCase()} ${Math.abs(by)} ${words === "points" && Math.abs(by) === 1 ? "point" : words} ${
    by < 0 ? "lower" : "higher"}`;
}

export const listedChanges = (changes, unitOf) => listed(changes.map((change) => changeWords(change, unitOf(change.limit))));

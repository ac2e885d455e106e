// The grower's words for numbers, times and places; in the site's own time zone and temperature scale.

let site = { timezone: "UTC", temperature: "C", clock: 24, morningRound: "07:00", name: "" };

export function setSite(answer) {
  site = answer;
}

export function theSite() {
  return site;
}

export const percent = (fraction) => (fraction === null || fraction === undefined ? "—" : `${Math.round(fraction * 100)}\u00a0%`);

/** A temperature in the site's scale, given in C. */
export function degrees(celsius, decimals = 1) {
  if (celsius === null || celsius === undefined) return "—";
  return `${scaled(celsius).toFixed(decimals).replace(/^-/, "−")}\u00a0°${site.temperature}`;
}

/** The number in the site's scale, of a temperature in C. */
export const scaled = (celsius) => (site.temperature === "F" ? celsius * 1.8 + 32 : celsius);

/** How a chart tells a value and marks its axis: in words, as a tick, and to and from the scale that the reader thinks in. */
export const temperatureUnit = {
  tell: degrees, label: degrees, scaled, unscaled: (number) => (site.temperature === "F" ? (number - 32) / 1.8 : number),
};
export const moistureUnit = {
  tell: percent, label: (fraction, decimals) => `${(fraction * 100).toFixed(decimals)}\u00a0%`,
  scaled: (fraction) => fraction * 100, unscaled: (number) => number / 100,
};

/** A difference of temperatures, given in C. */
export const degreesApart = (kelvin) => `${(site.temperature === "F" ? kelvin * 1.8 : kelvin).toFixed(1)}\u00a0°${site.temperature}`;

/** A value with its unit, as its probe measures it. */
export function valueOf(measures, unit, value) {
  if (value === null || value === undefined) return "—";
  if (measures === "mat-power" && (value === 0 || value === 1)) return value === 1 ? "heating" : "resting";
  if (measures === "light" && (value === 0 || value === 1)) return value === 1 ? "lit" : "dark";
  switch (unit) {
    case "1": return `${(value * 100).toFixed(1)} %`;
    case "Cel": return degrees(value);
    case "%": return `${Math.round(value)} %`;
    case "lx": return `${Math.round(value)} lux`;
    case "g": return `${Math.round(value)} g`;
    default: return `${value} ${unit}`;
  }
}

const formats = new Map();
function format(options) {
  const key = site.timezone + JSON.stringify(options);
  if (!formats.has(key)) formats.set(key, new Intl.DateTimeFormat("en-GB", { timeZone: site.timezone, ...options }));
  return formats.get(key);
}

/** The time of day on the site's clock as forms and files have it, to compare and to reckon with: 06:30, 18:00. */
export const hourMinute = (time) => format({ hour: "2-digit", minute: "2-digit", hourCycle: "h23" }).format(new Date(time));

/** A time of day as files have it, as people are shown it: 18:00 or 6:00 pm. */
export function told(time) {
  if (site.clock !== 12) return time;
  const [hour, minute] = time.split(":");
  return `${hour % 12 || 12}:${minute}\u00a0${hour < 12 ? "am" : "pm"}`;
}

/** A part of the day as files have it, as people are shown it. */
export const toldSpan = (span) => span.split("-").map(told).join(" to ");

/** The time of day on the site's clock, as people are shown it. */
export const clock = (time) => told(hourMinute(time));
export const day = (time) => format({ weekday: "short", day: "numeric", month: "short" }).format(new Date(time));
export const longDay = (time) => format({ weekday: "long", day: "numeric", month: "long" }).format(new Date(time));

/** The site's own date of a time, as 2026-03-14. */
export function dateOf(time) {
  const parts = Object.fromEntries(format({ year: "numeric", month: "2-digit", day: "2-digit" })
    .formatToParts(new Date(time)).map(({ type, value }) => [type, value]));
  return `${parts.year}-${parts.month}-${parts.day}`;
}

/** A time on the site's clock, as a form wants it: 2026-03-14T06:30. */
export function siteTime(time) {
  return `${dateOf(time)}T${hourMinute(time)}`;
}

/** The moment that the site's clock shows so, as RFC 3339; of two, where the clock is put back, the earlier. */
export function fromSiteTime(text) {
  const wanted = Date.parse(`${text}:00Z`);
  const shownAt = (time) => Date.parse(`${siteTime(time)}:00Z`);
  // Offsets change by a whole number of quarter hours, at most once between these candidates.
  const candidates = [-86400000, 86400000].map((apart) => wanted - (shownAt(wanted + apart) - (wanted + apart)));
  const fitting = candidates.filter((time) => shownAt(time) === wanted);
  return new Date(Math.min(...(fitting.length ? fitting : candidates))).toISOString();
}

/** A day as one says it, for what is not known to the hour: "today", "tomorrow", "on Fri 27 Nov". */
export function onDay(time, now) {
  const days = Math.round((Date.parse(dateOf(time)) - Date.parse(dateOf(now))) / 86400000);
  return ["yesterday", "today", "tomorrow"][days + 1] ?? `on ${day(time)}`;
}

/** The clock, with the day where it is not today's. */
export function when(time, now) {
  if (!time) return "never";
  if (dateOf(time) === dateOf(now)) return clock(time);
  const days = Math.round((Date.parse(dateOf(time)) - Date.parse(dateOf(now))) / 86400000);
  if (days === 1) return `${clock(time)} tomorrow`;
  if (days === -1) return `${clock(time)} yesterday`;
  return `${clock(time)} on ${day(time)}`;
}

/** How long, in one unit or two: 8 min, 3 h 20 min, 4 days. */
export function lasting(ms) {
  const minutes = Math.round(ms / 60000);
  if (minutes < 1) return "under a minute";
  if (minutes < 60) return `${minutes}\u00a0min`;
  const hours = Math.floor(minutes / 60);
  if (hours < 6 && minutes % 60) return `${hours}\u00a0h ${minutes % 60}\u00a0min`;
  if (hours < 48) return `${Math.round(minutes / 60)}\u00a0h`;
  return `${Math.round(hours / 24)}\u00a0days`;
}

export const hours = (count) => `${count < 10 ? Number(count.toFixed(1)) : Math.round(count)} h`;

const ZONES = { centre: "centre", between: "between", tray: "whole tray" };
/** A zone as a grower says it: back right corner, front edge. */
export function zoneWords(zone) {
  if (!zone) return "";
  if (ZONES[zone]) return ZONES[zone];
  const [kind, ...sides] = zone.split("-");
  return `${sides.join(" ")} ${kind}`;
}

export const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);
export const spoken = (word) => (word ?? "").replaceAll("-", " ");

const MEASURES = {
  moisture: "moisture", temperature: "root zone", "mat-surface": "mat surface", "air-temperature": "air",
  humidity: "humidity", "mat-power": "mat power", light: "light", weight: "weight", battery: "battery",
};
export const measuresWords = (measures) => MEASURES[measures] ?? spoken(measures);

/** Where a probe is. */
export function placeWords(at) {
  if (at.tray && at.row) return `${at.tray}, ${zoneWords(at.zone)} (row ${at.row}, column ${at.column})`;
  if (at.tray) return `${at.tray}, whole tray`;
  if (at.mat) return at.mat;
  return at.room ?? "";
}

/** Names joined as one says them: a, b and c. */
export function listed(names) {
  if (names.length < 2) return names.join("");
  return `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
}

const TEMPERATURE = /(-?\d+(?:\.\d+)?) ?°?C\b( warmer| colder| cooler|\/h| an hour)?/g;

/** The text, with temperatures in C told in the site's scale, units kept with their numbers; apart: all are differences. */
export function inScale(text, apart = false) {
  return text.replace(TEMPERATURE, (all, number, then = "") =>
    (apart || then ? degreesApart(Number(number)) : degrees(Number(number))) + then)
    .replace(/(\d) (%|h\b|min\b)/g, "$1\u00a0$2");
}

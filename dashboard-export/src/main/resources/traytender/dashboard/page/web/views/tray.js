// One tray: its cells, zones, traces and what happened.
import { alertItem, inOrder } from "../alert-item.js";
import { ask, readings } from "../ask.js";
import { bench } from "../bench.js";
import { judgedWords, wholeWords } from "../coverage.js";
import { chartFigure } from "../chart.js";
import { el, table } from "../dom.js";
import { entryWords } from "../entries.js";
import { matCaution, matWords, restNotice } from "../mats.js";
import { carryButtons, emergenceWords, sowingWords, trayAlerts, wantsWaterButton } from "../tray-card.js";
import { historyControls, shownTime, shownTray } from "../tray-history.js";
import { legend, trayMap } from "../tray-map.js";
import { capital, degrees, lasting, listed, longDay, moistureUnit, percent, spoken, temperatureUnit, when, zoneWords } from "../words.js";

const HOUR = 3600000;
const SPANS = [["1 day", 24], ["3 days", 72], ["7 days", 168], ["14 days", 336]];
const POINTS = 500;

export function trayView({ id, query, go }) {
  const span = Number(query.get("hours")) || 72;
  const state = { id, span, go, tray: null, traces: [], closed: [], journal: [], past: null };
  return {
    title: id, on: ["alerts", "trays", "journal"], load: () => load(state),
    draw: () => draw(state), isHeld: () => state.past !== null,
  };
}

async function load(state) {
  const from = bench.now - state.span * HOUR;
  state.tray = await ask(`trays/${encodeURIComponent(state.id)}`);
  state.mat = state.tray.mat;
  const here = bench.probes.filter((probe) => probe.at.tray === state.id || (state.mat && probe.at.mat === state.mat));
  const [past, journal, ...traces] = await Promise.all([
    ask("alerts", { tray: state.id, limit: 60 }),
    ask("journal", { tray: state.id, from: new Date(from).toISOString() }),
    ...here.map((probe) => readings(probe.id, from, bench.now + 60000, POINTS)),
  ]);
  state.closed = past.filter((alert) => alert.closed);
  state.journal = journal;
  state.traces = here.map((probe, i) => ({ probe, points: traces[i] }));
  state.from = from;
}

function draw(state) {
  const { tray } = state;
  const open = inOrder(trayAlerts(tray));
  const mat = bench.mats.find(({ id }) => id === tray.mat);
  return [
    el("h1", {}, tray.id),
    el("p", {}, `${sowingWords(tray)}. ${capital(tray.room)}${tray.bench ? `, ${tray.bench} bench` : ""}; ${
      tray.rows} by ${tray.columns} cells${tray.medium ? ` of ${spoken(tray.medium)}` : ""}.`),
    emergenceWords(tray).map((words) => el("p", {}, words)),
    el("div", { class: "buttons" }, wantsWaterButton(tray), carryButtons(tray),
      el("a", { class: "button", href: `/journal?tray=${encodeURIComponent(tray.id)}` }, "Journal of this tray")),
    open.length > 0 && el("section", { "aria-label": "What to do" }, el("h2", {}, "What to do"), open.map((alert) => alertItem(alert))),
    cells(state),
    el("section", { "aria-label": "Traces" },
      el("h2", {}, "Traces"),
      spanButtons(state),
      moistureChart(state), temperatureChart(state),
      mat && [restNotice(mat), el("p", {}, matWords(mat)), matCaution([mat])]),
    happened(state),
  ];
}

/** The map and figures, as they are or as they were. */
function cells(state) {
  const shown = el("div", { id: "cells-shown" });
  const show = () => shown.replaceChildren(...cellsShown(state).filter(Boolean));
  show();
  return el("section", { "aria-labelledby": "cells-title", id: "cells" },
    el("h2", { id: "cells-title" }, state.past ? "Cells as they were" : "Cells"),
    historyControls(state, () => document.getElementById("cells").replaceWith(cells(state)), show), shown);
}

function cellsShown(state) {
  const tray = shownTray(state);
  const judged = state.past ? null : judgedWords(tray);
  const whole = state.past ? null : wholeWords(tray);
  return [
    judged && el("p", { class: "lead", id: "judged" }, judged),
    whole && el("p", { class: "lead", id: "whole" }, whole),
    el("div", { class: "big-map" }, trayMap(tray, bench.probes, true)),
    tray.judged && el("p", { class: "quiet" }, "Each cell is drawn twice: upper left as dry, lower right as wet as it may be."),
    el("p", { class: "legend" }, legend(tray)),
    el("p", {}, wateredWords(tray, shownTime(state))),
    tray.zones.length > 0 && zoneTable(tray),
  ];
}

function wateredWords(tray, at) {
  if (!tray.lastWatered) return "No watering seen yet.";
  const even = tray.evenness === null ? "" : tray.evenness >= 0.8 ? " It went in evenly."
    : ` It went in unevenly: the driest part took up ${percent(tray.evenness)} of what the best part did.`;
  return `Last watered ${when(tray.lastWatered, bench.now)}, ${lasting(at - Date.parse(tray.lastWatered))} ${at === bench.now ? "ago" : "before"}.${even}`;
}

function zoneTable(tray) {
  const rows = tray.zones.map((zone) => [
    capital(zoneWords(zone.zone)) + (zone.trusted ? "" : " (probe in doubt)"),
    zone.moisture === null ? "—" : `${percent(zone.moisture)} ±\u00a0${percent(zone.spread)}`,
    `${percent(zone.dryLine)} to ${percent(zone.wetLine)}`,
    zone.rate === null ? "—" : `${(zone.rate * 100).toFixed(1)} ± ${(zone.rateError * 100).toFixed(1)} %/h`,
    zone.moisture !== null && zone.moisture < zone.dryLine ? "dry now" : zone.expected ? `about ${when(zone.expected, bench.now)}` : "—",
    degrees(zone.temperature),
  ]);
  return table("Zones with a probe", ["Zone", "Moisture", "Right between", "Loses", "Dry by", "Root zone"], rows);
}

function spanButtons(state) {
  return el("div", { class: "buttons", role: "group", "aria-label": "How far back" }, SPANS.map(([name, hours]) =>
    el("button", {
      type: "button", id: `span-${hours}`, "aria-pressed": String(hours === state.span),
      onclick: () => state.go(`/trays/${encodeURIComponent(state.id)}?hours=${hours}`, { replace: true }),
    }, name)));
}

const every = (probe) => (probe.every ? isoMs(probe.every) : undefined);
/** Milliseconds of an ISO 8601 duration of hours, minutes and seconds. */
function isoMs(text) {
  const [, h = 0, m = 0, s = 0] = /^PT(?:(\d+)H)?(?:(\d+)M)?(?:([\d.]+)S)?$/.exec(text) ?? [];
  return ((Number(h) * 60 + Number(m)) * 60 + Number(s)) * 1000 || undefined;
}

/** The probe's zone, with its cell where the zone has more than one probe of its kind. */
function seriesName(probe, among) {
  if (!probe.at.zone) return spoken(probe.measures === "mat-surface" ? "mat surface" : probe.at.tray ? "whole tray" : probe.id);
  const twins = among.filter((other) => other.at.zone === probe.at.zone).length > 1;
  return capital(zoneWords(probe.at.zone)) + (twins ? ` r${probe.at.row} c${probe.at.column}` : "");
}

function series(traces) {
  const probes = traces.map(({ probe }) => probe);
  return traces.map(({ probe, points }) => ({ name: seriesName(probe, probes), points, every: every(probe), probe }));
}

function moistureChart(state) {
  const { tray } = state;
  const lines = series(state.traces.filter(({ probe }) => probe.unit === "1"));
  const horizon = bench.now + Math.min(24, state.span / 4) * HOUR;
  const fans = lines.map(({ probe }, i) => {
    const zone = tray.zones.find((one) => one.zone === probe.at.zone);
    if (!zone?.expected || zone.moisture === null || zone.moisture < zone.dryLine || Date.parse(zone.earliest) > horizon) return null;
    return { series: i, from: bench.now, value: zone.moisture, to: zone.dryLine,
      earliest: Date.parse(zone.earliest), latest: Date.parse(zone.latest) };
  }).filter(Boolean);
  const to = fans.length ? Math.min(horizon, Math.max(...fans.map(({ latest }) => latest)) + HOUR) : bench.now;
  return chartFigure({
    title: "Moisture", sentence: moistureSentence(tray, lines), now: bench.now, from: state.from, to, series: lines,
    unit: moistureUnit,
    lines: [...moistureLines(tray, "dryLine", "dry line"), ...moistureLines(tray, "wetLine", "wet line")],
    marks: waterings(state), fans, spans: [], low: 0.3, high: 1,
  });
}

/** The lines of all zones, each once: two sowings at two stages have two. */
function moistureLines(tray, key, name) {
  return [...new Set(tray.zones.map((zone) => zone[key]).filter((value) => value !== null))].map((value) => ({ value, name }));
}

function waterings(state) {
  const times = state.journal.filter(({ entry }) => entry === "watered").map(({ time }) => Date.parse(time));
  const last = Date.parse(state.tray.lastWatered);
  if (last >= state.from && !times.some((time) => Math.abs(time - last) < HOUR)) times.push(last);
  return times.map((time) => ({ time, name: "watered" }));
}

function moistureSentence(tray, lines) {
  const known = tray.zones.filter(({ moisture }) => moisture !== null);
  if (!known.length) {
    return lines.some(({ points }) => points.length) ? "The tray as a whole; no place of it is measured by itself."
      : "No moisture probe of this tray has been heard.";
  }
  const driest = known.reduce((one, other) => (other.moisture < one.moisture ? other : one));
  const wettest = known.reduce((one, other) => (other.moisture > one.moisture ? other : one));
  const coming = driest.moisture < driest.dryLine ? `below its dry line of ${percent(driest.dryLine)}`
    : driest.expected ? `expected at its dry line of ${percent(driest.dryLine)} about ${when(driest.expected, bench.now)}, between ${
      when(driest.earliest, bench.now)} and ${when(driest.latest, bench.now)}` : `above its dry line of ${percent(driest.dryLine)}`;
  return `The ${zoneWords(driest.zone)} is driest at ${percent(driest.moisture)}, ${coming}; the ${
    zoneWords(wettest.zone)} is at ${percent(wettest.moisture)}.`;
}

function temperatureChart(state) {
  const { tray } = state;
  const lines = series(state.traces.filter(({ probe }) => probe.measures === "temperature" || probe.measures === "mat-surface"));
  if (!lines.length) return null;
  const limits = strictest(tray);
  return chartFigure({
    title: "Root-zone temperature", sentence: warmSentence(tray, limits), now: bench.now, from: state.from, to: bench.now,
    series: lines, unit: temperatureUnit,
    lines: limits ? [{ value: limits["root-cold"], name: "cold" }, { value: limits["root-hot"], name: "hot" }] : [],
    marks: [], fans: [], spans: heating(state),
  });
}

/** Of all sowings on the tray the narrowest: the highest cold limit and the lowest hot one. */
function strictest(tray) {
  if (!tray.sowings.length) return null;
  const of = (key) => tray.sowings.map(({ limits }) => limits[key]);
  return { "root-cold": Math.max(...of("root-cold")), "root-hot": Math.min(...of("root-hot")) };
}

function warmSentence(tray, limits) {
  const known = tray.zones.filter(({ temperature }) => temperature !== null);
  if (!known.length) return "No root-zone probe of this tray has been heard.";
  const told = known.map(({ zone, temperature }) => `${zoneWords(zone)} ${degrees(temperature)}`);
  const band = limits ? ` Right is between ${degrees(limits["root-cold"], 0)} and ${degrees(limits["root-hot"], 0)}.` : "";
  return `Now: ${listed(told)}.${band}`;
}

/** When the mat drew power, from its own probe. */
function heating(state) {
  const power = state.traces.find(({ probe }) => probe.measures === "mat-power")?.points ?? [];
  const spans = [];
  power.forEach(([time, value], i) => {
    const next = power[i + 1]?.[0] ?? Math.min(bench.now, time + 5 * 60000);
    if (value <= 0) return;
    if (spans.at(-1)?.to === time) spans.at(-1).to = next;
    else spans.push({ from: time, to: next, name: "mat heating" });
  });
  return spans;
}

function happened(state) {
  const entries = state.journal.map(({ time, entry, detail, note }) => ({ time,
    what: el("p", {}, entryWords({ entry, detail, note })) }));
  const alerts = state.closed.map((alert) => ({ time: alert.opened, what: alertItem(alert) }));
  const all = [...entries, ...alerts].sort((one, other) => Date.parse(other.time) - Date.parse(one.time));
  if (!all.length) return null;
  let lastDay = "";
  return el("section", { "aria-label": "What happened" }, el("h2", {}, "What happened"), all.map(({ time, what }) => {
    const newDay = longDay(time) === lastDay ? null : el("p", { class: "day" }, longDay(time));
    lastDay = longDay(time);
    if (what.tagName === "P") what.prepend(el("span", { class: "quiet" }, `${when(time, bench.now)} `));
    return [newDay, what];
  }));
}

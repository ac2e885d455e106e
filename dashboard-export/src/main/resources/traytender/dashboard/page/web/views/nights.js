// A night's temperatures: traces, lowest, highest, hours beyond the limits.
import { ask, readings } from "../ask.js";
import { bench } from "../bench.js";
import { chartFigure } from "../chart.js";
import { el, table } from "../dom.js";
import { clock, dateOf, degrees, degreesApart, hours, listed, when } from "../words.js";

const DAY = 86400000;
const HOUR = 3600000;
const POINTS = 300;
/** How near to the traces a limit is drawn, in C; our choice. */
const NEAR = 2;
const SHOWN = ["air-temperature", "temperature", "mat-surface"];

export function nightsView({ date, go }) {
  const state = { date: date ?? dateOf(bench.now - DAY), go };
  return { title: `Night of ${state.date}`, on: [], load: () => load(state), draw: () => draw(state) };
}

async function load(state) {
  state.night = await ask(`nights/${state.date}`);
  const from = Date.parse(state.night.sunset) - 2 * HOUR;
  const to = Date.parse(state.night.sunrise) + 2 * HOUR;
  state.probes = state.night.probes.filter(({ measures, readings: count }) => SHOWN.includes(measures) && count > 0);
  const traces = await Promise.all(state.probes.map(({ probe }) => readings(probe, from, to, POINTS)));
  Object.assign(state, { from, to, traces });
}

function draw(state) {
  const { night } = state;
  const coldestFirst = [...state.probes].sort((one, other) => one.lowest - other.lowest);
  const rooms = [...new Set(coldestFirst.map(({ room }) => room ?? "mats"))];
  return [
    el("h1", {}, "Nights"),
    dates(state),
    el("p", { class: "lead" }, nightSentence(state)),
    night.rooms.map((room) => el("p", {}, foretoldWords(room, night.complete))),
    rooms.map((room) => roomChart(state, room)),
    state.probes.length > 0 && nightTable(state),
    el("p", { class: "quiet" }, `From ${clock(night.sunset)} to ${clock(night.sunrise)}${
      night.bySun ? ", sunset to sunrise at the site" : ", by the clock, since the site file gives no location"}${
      night.complete ? "" : "; this night is not over"}.`),
  ];
}

function dates(state) {
  const shift = (days) => dateOf(Date.parse(`${state.date}T12:00:00Z`) + days * DAY);
  const last = dateOf(bench.now);
  return el("div", { class: "buttons" },
    el("a", { class: "button", href: `/nights/${shift(-1)}`, rel: "prev" }, "← Night before"),
    el("label", { for: "night" }, "Evening of "),
    el("input", { type: "date", id: "night", value: state.date, max: last,
      onchange: (event) => { if (event.target.value) state.go(`/nights/${event.target.value}`); } }),
    state.date < last && el("a", { class: "button", href: `/nights/${shift(1)}`, rel: "next" }, "Night after →"));
}

function nightSentence(state) {
  const airs = state.probes.filter(({ measures }) => measures === "air-temperature");
  const among = airs.length ? airs : state.probes;
  if (!among.length) return "No temperature was heard in this night.";
  const coldest = among.reduce((one, other) => (other.lowest < one.lowest ? other : one));
  const place = coldest.room ?? coldest.tray ?? coldest.probe;
  const outside = state.probes.filter(({ below, above }) => below?.hours > 0 || above?.hours > 0);
  const beyond = outside.map(({ probe, below, above }) => `${probe} ${listed([
    below?.hours > 0 && `${hours(below.hours)} below ${degrees(below.limit)}`,
    above?.hours > 0 && `${hours(above.hours)} above ${degrees(above.limit)}`].filter(Boolean))}`);
  return `Lowest ${airs.length ? "air " : ""}temperature: ${degrees(coldest.lowest)} in ${place} at ${
    clock(coldest.lowestAt)}. ${beyond.length ? `Outside the limits: ${beyond.join("; ")}.` : "All stayed within their limits."}`;
}

/** What was foretold of an outdoor room's air, and what came. */
function foretoldWords(room, complete) {
  const rough = room.roughLowest !== null && `before dusk roughly ${degrees(room.roughLowest)}`;
  const then = room.forecastLowest !== null
    && `two hours after sunset ${degrees(room.forecastLowest)} (give or take ${degreesApart(room.forecastDoubt)})`;
  if (!rough && !then) return `No forecast was made for ${room.room}.`;
  const leaf = room.forecastLeaf === null ? "" : ` The evening was clear: leaves under open sky were expected at about ${
    degrees(room.forecastLeaf)}.`;
  return `Lowest foretold for ${room.room}: ${[rough, then].filter(Boolean).join(", ")}; ${
    complete ? "it came to" : "so far it has come to"} ${degrees(room.lowest)}.${leaf}`;
}

function roomChart(state, room) {
  const mine = state.probes.map((probe, i) => ({ ...probe, points: state.traces[i] }))
    .filter((probe) => (probe.room ?? "mats") === room);
  const every = (id) => bench.probes.find((probe) => probe.id === id)?.every === "PT1M" ? 60000 : 300000;
  const lowest = mine.reduce((one, other) => (other.lowest < one.lowest ? other : one));
  const highest = mine.reduce((one, other) => (other.highest > one.highest ? other : one));
  // Only the limits that were passed or came near: a room has many, and the others would flatten the traces.
  const near = ({ limit }) => limit > lowest.lowest - NEAR && limit < highest.highest + NEAR;
  const limits = new Map();
  for (const { below, above } of mine) {
    if (below && near(below)) limits.set(`low${below.limit}`, { value: below.limit, name: "too cold below" });
    if (above && above.hours > 0 && near(above)) limits.set(`high${above.limit}`, { value: above.limit, name: "too warm above" });
  }
  return chartFigure({
    heading: "h2", title: `Temperatures in ${room}`, now: bench.now, from: state.from, to: state.to,
    sentence: `Lowest ${degrees(lowest.lowest)} (${lowest.probe}, ${clock(lowest.lowestAt)}), highest ${
      degrees(highest.highest)} (${highest.probe}, ${clock(highest.highestAt)}).`,
    series: mine.map(({ probe, points }) => ({ name: probe, points, every: every(probe) })),
    unit: { tell: degrees, label: (value, step) => degrees(value, step < 1 ? 1 : 0) },
    lines: [...limits.values()], marks: [], fans: [], spans: [],
  });
}

function nightTable(state) {
  const beyond = (of, word) => (of ? `${hours(of.hours)} ${word} ${degrees(of.limit)}${
    of.hours > 0 ? ` (${degreesApart(of.unitHours)} × h)` : ""}` : "—");
  const rows = state.probes.map((night) => [
    night.probe, `${degrees(night.lowest)} at ${when(night.lowestAt, night.lowestAt)}`, `${degrees(night.highest)} at ${
      when(night.highestAt, night.highestAt)}`, degrees(night.mean), beyond(night.below, "below"), beyond(night.above, "above"),
    night.gapHours > 0 ? `${hours(night.gapHours)} not heard` : "none",
  ]);
  return table("This night by probe", ["Probe", "Lowest", "Highest", "Mean", "Too cold", "Too warm", "Gaps"], rows);
}

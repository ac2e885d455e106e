// A night's temperatures: traces, lowest, highest, hours beyond the limits.
import { ask, readings } from "../ask.js";
import { bench } from "../bench.js";
import { chartFigure } from "../chart.js";
import { el, svg, table } from "../dom.js";
import { clock, dateOf, day, degrees, degreesApart, fromSiteTime, hours, listed, longDay, temperatureUnit, when } from "../words.js";

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
  Object.assign(state, { from, to, traces, past: await pastNights(state.date) });
}

function draw(state) {
  const { night } = state;
  const coldestFirst = [...state.probes].sort((one, other) => one.lowest - other.lowest);
  const rooms = [...new Set(coldestFirst.map(({ room }) => room ?? "mats"))];
  return [
    el("h1", {}, `Night of ${longDay(`${state.date}T12:00:00Z`)}`),
    dates(state),
    el("p", { class: "lead" }, nightSentence(state)),
    night.rooms.map((room) => el("p", {}, foretoldWords(room, night.complete))),
    files(state),
    rooms.map((room) => roomChart(state, room)),
    lastNights(state),
    state.probes.length > 0 && nightTable(state),
    el("p", { class: "quiet" }, `From ${clock(night.sunset)} to ${clock(night.sunrise)}${
      night.bySun ? ", sunset to sunrise at the site" : ", by the clock, since the site file gives no location"}${
      night.complete ? "" : "; this night is not over"}.`),
  ];
}

const NIGHTS = 14;
/** A small chart shows from this hour of the evening on, for so long; our choice, wide enough for the longest night. */
const [EVENING, LONG] = ["16:00", 18 * HOUR];
const SMALL_POINTS = 60;

/** The air of each room over the fourteen nights up to one, night by night. */
async function pastNights(last) {
  const evenings = Array.from({ length: NIGHTS }, (_, i) => dateOf(Date.parse(`${last}T12:00:00Z`) - (NIGHTS - 1 - i) * DAY))
    .map((date) => ({ date, from: Date.parse(fromSiteTime(`${date}T${EVENING}`)) }));
  const airs = bench.probes.filter(({ measures, at }) => measures === "air-temperature" && at.room);
  const to = Math.min(evenings.at(-1).from + LONG, bench.now + 60000);
  const all = await Promise.all(airs.map(({ id }) => readings(id, evenings[0].from, to, NIGHTS * SMALL_POINTS * 2)));
  return airs.map(({ id, at }, i) => ({ room: at.room, probe: id, nights: evenings.map(({ date, from }) => {
    const points = all[i].filter(([time]) => time >= from && time < from + LONG);
    return { date, from, points, lowest: points.length ? points.reduce((one, other) => (other[1] < one[1] ? other : one)) : null };
  }) })).filter(({ nights }) => nights.some(({ points }) => points.length));
}

function lastNights(state) {
  return state.past.map(({ room, probe, nights }) => {
    const known = nights.filter(({ lowest }) => lowest);
    const values = known.flatMap(({ points }) => points.map(([, value]) => value));
    const [low, high] = [Math.min(...values), Math.max(...values)];
    const coldest = known.reduce((one, other) => (other.lowest[1] < one.lowest[1] ? other : one));
    const shown = nights.slice(nights.indexOf(known[0]));
    return el("section", { "aria-label": `The last nights in ${room}` },
      el("h2", {}, `${shown.length === NIGHTS ? `The last ${NIGHTS} nights` : `${shown.length} ${shown.length === 1 ? "night" : "nights"} of readings`}: air in ${room}`),
      el("p", {}, `Coldest: ${degrees(coldest.lowest[1])} in the night of ${day(coldest.from)}, at ${clock(coldest.lowest[0])} (${probe}). All to one scale, ${
        degrees(low)} to ${degrees(high)}.`),
      el("ol", { class: "small-nights" }, shown.map((night) => el("li", {},
        el("a", { href: `/nights/${night.date}`, "aria-current": night.date === state.date ? "date" : null },
          smallChart(night, low, high), el("span", { class: "small-date" }, day(night.from)),
          el("span", {}, night.lowest ? `${degrees(night.lowest[1])} at ${clock(night.lowest[0])}` : "not heard"))))));
  });
}

function smallChart({ from, points, lowest }, low, high) {
  const [width, height] = [120, 46];
  const x = (time) => (time - from) / LONG * width;
  const y = (value) => height - 3 - (value - low) / (high - low || 1) * (height - 6);
  let last = -Infinity;
  const path = points.map(([time, value]) => {
    const command = time - last > HOUR ? "M" : "L";
    last = time;
    return `${command}${x(time).toFixed(1)} ${y(value).toFixed(1)}`;
  }).join("");
  return svg("svg", { viewBox: `0 0 ${width} ${height}`, "aria-hidden": "true", class: "small-night" },
    low < 0 && high > 0 && svg("line", { x1: 0, x2: width, y1: y(0), y2: y(0), class: "freezing" }),
    svg("path", { d: path || "M0 0" }), lowest && svg("circle", { cx: x(lowest[0]), cy: y(lowest[1]), r: 3 }));
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

/** The night to keep, print or send. */
function files({ date }) {
  const file = (ending) => el("a", { class: "button", href: `/api/v1/nights/${date}/report.${ending}`, download: `night-${date}.${ending}` }, ending.toUpperCase());
  return el("p", { class: "buttons", "aria-label": "This night as a file", role: "group" }, "This night as ", file("pdf"), file("html"), file("csv"),
    el("a", { class: "button", href: `/api/v1/nights/${date}`, download: `night-${date}.json` }, "JSON"));
}

function nightSentence(state) {
  const airs = state.probes.filter(({ measures }) => measures === "air-temperature");
  const among = airs.length ? airs : state.probes;
  if (!among.length) return "No temperature was heard in this night.";
  const coldest = among.reduce((one, other) => (other.lowest < one.lowest ? other : one));
  const place = coldest.room ?? coldest.tray ?? coldest.probe;
  return `Lowest ${airs.length ? "air " : ""}temperature: ${degrees(coldest.lowest)} in ${place} at ${
    clock(coldest.lowestAt)}. ${beyondWords(state.probes)}`;
}

/** Probes named in the sentence; with more of them only the longest is named; our choice. */
const NAMED = 3;

function beyondWords(probes) {
  const beyond = (of, word) => of?.hours > 0 && `${hours(of.hours)} ${word} ${degrees(of.limit)}`;
  const outside = probes.map(({ probe, below, above }) => ({
    worst: Math.max(below?.hours ?? 0, above?.hours ?? 0), words: `${probe} ${listed([beyond(below, "below"), beyond(above, "above")].filter(Boolean))}`,
  })).filter(({ worst }) => worst > 0).sort((one, other) => other.worst - one.worst);
  if (!outside.length) return "All stayed within their limits.";
  if (outside.length <= NAMED) return `Outside the limits: ${outside.map(({ words }) => words).join("; ")}.`;
  return `${outside.length} of ${probes.length} probes were outside their limits, longest ${outside[0].words}; the table has the others.`;
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
    unit: temperatureUnit,
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

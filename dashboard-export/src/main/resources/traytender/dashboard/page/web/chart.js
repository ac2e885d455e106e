// Traces over time with limit lines, watering marks and forecast fans, drawn by uPlot; each with a sentence and a table.
import { el, table } from "./dom.js";
import { capital, clock, day, hourMinute, theSite, when } from "./words.js";

const HOUR = 3600000;
const MINUTE = 60000;
const STEPS = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50];
let loading = null;

/** uPlot, fetched when the first chart is wanted, so that the first view stays small. */
function uplot() {
  loading ??= new Promise((resolve, reject) => {
    document.head.append(
      el("link", { rel: "stylesheet", href: "/web/uplot/uPlot.min.css" }),
      el("script", { src: "/web/uplot/uPlot.iife.min.js", onload: () => resolve(window.uPlot), onerror: reject }));
  });
  return loading;
}

const style = (name) => getComputedStyle(document.documentElement).getPropertyValue(name).trim();
/** A colour asked for at each drawing: it changes when the evening turns the page dark. */
const paint = (name) => () => style(name);

/**
 * A chart.
 *
 * @param chart {title, heading: "h3" unless said, sentence, unit (as of words.js), from, to, now, series: [{name, points, every}],
 *   lines: [{value, name, kind: "low" | "high"}], marks: [{time, name}], fans: [{series, from, value, earliest, latest, to}],
 *   spans: [{from, to, name}], low, high}; times in milliseconds
 */
export function chartFigure(chart) {
  const place = el("div", { class: "plot" });
  const figure = el("figure", { class: "chart" },
    el(chart.heading ?? "h3", {}, chart.title),
    el("p", { class: "chart-sentence" }, chart.sentence),
    chart.series.some(({ points }) => points.length) ? place : el("p", { class: "quiet" }, "No readings in this time."),
    keys(chart),
    el("details", { id: `table-${chart.title.replaceAll(" ", "-")}` },
      el("summary", {}, `${chart.title} as a table`), summary(chart)));
  figure.start = async () => {
    if (place.isConnected) draw(await uplot(), place, chart);
  };
  return figure;
}

function keys(chart) {
  return el("ul", { class: "keys" },
    chart.series.map(({ name }, i) => el("li", {}, el("span", { class: `key key-${i % 8}`, "aria-hidden": "true" }), name)),
    chart.lines.map(({ name, value }) => el("li", {}, el("span", { class: "key key-line", "aria-hidden": "true" }),
      `${name} ${chart.unit.tell(value)}`)),
    chart.marks.length > 0 && el("li", {}, el("span", { class: "key key-mark", "aria-hidden": "true" }), chart.marks[0].name),
    chart.spans.length > 0 && el("li", {}, el("span", { class: "key key-span", "aria-hidden": "true" }), chart.spans[0].name));
}

function summary(chart) {
  const { tell } = chart.unit;
  const rows = chart.series.map(({ name, points }) => {
    if (!points.length) return [name, "nothing heard", "", "", ""];
    const lowest = points.reduce((one, other) => (other[1] < one[1] ? other : one));
    const highest = points.reduce((one, other) => (other[1] > one[1] ? other : one));
    const at = ([time, value]) => `${tell(value)} at ${when(time, chart.now)}`;
    return [name, at(points[0]), at(lowest), at(highest), at(points.at(-1))];
  });
  return table(chart.title, ["Probe", "First", "Lowest", "Highest", "Last"], rows);
}

/** Points as uPlot wants them, in seconds, with an empty one where nothing was heard for long. */
function columns({ points, every }, span) {
  const gap = Math.max(20 * MINUTE, 4 * (every ?? MINUTE), span / 60);
  const [times, values] = [[], []];
  points.forEach(([time, value], i) => {
    if (i > 0 && time - points[i - 1][0] > gap) {
      times.push((points[i - 1][0] + 1000) / 1000);
      values.push(null);
    }
    times.push(time / 1000);
    values.push(value);
  });
  return [times, values];
}

/** Values of which the reader's own scale has a round number: 1, 2 or 5 apart, or ten times or a tenth of it. */
function roundTicks({ scaled, unscaled }, low, high, most) {
  const [from, to] = [scaled(low), scaled(high)];
  const step = STEPS.find((one) => (to - from) / one <= most) ?? STEPS.at(-1);
  const first = Math.ceil(from / step);
  return Array.from({ length: Math.floor(to / step) - first + 1 }, (_, i) => unscaled((first + i) * step));
}

function tickLabels({ label, scaled }, ticks) {
  const whole = ticks.every((tick) => Math.abs(scaled(tick) - Math.round(scaled(tick))) < 1e-6);
  return ticks.map((tick) => label(tick, whole ? 0 : 1));
}

function draw(UPlot, place, chart) {
  const span = chart.to - chart.from;
  const data = UPlot.join(chart.series.map((series) => columns(series, span)), chart.series.map(() => [2]));
  const axis = { stroke: paint("--quiet"), grid: { stroke: paint("--grid"), width: 1 }, ticks: { stroke: paint("--grid"), width: 1 },
    font: "13px system-ui, sans-serif" };
  place.replaceChildren();
  const options = {
    width: place.clientWidth, height: Math.min(320, Math.max(220, place.clientWidth * 0.4)),
    legend: { show: false }, cursor: { drag: { x: true, y: false } },
    tzDate: (seconds) => UPlot.tzDate(new Date(seconds * 1000), theSite().timezone),
    scales: { x: { range: (self, low, high) => (self.zoomed ? [low, high] : [chart.from / 1000, chart.to / 1000]) },
      y: { range: (self, low, high) => bounds(chart, low, high) } },
    axes: [
      { ...axis, space: 60, values: (self, ticks, i, space, step) => ticks.map((tick) =>
        (step >= 86400 || hourMinute(tick * 1000) === "00:00" ? day(tick * 1000) : clock(tick * 1000))) },
      { ...axis, size: 72, splits: (self, i, low, high) => roundTicks(chart.unit, low, high, self.bbox.height / devicePixelRatio / 40),
        values: (self, ticks) => tickLabels(chart.unit, ticks) },
    ],
    series: [{}, ...chart.series.map(({ name }, i) => ({
      label: name, stroke: paint(`--series-${i % 8}`), width: 2, points: { show: false },
    }))],
    hooks: {
      drawClear: [(self) => beneath(self, chart)],
      draw: [(self) => above(self, chart)],
      setSelect: [(self) => { self.zoomed = true; }],
      setScale: [(self, scale) => {
        if (scale !== "x" || !self.zoomed) return;
        self.shown = { min: self.scales.x.min, max: self.scales.x.max };
        looked.set(keyOf(chart), self.shown);
      }],
      setCursor: [(self) => say(self, chart, readout)],
    },
  };
  const plot = new UPlot(options, data, place);
  recolour(plot);
  const readout = el("p", { class: "readout quiet", "aria-hidden": "true" }, "Point at the chart for values; drag, pinch or press + to look closer.");
  const work = [["Closer", () => zoom(plot, chart, 0.5)], ["Wider", () => zoom(plot, chart, 2)], ["← Earlier", () => pan(plot, chart, -0.5)],
    ["Later →", () => pan(plot, chart, 0.5)], ["All", () => zoom(plot, chart, 0)]];
  place.append(readout, el("div", { class: "zoom" }, work.map(([name, does]) =>
    el("button", { type: "button", "aria-label": `${name.replace(/[←→ ]/g, "")}: ${chart.title}`, onclick: does }, name))));
  plot.root.setAttribute("aria-hidden", "true");
  byKeys(place, plot, chart);
  byTouch(plot, chart);
  const before = looked.get(keyOf(chart));
  if (before) show(plot, chart, before.min, before.max);
  new ResizeObserver(() => {
    if (place.clientWidth && place.clientWidth !== plot.width) plot.setSize({ width: place.clientWidth, height: plot.height });
  }).observe(place);
}

const dark = matchMedia("(prefers-color-scheme: dark)");

/** Draws a chart anew in the page's other colours when day and night change, for as long as it is on the page. */
function recolour(plot) {
  const again = () => {
    if (plot.root.isConnected) plot.redraw(false, true);
    else dark.removeEventListener("change", again);
  };
  dark.addEventListener("change", again);
}

/** The least that a chart shows, in seconds; our choice. */
const CLOSEST = 600;

/** What the grower was looking at on a chart, by page and title: live changes draw it anew, and must not take it away. */
const looked = new Map();
const keyOf = (chart) => `${location.pathname} ${chart.title}`;

/** The stretch shown, in seconds; what was asked for last, since the chart itself takes it in only at its next drawing. */
const shownOf = (plot) => plot.shown ?? plot.scales.x;

/** Shows a stretch of time, in seconds, kept within the chart's own. */
function show(plot, chart, min, max) {
  const [from, to] = [chart.from / 1000, chart.to / 1000];
  const width = Math.min(Math.max(max - min, CLOSEST), to - from);
  const start = Math.min(Math.max(min, from), to - width);
  plot.zoomed = width < to - from;
  plot.shown = { min: start, max: start + width };
  looked.set(keyOf(chart), plot.zoomed ? plot.shown : null);
  plot.setScale("x", plot.shown);
  const readout = plot.root.parentNode.querySelector(".readout");
  readout.textContent = plot.zoomed ? `Shown: ${when(start * 1000, chart.now)} to ${when((start + width) * 1000, chart.now)}.` : "All is shown.";
}

/** About the middle, or about a time; by 0 shows all. */
function zoom(plot, chart, factor, about) {
  if (!factor) {
    show(plot, chart, chart.from / 1000, chart.to / 1000);
    return;
  }
  const { min, max } = shownOf(plot);
  const centre = about ?? (min + max) / 2;
  show(plot, chart, centre - (centre - min) * factor, centre + (max - centre) * factor);
}

/** By a part of what is shown. */
function pan(plot, chart, part) {
  const { min, max } = shownOf(plot);
  show(plot, chart, min + (max - min) * part, max + (max - min) * part);
}

const KEYS = { "+": [0.5], "=": [0.5], "-": [2], 0: [0], ArrowLeft: [null, -0.25], ArrowRight: [null, 0.25] };

function byKeys(place, plot, chart) {
  place.setAttribute("tabindex", "0");
  place.setAttribute("role", "group");
  place.setAttribute("aria-label", `${chart.title}, chart: plus and minus to look closer and wider, arrows to move, 0 for all`);
  place.addEventListener("keydown", (event) => {
    const key = KEYS[event.key];
    if (!key || event.ctrlKey || event.metaKey || event.altKey || event.target !== place) return;
    event.preventDefault();
    if (key[1]) pan(plot, chart, key[1]);
    else zoom(plot, chart, key[0]);
  });
}

/** Two fingers zoom and move; one finger scrolls the page, and moves the chart sideways once it is zoomed. */
function byTouch(plot, chart) {
  const fingers = new Map();
  let before = null;
  const look = () => {
    const xs = [...fingers.values()];
    return { centre: xs.reduce((sum, x) => sum + x, 0) / xs.length, apart: xs.length > 1 ? Math.abs(xs[0] - xs[1]) : 0 };
  };
  plot.over.addEventListener("pointerdown", (event) => {
    if (event.pointerType !== "touch") return;
    fingers.set(event.pointerId, event.offsetX);
    before = look();
  });
  plot.over.addEventListener("pointermove", (event) => {
    if (!fingers.has(event.pointerId)) return;
    fingers.set(event.pointerId, event.offsetX);
    const now = look();
    if (fingers.size > 1 && now.apart > 10 && before.apart > 10) zoom(plot, chart, before.apart / now.apart, plot.posToVal(now.centre, "x"));
    if (plot.zoomed) pan(plot, chart, (before.centre - now.centre) / plot.over.clientWidth);
    before = now;
  });
  for (const gone of ["pointerup", "pointercancel", "pointerleave"]) {
    plot.over.addEventListener(gone, (event) => {
      fingers.delete(event.pointerId);
      if (fingers.size) before = look();
    });
  }
}

function bounds(chart, low, high) {
  const values = chart.lines.map(({ value }) => value);
  const least = Math.min(low ?? Infinity, ...values, chart.low ?? Infinity);
  const most = Math.max(high ?? -Infinity, ...values, chart.high ?? -Infinity);
  const room = (most - least || 1) * 0.06;
  return [least - room, most + room];
}

/** Beneath the traces: when the mat heated, and the limit lines. */
function beneath(plot, chart) {
  const { ctx, bbox } = plot;
  ctx.save();
  ctx.fillStyle = style("--span");
  for (const { from, to } of chart.spans) {
    const [left, right] = [from, to].map((time) => clampX(plot, plot.valToPos(time / 1000, "x", true)));
    ctx.fillRect(left, bbox.top + bbox.height - 10 * devicePixelRatio, Math.max(1, right - left), 10 * devicePixelRatio);
  }
  ctx.lineWidth = 1.5 * devicePixelRatio;
  ctx.font = `${12 * devicePixelRatio}px system-ui, sans-serif`;
  const labels = [];
  for (const { value, name } of [...chart.lines].sort((one, other) => one.value - other.value)) {
    const y = plot.valToPos(value, "y", true);
    ctx.strokeStyle = style("--limit");
    ctx.setLineDash([6 * devicePixelRatio, 4 * devicePixelRatio]);
    ctx.beginPath();
    ctx.moveTo(bbox.left, y);
    ctx.lineTo(bbox.left + bbox.width, y);
    ctx.stroke();
    // Lines close to each other share one label, or the names would cover each other.
    if (labels.length && labels.at(-1).y - y < 16 * devicePixelRatio) labels.at(-1).names.add(name);
    else labels.push({ y, names: new Set([name]) });
  }
  ctx.lineWidth = 4 * devicePixelRatio;
  ctx.strokeStyle = style("--card");
  ctx.fillStyle = style("--limit");
  ctx.setLineDash([]);
  for (const { y, names } of labels) {
    const at = [[...names].join(" / "), bbox.left + 6 * devicePixelRatio, Math.max(y - 4 * devicePixelRatio, bbox.top + 13 * devicePixelRatio)];
    ctx.strokeText(...at);
    ctx.fillText(...at);
  }
  ctx.restore();
}

const clampX = (plot, x) => Math.min(plot.bbox.left + plot.bbox.width, Math.max(plot.bbox.left, x));

/** Above the traces: forecast fans, waterings, now. */
function above(plot, chart) {
  const { ctx, bbox } = plot;
  ctx.save();
  ctx.beginPath();
  ctx.rect(bbox.left, bbox.top, bbox.width, bbox.height);
  ctx.clip();
  const x = (time) => plot.valToPos(time / 1000, "x", true);
  const y = (value) => plot.valToPos(value, "y", true);
  for (const fan of chart.fans) {
    ctx.fillStyle = style(`--series-${fan.series % 8}`);
    ctx.globalAlpha = 0.22;
    ctx.beginPath();
    ctx.moveTo(x(fan.from), y(fan.value));
    ctx.lineTo(x(fan.earliest), y(fan.to));
    ctx.lineTo(x(fan.latest), y(fan.to));
    ctx.fill();
  }
  ctx.globalAlpha = 1;
  ctx.fillStyle = style("--water");
  ctx.strokeStyle = style("--water");
  for (const { time } of chart.marks) {
    const size = 7 * devicePixelRatio;
    ctx.beginPath();
    ctx.moveTo(x(time), bbox.top + 2 * size);
    ctx.lineTo(x(time) - size, bbox.top);
    ctx.lineTo(x(time) + size, bbox.top);
    ctx.fill();
    ctx.beginPath();
    ctx.moveTo(x(time), bbox.top);
    ctx.lineTo(x(time), bbox.top + bbox.height);
    ctx.stroke();
  }
  if (chart.now < chart.to) {
    ctx.strokeStyle = style("--quiet");
    ctx.beginPath();
    ctx.moveTo(x(chart.now), bbox.top);
    ctx.lineTo(x(chart.now), bbox.top + bbox.height);
    ctx.stroke();
  }
  ctx.restore();
}

function say(plot, chart, readout) {
  if (!readout) return;
  const at = plot.cursor.idx;
  if (at === null || at === undefined || plot.cursor.left < 0) return;
  const time = plot.data[0][at] * 1000;
  const told = chart.series.map(({ name, points }) => {
    const value = near(points, time);
    return value === null ? null : `${name} ${chart.unit.tell(value)}`;
  }).filter(Boolean);
  readout.textContent = `${capital(when(time, chart.now))}: ${told.join(", ")}`;
}

/** The value nearest in time, within an hour. */
function near(points, time) {
  let best = null;
  for (const point of points) {
    if (Math.abs(point[0] - time) <= HOUR && (!best || Math.abs(point[0] - time) < Math.abs(best[0] - time))) best = point;
  }
  return best && best[1];
}

// A small trace of an alert's evidence: its probes from some hours before it opened until it closed, or until now.
import { readings } from "./ask.js";
import { el, svg } from "./dom.js";
import { bench } from "./bench.js";
import { capital, measuresWords, percent, valueOf, when, zoneWords } from "./words.js";

const HOUR = 3600000;
/** How much of the time before an alert is shown; our choice. */
const BEFORE = 12 * HOUR;
/** Most of the time after its opening that is shown. */
const AFTER = 24 * HOUR;
const [WIDTH, HEIGHT] = [300, 56];
const MOST_PROBES = 3;
const POINTS = 120;
const kept = new Map();

/** Kinds whose limit is of the very quantity their probes measure, and what the limit is called. */
const LIMITS = {
  dry: "the dry line", "drying-soon": "the dry line", "staying-wet": "the wet line", "centre-overheating": "the limit",
  "mat-shut-off": "the limit", "mat-not-stopping": "the room's air", "root-cold": "the limit", "night-cold": "the limit",
  "air-hot": "the limit", "frost-risk": "the limit", "damp-air": "the limit",
};

const visible = new IntersectionObserver((entries) => {
  for (const { isIntersecting, target } of entries) {
    if (isIntersecting) {
      visible.unobserve(target);
      target.show();
    }
  }
}, { rootMargin: "200px" });

/** The trace of an alert, asked for when it comes into view; nothing for an alert without probes. */
export function evidence(alert) {
  const probes = alert.probes.map((id) => bench.probes.find((probe) => probe.id === id)).filter(Boolean).slice(0, MOST_PROBES);
  if (!probes.length) return null;
  const figure = el("figure", { class: "trace" });
  const [from, to] = [Date.parse(alert.opened) - BEFORE, end(alert)];
  figure.show = async () => {
    const key = `${alert.id} ${Math.floor(to / 60000)}`;
    if (!kept.has(alert.id) || kept.get(alert.id).key !== key) {
      const values = await Promise.all(probes.map((probe) => readings(probe.id, from, to, POINTS).catch(() => [])));
      kept.set(alert.id, { key, values });
    }
    figure.replaceChildren(...draw(alert, probes, kept.get(alert.id).values, from, to));
  };
  if (kept.has(alert.id)) figure.replaceChildren(...draw(alert, probes, kept.get(alert.id).values, from, to));
  visible.observe(figure);
  return figure;
}

function end(alert) {
  const shown = alert.closed ? Date.parse(alert.closed) + HOUR : bench.now;
  return Math.min(shown, Date.parse(alert.opened) + AFTER);
}

function draw(alert, probes, values, from, to) {
  const all = values.flat().map(([, value]) => value);
  if (!all.length) return [el("figcaption", { class: "quiet" }, "No readings kept of that time.")];
  // A limit is drawn only where it is of what is drawn.
  const limit = LIMITS[alert.kind] && alert.limit !== null && alert.unit === probes[0].unit ? alert.limit : null;
  const low = Math.min(...all, limit ?? Infinity);
  const high = Math.max(...all, limit ?? -Infinity);
  const x = (time) => ((time - from) / (to - from)) * WIDTH;
  const y = (value) => HEIGHT - 4 - ((value - low) / (high - low || 1)) * (HEIGHT - 8);
  const opened = x(Date.parse(alert.opened)).toFixed(1);
  return [
    svg("svg", { viewBox: `0 0 ${WIDTH} ${HEIGHT}`, preserveAspectRatio: "none", "aria-hidden": "true" },
      svg("path", { class: "trace-opened", d: `M${opened} 0V${HEIGHT}` }),
      limit !== null && svg("path", { class: "trace-limit", d: `M0 ${y(limit).toFixed(1)}H${WIDTH}` }),
      values.map((points, i) => points.length > 0 && svg("path", { class: `trace-line trace-${i}`, d: `M${
        points.map(([time, value]) => `${x(time).toFixed(1)} ${y(value).toFixed(1)}`).join("L")}` }))),
    el("figcaption", {}, caption(alert, probes, values, limit)),
  ];
}

function caption(alert, probes, values, limit) {
  const told = probes.map((probe, i) => {
    const points = values[i];
    const what = capital(measuresWords(probe.measures)) + (probe.at.zone ? ` ${zoneWords(probe.at.zone)}` : "");
    if (!points.length) return `${what}: nothing heard`;
    const tell = (value) => (probe.unit === "1" ? percent(value) : valueOf(probe.measures, probe.unit, value));
    return `${what} ${tell(points[0][1])} at ${when(points[0][0], bench.now)}, ${tell(points.at(-1)[1])} at ${
      when(points.at(-1)[0], bench.now)}`;
  });
  return `${told.join("; ")}.${limit === null ? "" : ` Dashed: ${LIMITS[alert.kind]}.`}`;
}

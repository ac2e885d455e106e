// What the grower's own words and waterings say about dry lines: the trade-off drawn, with its sentence and its table. Applies nothing.
import { bench } from "../bench.js";
import { el, svg, table } from "../dom.js";
import { capital, percent, spoken, when, zoneWords } from "../words.js";

const WHYS = { wanted: "you would have watered", late: "watered late", "not-so": "alert called not so" };
const needs = ({ moments }) => moments.filter(({ why }) => why !== "not-so").length;
const falseAlarms = ({ moments }) => moments.filter(({ why }) => why === "not-so").length;
const times = (count) => (count === 1 ? "once" : count === 2 ? "twice" : `${count} times`);

/** The section; tryOut(change) is asked for when the grower wants to see what a line would have done. */
export function suggestionsSection(suggestions, tryOut) {
  return el("section", { "aria-labelledby": "suggested-title" },
    el("h2", { id: "suggested-title" }, "Dry lines by what you said and did"),
    el("p", { class: "quiet" }, "From “I would water this now”, from waterings that came an hour or more after their dry alert, and from alerts "
      + "called not so. Only a hint: look at your plants, and try a line before you keep it."),
    suggestions.length ? suggestions.map((one) => suggestion(one, tryOut))
      : el("p", {}, "Nothing said yet. Tap “I would water this now” on a tray whenever you would, and “Not so” on an alert that is wrong."));
}

function suggestion(one, tryOut) {
  const name = `${one.crop}-${one.stage}`;
  const points = Math.round(((one.suggested ?? one.now) - one.now) * 100);
  const moved = `${Math.abs(points)} ${Math.abs(points) === 1 ? "point" : "points"} ${points > 0 ? "higher" : "lower"}`;
  return el("article", { class: "card", "data-suggestion": name },
    el("h3", {}, `${capital(one.crop)}, ${spoken(one.stage)}`),
    el("p", { class: "suggestion-sentence" }, sentence(one)),
    tradeoff(one),
    one.suggested !== null && el("div", { class: "buttons" }, el("button", { type: "button", id: `try-${name}`,
      onclick: () => tryOut({ crop: one.crop, stage: one.stage, limit: "dry-line", steps: points }) }, `See what ${moved} would have done`)),
    el("details", { id: `said-${name}` }, el("summary", {}, `What it rests on: ${one.moments.length}`),
      table(`${capital(one.crop)}, ${spoken(one.stage)}: what you said and did`, ["When", "Where", "What", "Line that decides"], one.moments.map((moment) =>
        [when(moment.at, bench.now), `${moment.tray} ${zoneWords(moment.zone)}`, WHYS[moment.why],
          `${moment.why === "not-so" ? "quiet up to" : "above"} ${percent(moment.moisture)}`]))));
}

/** What a line of the trade-off would have done, in words. */
const didWords = (one, { warned, falseAlarms: wrong }) => [
  needs(one) > 0 && `warned in time of ${warned} of ${needs(one)}`, falseAlarms(one) > 0 && `given ${wrong} of ${falseAlarms(one)} false alarms`,
].filter(Boolean).join(" and ");

function sentence(one) {
  const at = (line) => one.tradeoff.reduce((best, other) => (Math.abs(other.line - line) < Math.abs(best.line - line) ? other : best));
  const said = [needs(one) > 0 && `water was wanted or came late ${times(needs(one))}`,
    falseAlarms(one) > 0 && `an alert was not so ${times(falseAlarms(one))}`].filter(Boolean).join(", ");
  const now = `${capital(said)}. The dry line of ${percent(one.now)} would have ${didWords(one, at(one.now))}`;
  if (one.suggested !== null) return `${now}; one of ${percent(one.suggested)} would have ${didWords(one, at(one.suggested))}.`;
  return one.moments.length < 3 ? `${now}. Too little for a hint yet.` : `${now}; no other line does better.`;
}

const [WIDTH, HEIGHT, LEFT, TOP, BOTTOM] = [560, 200, 34, 26, 34];

/** Two staircases over the line: needs warned of, and false alarms given. */
function tradeoff(one) {
  const { tradeoff: steps } = one;
  const [first, last] = [steps[0].line, steps.at(-1).line];
  const most = Math.max(1, ...steps.map(({ warned, falseAlarms: wrong }) => Math.max(warned, wrong)));
  const x = (line) => LEFT + (line - first) / (last - first || 1) * (WIDTH - LEFT - 10);
  const y = (count) => HEIGHT - BOTTOM - count / most * (HEIGHT - TOP - BOTTOM);
  const stairs = (key, className) => svg("path", { class: className, d: steps.map((step, i) =>
    (i ? `H${x(step.line).toFixed(1)}V${y(step[key]).toFixed(1)}` : `M${x(step.line).toFixed(1)} ${y(step[key]).toFixed(1)}`)).join("") });
  const marker = (line, words, low) => [svg("line", { x1: x(line), x2: x(line), y1: low ? 24 : 12, y2: HEIGHT - BOTTOM, class: `marker${low ? " new" : ""}` }),
    svg("text", { x: x(line) + (x(line) > WIDTH / 2 ? -4 : 4), y: low ? 24 : 11, "text-anchor": x(line) > WIDTH / 2 ? "end" : "start" }, words)];
  const ticks = steps.filter(({ line }) => Math.round(line * 100) % 5 === 0);
  const shown = steps.filter(({ warned, falseAlarms: wrong, line }, i) => i === 0 || i === steps.length - 1 || warned !== steps[i - 1].warned
    || wrong !== steps[i - 1].falseAlarms || Math.abs(line - (one.suggested ?? one.now)) < 0.001);
  return el("figure", { class: "tradeoff" },
    el("figcaption", {}, "By dry line: ", el("span", { class: "swatch new", "aria-hidden": "true" }), ` needs warned of in time (of ${needs(one)}), `,
      el("span", { class: "swatch wrong-alarms", "aria-hidden": "true" }), ` false alarms (of ${falseAlarms(one)}).`),
    svg("svg", { viewBox: `0 0 ${WIDTH} ${HEIGHT}`, role: "img", "aria-label": `Trade-off: ${sentence(one)}` },
      [0, most].map((count) => [svg("line", { x1: LEFT, x2: WIDTH - 10, y1: y(count), y2: y(count), class: "tick" }),
        svg("text", { x: LEFT - 6, y: y(count) + 4, "text-anchor": "end" }, String(count))]),
      ticks.map(({ line }) => svg("text", { x: x(line), y: HEIGHT - BOTTOM + 18, "text-anchor": "middle" }, percent(line))),
      marker(one.now, `now ${percent(one.now)}`), one.suggested !== null && marker(one.suggested, `${percent(one.suggested)}`, true),
      stairs("falseAlarms", "stairs wrong-alarms"), stairs("warned", "stairs new")),
    el("details", { id: `tradeoff-${one.crop}-${one.stage}` }, el("summary", {}, "As a table"),
      table("What each dry line would have done, where it changes", ["Dry line", "Needs warned of", "False alarms"],
        shown.map(({ line, warned, falseAlarms: wrong }) => [percent(line), `${warned} of ${needs(one)}`, `${wrong} of ${falseAlarms(one)}`]))));
}

// Limits: what they are and why, what others would have made different, and their past.
import { bench } from "../bench.js";
import { el, svg, table } from "../dom.js";
import { limitName, limitValue, listedChanges, stepOf } from "../limit-words.js";
import { ask, doing, post, remove, said } from "../tell.js";
import { capital, clock, day, lasting, listed, spoken, when, zoneWords } from "../words.js";
import { suggestionsSection } from "./suggestions.js";

const DAY = 86400000;
const PERIODS = [["7", "the last 7 days"], ["14", "the last 14 days"], ["30", "the last 30 days"], ["3650", "all that is stored"]];
/** How often the page asks how far a trial has come; our choice. */
const LOOK_MS = 400;
const STAGES = ["germinating", "seedling", "recovering", "growing-on", "hardening"];

export function limitsView() {
  const state = { limits: null, versions: [], suggestions: [], crop: "", stage: "", limit: "dry-line", steps: 5, more: [], days: "7", trial: null, asked: [], who: "", why: "", all: false };
  return { title: "Limits", on: [], load: () => load(state), draw: () => draw(state) };
}

async function load(state) {
  [state.limits, state.versions, state.suggestions] = await Promise.all([ask("limits"), ask("limits/versions"), ask("limits/suggestions")]);
}

function again(state) {
  const main = document.getElementById("main");
  if (document.title.indexOf("Limits") !== 0) return;
  const focused = document.activeElement?.id;
  const unfolded = [...main.querySelectorAll("details[open][id]")].map((details) => details.id);
  main.replaceChildren(...draw(state).flat(Infinity).filter(Boolean));
  for (const id of unfolded) document.getElementById(id)?.setAttribute("open", "");
  if (focused) document.getElementById(focused)?.focus({ preventScroll: true });
}

function draw(state) {
  return [el("h1", {}, "Limits"), tryOut(state), result(state), suggestionsSection(state.suggestions, (change) => trySuggested(state, change)),
    inForce(state), past(state)];
}

/** Puts a suggested line into the form and asks what it would have done; nothing is kept by it. */
function trySuggested(state, change) {
  Object.assign(state, change, { more: [], days: "30" });
  again(state);
  start(state);
}

const entry = (state, limit) => state.limits.crops[0]?.stages[0]?.limits.find((one) => one.limit === limit) ?? { limit, unit: "1" };
const unitOf = (state) => (limit) => entry(state, limit).unit;

/** The change the form shows now, in the file's units. */
function shownChange(state) {
  const { scale } = stepOf(entry(state, state.limit));
  const change = { limit: state.limit, by: Number((state.steps * scale).toFixed(6)) };
  if (state.crop) change.crop = state.crop;
  if (state.stage) change.stage = state.stage;
  return change;
}

const allChanges = (state) => [...state.more, ...(state.steps ? [shownChange(state)] : [])];

function tryOut(state) {
  if (!state.limits.crops.length) return el("p", { class: "nothing" }, "Nothing is sown yet, so there are no limits to look at.");
  const step = stepOf(entry(state, state.limit));
  const pick = (key, label, options) => el("div", { class: "field" }, el("label", { for: `try-${key}` }, label),
    el("select", { id: `try-${key}`, onchange: (event) => { state[key] = event.target.value; if (key === "limit") state.steps = 0; again(state); } },
      options.map(([value, words]) => el("option", { value, selected: value === state[key] }, words))));
  const by = (steps) => { state.steps = Number(steps.toFixed(2)); again(state); };
  return el("form", { class: "card try", "aria-labelledby": "try-title", onsubmit: (event) => { event.preventDefault(); start(state); } },
    el("h2", { id: "try-title" }, "What if a limit were different?"),
    el("p", { class: "quiet" }, "Nothing changes until you keep it. All stored readings are judged again by the limits you name."),
    pick("limit", "Limit", state.limits.crops[0].stages[0].limits.map(({ limit }) => [limit, limitName(limit)])),
    el("div", { class: "field" }, el("label", { for: "try-steps" }, "Moved by"),
      el("span", { class: "stepper" },
        el("button", { type: "button", id: "less", "aria-label": `Lower by ${step.step} ${step.words}`, onclick: () => by(state.steps - step.step) }, "−"),
        el("input", { id: "try-steps", type: "number", step: "any", value: String(state.steps), "aria-describedby": "try-unit",
          onchange: (event) => { state.steps = Number(event.target.value) || 0; again(state); } }),
        el("button", { type: "button", id: "more-steps", "aria-label": `Higher by ${step.step} ${step.words}`, onclick: () => by(state.steps + step.step) }, "+")),
      el("span", { id: "try-unit" }, `${step.words}${state.steps ? (state.steps > 0 ? " higher" : " lower") : ""}${nowWords(state)}`)),
    pick("crop", "Crop", [["", "every crop here"], ...state.limits.crops.map(({ crop }) => [crop, crop])]),
    pick("stage", "Stage", [["", "every stage"], ...STAGES.map((stage) => [stage, spoken(stage)])]),
    pick("days", "Seen over", PERIODS),
    state.more.length > 0 && el("ul", { class: "changes" }, state.more.map((change, i) => el("li", {}, `${capital(listedChanges([change], unitOf(state)))} `,
      el("button", { type: "button", id: `drop-${i}`, onclick: () => { state.more.splice(i, 1); again(state); } }, "Leave out")))),
    el("div", { class: "buttons" },
      el("button", { type: "submit", id: "try", class: "main-button", disabled: !allChanges(state).length || state.trial?.state === "running" },
        "What would have been different?"),
      el("button", { type: "button", id: "add", disabled: !state.steps, onclick: () => { state.more.push(shownChange(state)); state.steps = 0; again(state); } },
        "Move another limit too")));
}

/** From what to what, where all the crops and stages meant have one value. */
function nowWords(state) {
  const limits = state.limits.crops.filter(({ crop }) => !state.crop || crop === state.crop)
    .flatMap(({ stages }) => stages.filter(({ stage }) => !state.stage || stage === state.stage))
    .map(({ limits: all }) => all.find(({ limit }) => limit === state.limit));
  if (!limits.length) return "";
  const moved = (one) => ({ ...one, value: Math.min(one.highest, Math.max(one.lowest, Number((one.value + shownChange(state).by).toFixed(6)))) });
  const [least, most] = [limits.reduce((a, b) => (b.value < a.value ? b : a)), limits.reduce((a, b) => (b.value > a.value ? b : a))];
  const range = (one, other) => (one.value === other.value ? limitValue(one) : `${limitValue(one)} to ${limitValue(other)}`);
  return state.steps ? `: now ${range(least, most)}, then ${range(moved(least), moved(most))}` : `; now ${range(least, most)}`;
}

async function start(state) {
  const button = document.getElementById("try");
  await doing(button, async () => {
    state.asked = allChanges(state);
    const to = new Date(bench.now + 1000).toISOString();
    const from = new Date(bench.now - Number(state.days) * DAY).toISOString();
    state.trial = await post("limits/trials", { changes: state.asked, from, to });
    again(state);
    document.getElementById("answer")?.scrollIntoView({ block: "nearest" });
    follow(state, state.trial.number);
  });
}

async function follow(state, number) {
  while (state.trial?.number === number && state.trial.state === "running" && document.getElementById("answer")) {
    await new Promise((resolve) => setTimeout(resolve, LOOK_MS));
    try {
      state.trial = await ask(`limits/trials/${number}`);
    } catch (error) {
      state.trial = { ...state.trial, state: "failed", trouble: error.message };
    }
    if (state.trial.state === "running" && document.getElementById("trial-progress")) {
      document.getElementById("trial-progress").value = state.trial.progress;
    } else {
      again(state);
    }
  }
}

function result(state) {
  const { trial } = state;
  if (!trial) return null;
  const inside = {
    running: () => [el("label", { for: "trial-progress" }, "Judging the stored readings twice "),
      el("progress", { id: "trial-progress", max: "1", value: String(trial.progress) }),
      el("button", { type: "button", id: "cancel", onclick: (event) => doing(event.target, () => remove(`limits/trials/${trial.number}`)) }, "Cancel")],
    cancelled: () => [el("p", {}, "Cancelled.")],
    failed: () => [el("p", { class: "wrong" }, `This could not be answered: ${trial.trouble ?? "the program's log says why"}.`)],
    done: () => answer(state),
  };
  return el("section", { id: "answer", class: "card", "aria-labelledby": "answer-title" },
    el("h2", { id: "answer-title" }, capital(listedChanges(state.asked, unitOf(state)))), el("div", { role: "status" }, inside[trial.state]()));
}

const WHATS = { gained: "gained", lost: "lost", earlier: "earlier", later: "later", same: "the same" };
const alertOf = ({ before, after }) => after ?? before;
const count = (list, what) => list.filter((one) => one.what === what).length;
const shift = ({ before, after }) => Math.abs(Date.parse(after.opened) - Date.parse(before.opened));
const middle = (numbers) => [...numbers].sort((one, other) => one - other)[Math.floor(numbers.length / 2)];

function answer(state) {
  const { differences, from, to } = state.trial;
  const changed = differences.filter(({ what }) => what !== "same");
  return [el("p", { class: "lead", id: "answer-sentence" }, sentence(state)),
    changed.length > 0 && [timeline(changed, Date.parse(from), Date.parse(to)), differenceTable(changed), hoursTable(differences)],
    keep(state)];
}

function sentence(state) {
  const { differences } = state.trial;
  const period = PERIODS.find(([days]) => days === state.days)[1];
  const part = (what, words) => {
    const of = differences.filter((one) => one.what === what);
    if (!of.length) return null;
    const by = what === "earlier" || what === "later" ? `, by ${lasting(middle(of.map(shift)))} in the middle` : ` (${kinds(of)})`;
    return `${of.length} ${words}${by}`;
  };
  const parts = [part("gained", "more"), part("lost", "gone"), part("earlier", "earlier"), part("later", "later")].filter(Boolean);
  if (!parts.length) return `Over ${period} nothing would have been different: ${differences.length} alerts, the same ones.`;
  const notSo = differences.filter(({ what, mark }) => what === "lost" && mark === "not-so").length;
  return `Over ${period}: ${listed(parts)}; ${count(differences, "same")} the same.${
    notSo ? ` Of those gone you had marked ${notSo} as not so.` : ""}`;
}

function kinds(of) {
  const counts = new Map();
  for (const one of of) counts.set(alertOf(one).kind, (counts.get(alertOf(one).kind) ?? 0) + 1);
  return listed([...counts].sort((one, other) => other[1] - one[1]).map(([kind, number]) => `${number} ${spoken(kind)}`));
}

const placeOf = (alert) => (alert.tray ? `${alert.tray}${alert.zone && alert.zone !== "tray" ? ` ${zoneWords(alert.zone)}` : ""}` : spoken(alert.room));

/** Old above, new below, a row a place; drawn as bars from opening to closing. */
function timeline(changed, from, to) {
  const first = Math.max(from, Math.min(...changed.map((one) => Date.parse((one.before ?? one.after).opened))) - 3 * 3600000);
  const places = [...new Set(changed.map((one) => placeOf(alertOf(one))))].sort().slice(0, 24);
  const [width, left, row, top] = [700, 130, 26, 18];
  const height = top + places.length * row + 4;
  const x = (time) => left + (Math.min(to, Math.max(first, time)) - first) / (to - first) * (width - left - 4);
  const bar = (alert, y, kind) => {
    const [start, end] = [x(Date.parse(alert.opened)), x(alert.closed ? Date.parse(alert.closed) : bench.now)];
    return svg("rect", { x: start, y, width: Math.max(3, end - start), height: 9, class: `bar ${kind}` },
      svg("title", {}, `${kind === "old" ? "By the old limits" : "By the new"}: ${placeOf(alert)}, ${spoken(alert.kind)}, from ${when(alert.opened, bench.now)}`));
  };
  const days = [];
  for (let time = first; time < to; time += DAY) {
    const midnight = Date.parse(new Date(time).toISOString().slice(0, 10));
    if (midnight > first) days.push(midnight);
  }
  return el("figure", { class: "timeline" },
    el("figcaption", {}, "Alerts that differ: above by the old limits ", el("span", { class: "swatch old", "aria-hidden": "true" }), ", below by the new ",
      el("span", { class: "swatch new", "aria-hidden": "true" }), ". The table beneath says the same."),
    el("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": "Timeline" },
      svg("svg", { viewBox: `0 0 ${width} ${height}`, role: "img", "aria-label": "Timeline of the alerts that differ" },
        days.filter((_, i) => i % Math.ceil(days.length / 8) === 0).map((time) => [svg("line", { x1: x(time), x2: x(time), y1: top - 2, y2: height, class: "tick" }),
          svg("text", { x: x(time) + 3, y: 12 }, day(time))]),
        places.map((place, i) => {
          const y = top + i * row;
          return [svg("text", { x: 0, y: y + 14 }, place),
            changed.filter((one) => placeOf(alertOf(one)) === place).map(({ before, after }) => [before && bar(before, y + 2, "old"), after && bar(after, y + 12, "new")])];
        }))));
}

function differenceTable(changed) {
  const at = (alert) => (alert ? `${day(alert.opened)} ${clock(alert.opened)}` : "—");
  const rows = changed.map((one) => [placeOf(alertOf(one)), spoken(alertOf(one).kind), at(one.before), at(one.after),
    one.before && one.after ? `${WHATS[one.what]} by ${lasting(shift(one))}` : WHATS[one.what], one.mark ? spoken(one.mark) : "—"]);
  return el("details", { id: "differences", open: rows.length <= 12 }, el("summary", {}, `Alert by alert: ${rows.length}`),
    table("What would have been different", ["Where", "What", "Old limits", "New limits", "Difference", "You said"], rows));
}

/** For how long alerts were open on each tray, by the old limits and by the new. */
function hoursTable(differences) {
  const hours = (alert) => (alert ? ((alert.closed ? Date.parse(alert.closed) : bench.now) - Date.parse(alert.opened)) / 3600000 : 0);
  const trays = new Map();
  for (const one of differences.filter((each) => alertOf(each).kind === "dry")) {
    const place = alertOf(one).tray;
    const [old, fresh] = trays.get(place) ?? [0, 0];
    trays.set(place, [old + hours(one.before), fresh + hours(one.after)]);
  }
  if (!trays.size) return null;
  const tell = (number) => `${number.toFixed(1)} h`;
  return el("details", { id: "dry-hours" }, el("summary", {}, "Hours with a dry alert, by tray"),
    table("Hours with a dry alert open, all zones together", ["Tray", "Old limits", "New limits"],
      [...trays].sort().map(([tray, [old, fresh]]) => [tray, tell(old), tell(fresh)])));
}

function keep(state) {
  return el("form", { class: "keep", "aria-label": "Keep these limits", onsubmit: (event) => {
    event.preventDefault();
    doing(document.getElementById("keep"), async () => {
      const before = Math.max(0, ...state.versions.map(({ number }) => number));
      state.versions = await post("limits", { changes: state.asked, who: state.who, why: state.why });
      const found = state.versions.filter(({ number, what }) => number > before && what !== "as it was found");
      Object.assign(state, { trial: null, more: [], steps: 0, why: "" });
      state.limits = await ask("limits");
      again(state);
      said(`Kept: ${listedChanges(state.asked, unitOf(state))}. The watch judges by it from now on; what is past is judged anew.`,
        async () => {
          for (const { file } of found) {
            const earlier = state.versions.filter((version) => version.file === file).at(-2);
            state.versions = await post(`limits/versions/${earlier.number}/bring-back`, { who: state.who, why: "undone" });
          }
          state.limits = await ask("limits");
          again(state);
        });
    });
  } },
  el("h3", {}, "Keep these limits?"),
  el("div", { class: "field" }, el("label", { for: "who" }, "Who"), el("input", { id: "who", maxlength: "60", value: state.who, oninput: (event) => { state.who = event.target.value; } })),
  el("div", { class: "field" }, el("label", { for: "why" }, "Why"), el("input", { id: "why", maxlength: "300", value: state.why, oninput: (event) => { state.why = event.target.value; } })),
  el("button", { type: "submit", id: "keep" }, "Keep these limits"));
}

function inForce(state) {
  const sources = state.limits.sources;
  const cite = (source) => {
    const ids = Object.keys(sources).filter((id) => /^S\d+$/.test(id) && new RegExp(`\\b${id}\\b`).test(source ?? ""));
    return el("span", { title: ids.map((id) => `${id}: ${sources[id]}`).join("\n") || null }, source ?? "—");
  };
  return el("section", { "aria-labelledby": "force-title" }, el("h2", { id: "force-title" }, "Limits in force"),
    state.limits.crops.map(({ crop, stages }) => [el("h3", {}, capital(crop)), stages.map(({ stage, standing, limits }) =>
      el("details", { id: `limits-${crop}-${stage}` },
        el("summary", {}, `${capital(spoken(stage))}${standing ? " (stands here now)" : ""}: dry line ${limitValue(limits.find(({ limit }) => limit === "dry-line"))}`),
        table(`${capital(crop)}, ${spoken(stage)}`, ["Limit", "Value", "Source"], limits.map((one) => [limitName(one.limit), limitValue(one), cite(one.source)]))))]),
    el("details", { id: "sources" }, el("summary", {}, "What the sources stand for"),
      el("dl", {}, Object.entries(sources).map(([id, words]) => [el("dt", {}, id), el("dd", {}, words)]))));
}

function past(state) {
  const newest = new Map(state.versions.map((version) => [version.file, version.number]));
  return el("section", { "aria-labelledby": "past-title" }, el("h2", { id: "past-title" }, "What was changed"),
    state.versions.length ? el("ol", { class: "entries" }, [...state.versions].reverse().map((version) => el("li", { class: "entry", "data-version": version.number },
      el("div", {}, el("p", {}, el("span", { class: "quiet" }, `${when(version.at, bench.now)} `), el("code", {}, `crops/${version.file}`), ` ${version.what}`,
        version.who && ` — ${version.who}`, version.why && `: ${version.why}`),
      el("details", { id: `text-${version.number}` }, el("summary", {}, `Version ${version.number}`),
        el("pre", { tabindex: "0" }, version.text ?? "There was no such file."))),
      version.number !== newest.get(version.file) && el("button", { type: "button", id: `back-${version.number}`,
        "aria-label": `Bring back version ${version.number} of ${version.file}`, onclick: (event) => doing(event.target, async () => {
          const now = newest.get(version.file);
          state.versions = await post(`limits/versions/${version.number}/bring-back`, { who: state.who });
          state.limits = await ask("limits");
          again(state);
          said(`Version ${version.number} of crops/${version.file} is back.`, async () => {
            state.versions = await post(`limits/versions/${now}/bring-back`, { who: state.who, why: "undone" });
            state.limits = await ask("limits");
            again(state);
          });
        }) }, "Bring back")))) : el("p", { class: "quiet" }, "Nothing yet. Each change will stand here with who, when and why, and every version can be brought back."));
}

// Limits: what they are and why, what others would have made different, and their past.
import { bench } from "../bench.js";
import { el } from "../dom.js";
import { limitName, limitValue, listedChanges, stepOf } from "../limit-words.js";
import { ask, doing, post, remove, said } from "../tell.js";
import { capital, spoken, when } from "../words.js";
import { answerParts } from "./limits-answer.js";
import { inForce } from "./limits-force.js";
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
  // The readings of a week take longer to go through than the rest: the page does not wait for them.
  ask("limits/stays", { days: 7 }).then((stays) => { state.stays = stays; again(state); }, () => {});
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
    done: () => [...answerParts(state, PERIODS.find(([days]) => days === state.days)[1]), keep(state)],
  };
  return el("section", { id: "answer", class: "card", "aria-labelledby": "answer-title" },
    el("h2", { id: "answer-title" }, capital(listedChanges(state.asked, unitOf(state)))), el("div", { role: "status" }, inside[trial.state]()));
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

// The journal: a form for a thumb, what was written, and its past.
import { bench } from "../bench.js";
import { el, table } from "../dom.js";
import { entryWords, KINDS, kindOf } from "../entries.js";
import { labels } from "../labels.js";
import { ask, doing, post, put, remove, said, writeEntries } from "../tell.js";
import { clock, fromSiteTime, listed, longDay, siteTime, spoken, zoneWords } from "../words.js";

/** How many days are listed at first, and more each time; our choice. */
const STEP_DAYS = 14;
const DAY = 86400000;

export function journalView({ query }) {
  const tray = query.get("tray");
  const state = {
    kind: query.get("entry") ?? "watered", trays: new Set(tray ? [tray] : []), values: {}, time: "", note: "", correcting: null,
    days: STEP_DAYS, past: false, entries: [], varieties: [], changes: [], tray,
  };
  return { title: "Journal", on: ["journal"], load: () => load(state), draw: () => draw(state) };
}

async function load(state) {
  const from = new Date(bench.now - state.days * DAY).toISOString();
  const [entries, varieties, versions] = await Promise.all([ask("journal", { past: true, from }), ask("varieties"), ask("limits/versions")]);
  const changes = versions.filter(({ at, what }) => at >= from && what !== "as it was found");
  Object.assign(state, { entries, varieties, changes });
}

function again(state) {
  const main = document.getElementById("main");
  const focused = document.activeElement?.id;
  main.replaceChildren(...draw(state).flat(Infinity).filter(Boolean));
  if (focused) document.getElementById(focused)?.focus({ preventScroll: true });
}

function draw(state) {
  return [el("h1", {}, "Journal"),
    el("div", { class: "journal" }, form(state), list(state)), varieties(state), bench.trays.length > 0 && labels(state.tray)];
}

/** From seeds sown to plants planted out. */
function varieties(state) {
  if (!state.varieties.length) return null;
  const known = (count) => (count === null ? "—" : String(count));
  return el("section", { "aria-labelledby": "varieties-title" }, el("h2", { id: "varieties-title" }, "From seed to planting out"),
    table("Counts by variety, as site file and journal tell them", ["Variety", "Crop", "Seeds", "Emerged", "Thinned", "Lost", "Potted up", "Planted out"],
      state.varieties.map((one) => [one.variety, one.crop, known(one.seeds), known(one.emerged), ...[one.thinned, one.lost, one.pottedUp, one.plantedOut].map(String)])),
    el("p", {}, el("a", { href: "/api/v1/varieties.csv", download: true }, "As a CSV file")));
}

function form(state) {
  const kind = kindOf(state.kind);
  return el("form", { class: "card journal-form", "aria-labelledby": "write-title", onsubmit: (event) => submit(event, state) },
    el("h2", { id: "write-title" }, state.correcting ? "Correct an entry" : "Write"),
    chips("What", "kind", KINDS.map(({ word, name }) => [word, name]), (word) => word === state.kind,
      (word) => { state.kind = word; state.values = {}; again(state); }, "radio"),
    trayChips(state),
    kind.fields.map((field) => control(state, field)),
    el("div", { class: "field" },
      el("label", { for: "time" }, "When"),
      el("input", { id: "time", type: "datetime-local", value: state.time, max: siteTime(bench.now + 60000),
        oninput: (event) => { state.time = event.target.value; } }),
      el("span", { class: "quiet" }, "empty for now")),
    el("div", { class: "field" },
      el("label", { for: "note" }, kind.word === "note" ? "Note" : "In your own words"),
      el("input", { id: "note", type: "text", maxlength: "500", value: state.note, required: kind.word === "note",
        oninput: (event) => { state.note = event.target.value; } })),
    el("div", { class: "buttons" },
      el("button", { type: "submit", id: "write", class: "main-button" }, state.correcting ? "Put this in its place" : "Write it down"),
      state.correcting && el("button", { type: "button", id: "leave", onclick: () => { clear(state); again(state); } }, "Leave it as it was")));
}

function chips(label, name, options, isChosen, choose, type) {
  return el("fieldset", { class: "chips" }, el("legend", {}, label), options.map(([value, words]) =>
    el("label", { class: "chip" },
      el("input", { type, name, id: `${name}-${value}`, value, checked: isChosen(value), onchange: () => choose(value) }),
      el("span", {}, words))));
}

function trayChips(state) {
  const choose = (id) => {
    if (state.correcting) state.trays = new Set([id]);
    else if (!state.trays.delete(id)) state.trays.add(id);
    again(state);
  };
  const benches = new Map();
  for (const tray of bench.trays) {
    const name = tray.bench ? `${spoken(tray.bench)} bench` : spoken(tray.room);
    benches.set(name, [...(benches.get(name) ?? []), tray.id]);
  }
  const whole = state.correcting ? [] : [...benches].filter(([, ids]) => ids.length > 1);
  return el("div", {},
    chips(state.correcting ? "Tray" : "Trays", "tray", bench.trays.map(({ id }) => [id, id]), (id) => state.trays.has(id), choose,
      state.correcting ? "radio" : "checkbox"),
    whole.length > 0 && el("div", { class: "buttons" }, whole.map(([name, ids], i) =>
      el("button", { type: "button", id: `bench-${i}`, onclick: () => { state.trays = new Set(ids); again(state); } }, `Whole ${name}`))));
}

function control(state, field) {
  const set = (value) => {
    if (value) state.values[field.key] = value;
    else delete state.values[field.key];
  };
  const value = state.values[field.key] ?? "";
  if (field.choice === "zones") return zoneChips(state, field, value, set);
  if (field.choice === "one") {
    return chips(field.label, field.key, field.options, (one) => one === value, set, "radio");
  }
  const id = `field-${field.key}`;
  const options = { tray: bench.trays.map((tray) => tray.id), room: bench.rooms.map((room) => room.id),
    mat: ["none", ...bench.mats.map((mat) => mat.id)] }[field.choice];
  const input = options
    ? el("select", { id, required: field.needed, onchange: (event) => set(event.target.value) },
      el("option", { value: "" }, "—"), options.map((one) => el("option", { value: one, selected: one === value }, spoken(one))))
    : el("input", { id, type: field.type ?? "text", min: field.min, max: field.max, step: field.step, pattern: field.pattern, value,
      "aria-describedby": field.hint && `${id}-hint`, oninput: (event) => set(event.target.value.trim()) });
  return el("div", { class: "field" }, el("label", { for: id }, field.label), input,
    field.hint && el("span", { class: "quiet", id: `${id}-hint` }, field.hint));
}

function zoneChips(state, field, value, set) {
  const chosen = new Set(value.split(",").filter(Boolean));
  const trays = bench.trays.filter(({ id }) => state.trays.has(id));
  const zones = [...new Set((trays.length ? trays : bench.trays).flatMap((tray) => tray.zones.map(({ zone }) => zone)))]
    .filter((zone) => zone !== "tray").sort();
  if (!zones.length) return null;
  return chips(`${field.label} (none chosen: all of it)`, "zones", zones.map((zone) => [zone, zoneWords(zone)]), (zone) => chosen.has(zone), (zone) => {
    if (!chosen.delete(zone)) chosen.add(zone);
    set([...chosen].join(","));
  }, "checkbox");
}

function entriesOf(state) {
  const time = state.time ? fromSiteTime(state.time) : undefined;
  return [...state.trays].map((tray) => ({
    tray, entry: state.kind, detail: state.values, ...(time && { time }), ...(state.note.trim() && { note: state.note.trim() }),
  }));
}

function submit(event, state) {
  event.preventDefault();
  if (!state.trays.size) {
    said("Say for which tray first.");
    document.querySelector("[name=tray]")?.focus();
    return;
  }
  doing(document.getElementById("write"), async () => {
    const entries = entriesOf(state);
    const words = `${kindOf(state.kind).name}, ${listed([...state.trays])}: written.`;
    if (state.correcting) {
      const wrong = state.correcting;
      const right = await put(`journal/${wrong.number}`, entries[0]);
      said(right.doubts?.length ? `Corrected. But: ${right.doubts.join("; ")}.` : "Corrected; the wrong entry stays on record.",
        () => put(`journal/${right.number}`, { tray: wrong.tray, entry: wrong.entry, time: wrong.time, detail: wrong.detail, note: wrong.note }));
    } else {
      await writeEntries(entries, words);
    }
    clear(state);
    await load(state);
    again(state);
  });
}

function clear(state) {
  Object.assign(state, { values: {}, time: "", note: "", correcting: null });
}

function list(state) {
  const limits = state.tray ? [] : state.changes.map((version) => ({ ...version, time: version.at, isLimits: true }));
  const shown = [...state.entries.filter((entry) => (state.past || entry.state === "counts") && (!state.tray || entry.tray === state.tray)), ...limits]
    .sort((one, other) => Date.parse(other.time) - Date.parse(one.time) || other.number - one.number);
  const gone = state.entries.filter((entry) => entry.state !== "counts").length;
  let lastDay = "";
  return el("section", { "aria-label": "Written" }, el("h2", {}, state.tray ? `Written about ${state.tray}` : "Written"),
    gone > 0 && el("button", { type: "button", id: "past", "aria-pressed": String(state.past),
      onclick: () => { state.past = !state.past; again(state); } }, `Show the ${gone} that no longer count`),
    shown.length ? el("ol", { class: "entries" }, shown.map((entry) => {
      const day = longDay(entry.time);
      const head = day === lastDay ? null : el("li", { class: "day" }, day);
      lastDay = day;
      return [head, entry.isLimits ? limitsItem(entry) : item(state, entry)];
    })) : el("p", { class: "quiet" }, `Nothing in the last ${state.days} days.`),
    el("button", { type: "button", id: "earlier", onclick: (event) => doing(event.target, async () => {
      state.days *= 4;
      await load(state);
      again(state);
    }) }, "Further back"));
}

/** Limits that were changed, among what was written. */
function limitsItem({ time, what, who, why, file }) {
  return el("li", { class: "entry" }, el("p", {}, el("span", { class: "quiet" }, `${clock(time)} `), el("a", { href: "/limits" }, "Limits"),
    ` ${what} (crops/${file})${who ? `, ${who}` : ""}${why ? `: ${why}` : ""}`));
}

const STATES = { withdrawn: "withdrawn", corrected: "corrected since" };

function item(state, entry) {
  const counts = entry.state === "counts";
  return el("li", { class: `entry ${entry.state}`, "data-entry": entry.number },
    el("p", {}, el("span", { class: "quiet" }, `${clock(entry.time)} `),
      el("a", { href: `/trays/${encodeURIComponent(entry.tray)}` }, entry.tray), " ",
      counts ? entryWords(entry) : [el("s", {}, entryWords(entry)), ` (${STATES[entry.state]})`]),
    el("div", { class: "entry-buttons" },
      counts && el("button", { type: "button", id: `correct-${entry.number}`, "aria-label": `Correct: ${entry.tray} ${entryWords(entry)}`,
        onclick: () => correct(state, entry) }, "Correct"),
      counts && el("button", { type: "button", id: `withdraw-${entry.number}`, "aria-label": `Withdraw: ${entry.tray} ${entryWords(entry)}`,
        onclick: (event) => doing(event.target, async () => {
          await remove(`journal/${entry.number}`);
          said(`Withdrawn: ${entry.tray} ${entryWords(entry)}. It stays on record.`, () => post(`journal/${entry.number}/bring-back`));
        }) }, "Withdraw"),
      entry.state === "withdrawn" && el("button", { type: "button", id: `back-${entry.number}`, "aria-label": `Let it count again: ${entry.tray} ${entryWords(entry)}`,
        onclick: (event) => doing(event.target, async () => {
          await post(`journal/${entry.number}/bring-back`);
          said("It counts again.", () => remove(`journal/${entry.number}`));
        }) }, "Let it count again")));
}

function correct(state, entry) {
  Object.assign(state, { kind: entry.entry, trays: new Set([entry.tray]), values: { ...entry.detail }, time: siteTime(entry.time),
    note: entry.note, correcting: entry });
  again(state);
  document.getElementById("write-title").scrollIntoView({ block: "start" });
  document.getElementById("note").focus({ preventScroll: true });
}

// The start page: the round, how the night will go, then every tray as its cells.
import { alertItem, URGENCY } from "../alert-item.js";
import { bench } from "../bench.js";
import { coverageWords, lookAt } from "../coverage.js";
import { el } from "../dom.js";
import { restNotice } from "../mats.js";
import { isEvening, lasts, nextMorningRound, roundOf, wantsWater } from "../round.js";
import { doing, post, remove, said } from "../tell.js";
import { trayCard } from "../tray-card.js";
import { capital, clock, dateOf, hourMinute, inScale, listed, percent, spoken, told, when, zoneWords } from "../words.js";

const LATER = [["1", "1 hour"], ["2", "2 hours"], ["4", "4 hours"], ["12", "12 hours"]];
let laterHours = "2";
/** Whether the grower has folded or unfolded the night's answers; null as long as the hour decides. */
let nightOpen = null;

export function todoView() {
  return { title: "To do", on: ["alerts", "trays"], draw };
}

function draw() {
  return [el("h1", {}, "What to do"), el("div", { class: "todo" },
    el("section", { class: "todo-list", "aria-label": "What to do" }, ...list()),
    el("section", { "aria-labelledby": "bench-title" },
      night(), coverageWords(),
      el("h2", { id: "bench-title" }, "The trays"),
      bench.trays.length ? el("div", { class: "cards small" }, worstFirst().map((tray) => trayCard(tray)))
        : el("p", { class: "quiet" }, "No trays in the site folder yet.")))];
}

function list() {
  const round = roundOf(bench.alerts, bench.trays, bench.now);
  const parts = [bench.mats.map((mat) => restNotice(mat, "h2")), first(), round.benches.length ? later() : el("p", { class: "nothing" }, nothing())];
  for (const [i, { room, bench: name, lines }] of round.benches.entries()) {
    const count = lines.reduce((sum, { alerts }) => sum + alerts.length, 0);
    parts.push(el("section", { class: "bench", "aria-labelledby": `round-${i}` },
      el("h2", { id: `round-${i}` }, benchWords(room, name), el("span", { class: "count" }, ` ${count}`)),
      lines.map((line) => (line.whole ? wholeBench(line, name ?? room) : alertItem(line.alerts[0], "h3", [also(line.alerts), actions(line.alerts)])))));
  }
  parts.push(lookAt());
  if (round.notes.length) {
    parts.push(el("section", { class: "urgency note", "aria-label": URGENCY.note.title },
      el("h2", {}, URGENCY.note.title, el("span", { class: "count" }, ` ${round.notes.length}`)),
      round.notes.map((alert) => alertItem(alert, "h3", actions([alert])))));
  }
  if (round.answered.length) parts.push(answered(round.answered));
  return parts;
}

/** Which tray needs water first, and why, in one sentence: heat stands above water on the round. */
function first() {
  const [zone, next] = bench.trays.filter(({ stage }) => stage !== "planted-out")
    .flatMap((tray) => tray.zones.filter(({ moisture, trusted }) => moisture !== null && trusted).map((one) => ({ ...one, tray: tray.id })))
    .sort((one, other) => below(other) - below(one) || Date.parse(one.expected ?? "9999") - Date.parse(other.expected ?? "9999"))
    .filter((one, i, all) => all.findIndex(({ tray }) => tray === one.tray) === i);
  if (!zone || (!below(zone) && !zone.expected)) return null;
  const why = (one) => `${zoneWords(one.zone)} ${percent(one.moisture)}, ${below(one) ? `dry line ${percent(one.dryLine)}`
    : `at its dry line of ${percent(one.dryLine)} by about ${when(one.expected, bench.now)}`}`;
  const link = (one) => el("a", { href: `/trays/${encodeURIComponent(one.tray)}` }, one.tray);
  return el("p", { class: "lead", id: "water-first" }, "Water first: ", link(zone), ` (${why(zone)})`,
    next && (below(next) || next.expected) && ["; then ", link(next), ` (${why(next)})`], ".");
}

/** How far a zone is below its dry line; 0 above it. */
const below = ({ moisture, dryLine }) => Math.max(0, dryLine - moisture);

const benchWords = (room, name) => capital(name ? `${spoken(name)} bench, ${spoken(room)}` : spoken(room));

function later() {
  return el("p", { class: "quiet later" }, el("label", { for: "later-hours" }, "“Later” asks again in "),
    el("select", { id: "later-hours", onchange: (event) => { laterHours = event.target.value; } },
      LATER.map(([hours, words]) => el("option", { value: hours, selected: hours === laterHours }, words))));
}

async function act(mark, alerts, words, more = {}) {
  const done = await post("round", { mark, alerts: alerts.map(({ id }) => id), ...more });
  said(words, () => remove(`round/${done.act}`));
}

const button = (id, words, label, work, main) => el("button", {
  type: "button", id, "aria-label": `${words}: ${label}`, class: main ? "main-button" : null, onclick: (event) => doing(event.target, work),
}, words);

const shortly = (alert) => [alert.tray ?? spoken(alert.room), alert.zone && alert.zone !== "tray" ? zoneWords(alert.zone) : null, spoken(alert.kind)]
  .filter(Boolean).join(", ");

/** What else the same walk settles. */
function also([, ...others]) {
  if (!others.length) return null;
  return el("ul", { class: "also" }, others.map((alert) => el("li", { "data-alert": alert.id, "data-kind": alert.kind },
    el("strong", {}, `${URGENCY[alert.urgency].sign} `), inScale(alert.says, alert.kind === "uneven-heat"),
    alert.expected ? ` Until about ${when(alert.expected, bench.now)} (${clock(alert.earliest)} to ${clock(alert.latest)}).` : null)));
}

function actions(alerts) {
  const [alert] = alerts;
  const label = alerts.length > 1 ? `${shortly(alert)} and ${alerts.length - 1} more of ${alert.tray ?? spoken(alert.room)}` : shortly(alert);
  const zones = [...new Set(alerts.filter(wantsWater).map(({ zone }) => zone))];
  const where = zones.includes("tray") || zones.includes(null) ? "" : `, the ${listed(zones.map(zoneWords))}`;
  const watered = (from) => () => act("done", alerts, `Written: ${alert.tray} watered from ${from}${where}.`, { watered: { from } });
  const done = wantsWater(alert)
    ? [button(`above-${alert.id}`, "Watered from above", label, watered("above"), true), button(`below-${alert.id}`, "from below", label, watered("below"), true)]
    : [alert.urgency === "note" ? button(`seen-${alert.id}`, "Seen", label, () => act("seen", alerts, `Seen: ${label}.`))
      : button(`done-${alert.id}`, "Done", label, () => act("done", alerts, `Done: ${label}.`), true)];
  return el("div", { class: "actions" }, done, ...common(alerts, label));
}

function common(alerts, label) {
  const { id } = alerts[0];
  return [
    button(`later-${id}`, "Later", label, () => act("later", alerts, `${capital(label)}: asks again in ${
      LATER.find(([hours]) => hours === laterHours)[1]}.`, { hours: Number(laterHours) })),
    button(`not-so-${id}`, "Not so", label, () => act("not-so", alerts, `Kept as a false alarm: ${label}.`)),
    !alerts.every(({ mark }) => mark?.mark === "seen") && alerts.some(({ urgency }) => urgency !== "note")
      && button(`seen-${id}`, "Seen", label, () => act("seen", alerts, `Seen: ${label}. It stays on the round; the lamp is quiet about it.`)),
  ];
}

/** Many trays of one bench that want water: one line, unfolded tray by tray. */
function wholeBench({ alerts }, name) {
  const trays = [...new Set(alerts.map(({ tray }) => tray))];
  const urgency = alerts[0].urgency;
  const first = alerts.map(({ expected }) => Date.parse(expected ?? "")).filter((time) => time > bench.now);
  const label = `the ${spoken(name)} bench`;
  const dry = new Set(alerts.filter(({ kind }) => kind === "dry").map(({ tray }) => tray)).size;
  const watered = (from) => () => act("done", alerts, `Written: ${listed(trays)} watered from ${from}.`, { watered: { from, trays } });
  return el("article", { class: `alert ${urgency}`, "data-whole": name },
    el("p", { class: "sign", "aria-hidden": "true" }, URGENCY[urgency].sign),
    el("div", { class: "alert-words" },
      el("h3", {}, `Water the ${spoken(name)} bench: ${trays.length} trays.`),
      el("p", {}, [dry > 0 && `${dry} ${dry === 1 ? "is" : "are"} below the dry line`,
        first.length > 0 && `the first of the others by about ${when(Math.min(...first), bench.now)}`].filter(Boolean).join("; "), ": ", listed(trays), "."),
      el("div", { class: "actions" },
        button(`bench-above-${name}`, "All watered from above", label, watered("above"), true),
        button(`bench-below-${name}`, "from below", label, watered("below"), true), ...common(alerts, label)),
      el("details", { id: `each-${name}` }, el("summary", {}, "Tray by tray"), alerts.map((alert) => alertItem(alert, "h4", actions([alert]))))));
}

const MARKS = { done: "done", later: "later", "not-so": "not so", seen: "seen" };

function answered(alerts) {
  return el("details", { id: "answered", class: "answered" },
    el("summary", {}, `Seen to: ${alerts.length}`),
    el("ul", {}, alerts.map((alert) => el("li", {},
      el("span", {}, `${capital(shortly(alert))}: ${MARKS[alert.mark.mark]} at ${when(alert.mark.at, bench.now)}${
        alert.mark.until ? `; asks again at ${when(alert.mark.until, bench.now)} if it is still so` : ""}. `),
      button(`undo-${alert.id}`, "Undo", shortly(alert), async () => {
        await remove(`round/${alert.mark.act}`);
        said("Taken back.");
      })))));
}

/** Said when nothing is to be done: until the first zone is expected to be dry, or the next morning round. */
function nothing() {
  const { now } = bench;
  const coming = bench.trays.flatMap((tray) => tray.zones).map((zone) => Date.parse(zone.expected))
    .filter((time) => time > now);
  const round = bench.site.morningRound;
  const roundIsToday = hourMinute(now) < round;
  const first = coming.length ? Math.min(...coming) : Infinity;
  const today = dateOf(first === Infinity ? now : first) === dateOf(now);
  if (first !== Infinity && (today || roundIsToday)) return `Nothing to do until about ${when(first, now)}.`;
  return `Nothing to do until the morning round at ${told(round)}${roundIsToday ? "" : " tomorrow"}.`;
}

const ANSWERS = { dry: "✕ dry now", no: "✕ no", perhaps: "? perhaps not", unknown: "? not known", yes: "✓ yes" };
const ANSWER_ORDER = Object.keys(ANSWERS);

/** Will it last until the morning? For every tray, the worst first. */
function night() {
  const { now } = bench;
  if (!bench.trays.length) return null;
  const until = nextMorningRound(now, bench.site.morningRound, hourMinute);
  const rows = bench.trays.filter((tray) => tray.stage !== "planted-out").map((tray) => ({ tray, ...lasts(tray, until) }))
    .sort((one, other) => ANSWER_ORDER.indexOf(one.answer) - ANSWER_ORDER.indexOf(other.answer)
      || (Date.parse(one.zone?.expected ?? "") || Infinity) - (Date.parse(other.zone?.expected ?? "") || Infinity));
  const short = rows.filter(({ answer }) => answer !== "yes").length;
  const title = `Will it last until ${clock(until)} tomorrow?`.replace(" tomorrow", dateOf(until) === dateOf(now) ? "" : " tomorrow");
  const summary = short === 0 ? "Every tray will." : `${rows.length - short} of ${rows.length} ${rows.length === 1 ? "tray" : "trays"} will.`;
  return el("details", { id: "night", class: "card lasting", open: nightOpen ?? isEvening(hourMinute(now), bench.site.morningRound),
    ontoggle: (event) => { nightOpen = event.target.open; } },
    el("summary", {}, el("strong", {}, title), ` ${summary}`),
    el("ul", {}, rows.map(({ tray, answer, zone }) => el("li", { class: `lasts-${answer}` },
      el("a", { href: `/trays/${encodeURIComponent(tray.id)}` }, tray.id), ` ${ANSWERS[answer]}${zoneWhy(answer, zone, now)}`))));
}

function zoneWhy(answer, zone, now) {
  if (!zone) return ": no moisture known";
  const at = `${zoneWords(zone.zone)} at ${percent(zone.moisture)}`;
  if (answer === "dry") return `: ${at}, dry line ${percent(zone.dryLine)}`;
  if (zone.expected) return `: ${zoneWords(zone.zone)} dry about ${when(zone.expected, now)} (${clock(zone.earliest)} to ${clock(zone.latest)})`;
  return answer === "yes" ? `: ${at}, not dry within two days` : `: ${at}, too early to tell how fast it dries`;
}

const RANK = { now: 0, today: 1, note: 2 };

function worstFirst() {
  const rank = (tray) => Math.min(3, ...bench.alerts.filter((alert) => alert.tray === tray.id).map(({ urgency }) => RANK[urgency]));
  return [...bench.trays].sort((one, other) => rank(one) - rank(other));
}

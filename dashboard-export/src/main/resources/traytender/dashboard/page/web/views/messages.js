// What became of the messages: counts, what was refused and why, topics nobody named.
import { ask } from "../ask.js";
import { bench } from "../bench.js";
import { el, table } from "../dom.js";
import { doing, post, said } from "../tell.js";
import { listed, spoken, told, toldSpan, when } from "../words.js";

export function messagesView() {
  const state = { refusals: [], unassigned: [], out: { people: [], notices: [] } };
  return { title: "Messages", on: ["counts"], load: () => load(state), draw: () => draw(state) };
}

async function load(state) {
  [state.refusals, state.unassigned, state.out] = await Promise.all([ask("refusals"), ask("unassigned"), ask("notices")]);
}

const number = (count) => count.toLocaleString("en-GB");

function draw(state) {
  const { counts, now } = bench;
  return [el("h1", {}, "Messages"),
    el("p", { class: "lead" }, `${number(counts.received)} readings received: ${number(counts.stored)} stored, ${
      number(counts.repeated)} repeated, ${number(counts.refused)} refused.`),
    el("h2", {}, "Refused"),
    state.refusals.length
      ? table("Messages that could not be used", ["Topic", "Cause", "Times", "Last", "Begins with"], state.refusals.map((refusal) => [
        el("code", {}, refusal.topic), spoken(refusal.cause), number(refusal.count), when(refusal.last, now), el("code", {}, refusal.firstBytes)]))
      : el("p", { class: "quiet" }, "None: every message could be used."),
    el("h2", {}, "Topics that no probe names"),
    state.unassigned.length
      ? [el("p", {}, "A sensor speaks here that the site file does not know. Add a probe with this topic to take it in."),
        table("Unassigned topics", ["Topic", "Messages", "Last", "Last payload"], state.unassigned.map((topic) => [
          el("code", {}, topic.topic), number(topic.count), when(topic.last, now), el("code", {}, topic.payload)]))]
      : el("p", { class: "quiet" }, "None."),
    notices(state.out),
  ];
}

const STATES = { waiting: "waiting", sent: "sent", "given-up": "given up" };

/** Who hears of alerts by mail or webhook, and what was sent. */
function notices({ people, notices: sent }) {
  if (!people.length && !sent.length) {
    return [el("h2", {}, "Notices to people"), el("p", { class: "quiet" }, "Nobody hears of alerts by mail or webhook: the site folder has no notices.yaml.")];
  }
  const troubled = sent.filter(({ state }) => state === "waiting").length;
  return [el("h2", {}, "Notices to people"),
    troubled > 0 && el("p", { class: "wrong" }, `${troubled} ${troubled === 1 ? "waits" : "wait"} to be delivered.`),
    el("ul", {}, people.map((person) => el("li", {}, `${person.name}: ${spoken(person.urgency)} and more urgent, ${
      listed([person.mail && `by mail to ${person.mail}`, person.webhook && `by webhook at ${person.webhook}`].filter(Boolean))}${
      person.quiet ? `; quiet ${toldSpan(person.quiet)}${person.nowBreaksQuiet ? " but for what is urgent now" : ""}` : ""}${
      person.nightReport ? `; the report of the night at ${told(person.nightReport.at)}` : ""} `,
    el("button", { type: "button", id: `test-${person.name}`, "aria-label": `Send ${person.name} a test`, onclick: (event) => doing(event.target, async () => {
      await post("notices/test", { person: person.name });
      said(`A test is on its way to ${person.name}; this page shows whether it is delivered.`);
    }) }, "Send a test")))),
    sent.length > 0 && table("What was sent, the newest first", ["When", "To", "What", "State"], sent.map((notice) => [
      when(notice.made, bench.now), `${notice.person}, ${notice.way}`,
      el("details", { id: `notice-${notice.number}` }, el("summary", {}, notice.subject), el("pre", { tabindex: "0" }, notice.body)),
      `${STATES[notice.state]}${notice.state === "waiting" && notice.tries ? `, tried ${notice.tries} times, again at ${when(notice.next, bench.now)}` : ""}${
        notice.trouble ? `: ${notice.trouble}` : ""}`]))];
}

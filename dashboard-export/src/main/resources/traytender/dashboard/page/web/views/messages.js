// What became of the messages: counts, what was refused and why, topics nobody named.
import { ask } from "../ask.js";
import { bench } from "../bench.js";
import { el, table } from "../dom.js";
import { spoken, when } from "../words.js";

export function messagesView() {
  const state = { refusals: [], unassigned: [] };
  return { title: "Messages", on: ["counts"], load: () => load(state), draw: () => draw(state) };
}

async function load(state) {
  [state.refusals, state.unassigned] = await Promise.all([ask("refusals"), ask("unassigned")]);
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
  ];
}

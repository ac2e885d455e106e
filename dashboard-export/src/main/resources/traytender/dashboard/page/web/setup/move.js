// Setup: a probe moved, or lent and given back, with its dates, so that what it told before keeps its meaning.
import { bench } from "../bench.js";
import { el } from "../dom.js";
import { doing } from "../tell.js";
import { fromSiteTime, siteTime } from "../words.js";
import { newest } from "./dated.js";
import { change, probes, text, valueOf } from "./file.js";
import { atOf, placeFields, placeText } from "./place.js";

const samePlace = (one, other) => JSON.stringify({ ...newest(one.at), since: 0 }) === JSON.stringify({ ...newest(other.at), since: 0 });

export function moveForm(state, probe) {
  const id = `to-${probe.id}`;
  const with_ = probes().filter((other) => other.id !== probe.id && other.message.topic === probe.message.topic && samePlace(other, probe));
  return el("form", { "aria-label": `Move ${probe.id}`, onsubmit: (event) => {
    event.preventDefault();
    doing(event.submitter, () => move(state, [probe, ...with_], id));
  } },
  el("p", { class: "quiet" }, `What it told before belongs to the old place.${with_.length ? ` ${with_.map((one) => one.id).join(", ")} of the same sensor moves too.` : ""}`),
  placeFields(id, [probe, ...with_].map(({ measures }) => measures), newest(probe.at)),
  text(`since-${id}`, "From", siteTime(bench.now), { type: "datetime-local", required: true }),
  text(`until-${id}`, "Lent until", "", { type: "datetime-local", hint: "Empty: it stays. Else it counts as back in its old place from then on." }),
  el("button", { type: "submit", id: `do-move-${probe.id}` }, "Move"));
}

async function move(state, moved, id) {
  const [since, until] = [valueOf(`since-${id}`), valueOf(`until-${id}`)];
  const changes = moved.flatMap((probe) => {
    const { since: unused, ...old } = newest(probe.at);
    const to = { do: "move", probe: probe.id, at: atOf(probe.measures, id), since: fromSiteTime(since) };
    return until ? [to, { do: "move", probe: probe.id, at: old, since: fromSiteTime(until) }] : [to];
  });
  await change(changes, `${moved[0].id} stands ${placeText(changes[0].at)} from ${since.replace("T", " ")} on${until ? `, and is back from ${until.replace("T", " ")}` : ""}.`, state.redraw);
}

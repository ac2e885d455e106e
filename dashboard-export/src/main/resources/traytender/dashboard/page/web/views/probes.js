// Every probe: where it is, its last word, and how it is.
import { bench } from "../bench.js";
import { el, table } from "../dom.js";
import { capital, lasting, measuresWords, placeWords, valueOf } from "../words.js";

export function probesView() {
  return { title: "Probes", on: ["trays"], draw };
}

const HEALTH = {
  well: "✓ well", waiting: "… not heard yet", silent: "✕ silent", stuck: "✕ stuck on one value", jumping: "✕ jumping",
  range: "✕ beyond what can be", odd: "? at odds with its neighbours", clock: "? its clock is wrong",
};

function draw() {
  const rank = (probe) => (probe.health === "well" ? 2 : probe.health === "waiting" ? 1 : 0);
  const probes = [...bench.probes].sort((one, other) => rank(one) - rank(other));
  const troubled = probes.filter((probe) => rank(probe) === 0).length;
  const waiting = probes.filter((probe) => rank(probe) === 1).length;
  return [el("h1", {}, "Probes"),
    el("p", { class: "lead" }, `${probes.length} probes: ${probes.length - troubled - waiting} well${
      troubled ? `, ${troubled} in trouble` : ""}${waiting ? `, ${waiting} not heard yet` : ""}.`),
    table("Every probe's last word", ["Probe", "How it is", "Last value", "Heard", "Measures", "Where", "Raw", "Topic"],
      probes.map((probe) => [
        probe.id, el("span", { class: rank(probe) === 0 ? "wrong" : "" }, HEALTH[probe.health] ?? probe.health),
        probe.last ? valueOf(probe.measures, probe.unit, probe.last.value) + (probe.last.marks.length ? ` (${probe.last.marks.join(", ")})` : "") : "—",
        probe.last ? `${lasting(bench.now - Date.parse(probe.last.time))} ago` : "never",
        capital(measuresWords(probe.measures)), placeWords(probe.at),
        probe.last ? String(probe.last.raw) : "—", el("code", {}, probe.topic),
      ]))];
}

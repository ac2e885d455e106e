// What there is to set up, in the order in which it is done, and how far it has come.
import { bench } from "../bench.js";
import { el } from "../dom.js";
import { newest } from "./dated.js";
import { lastOf } from "./told.js";

/** Steps by the keys of the site's file: whether one is done, where, what it is, and what was then seen working. */
export function steps(keys) {
  const [trays, probes] = [keys.trays ?? [], keys.probes ?? []];
  const sown = trays.find(({ sowings }) => sowings?.length);
  const inCells = probes.filter(({ at }) => newest(at).tray);
  const moisture = probes.filter(({ measures }) => measures === "moisture");
  const isCalibrated = ({ calibration }) => calibration && newest(calibration) !== "none";
  const heard = (bench.counts?.unassigned ?? 0) + (bench.counts?.received ?? 0);
  const spoken = probes.find((probe) => lastOf(probe));
  const told = (probe) => (probe && lastOf(probe) ? `${probe.id} tells ${lastOf(probe)}` : "");
  return [
    { done: true, path: "/setup", name: "Your site", words: "name, clock, rooms", seen: "" },
    { done: trays.length > 0, path: "/setup/trays", name: "A tray", words: "its cells, and where it stands", seen: trays.length === 1 ? `${trays[0].id} stands in ${trays[0].room}` : `${trays.length} trays` },
    { done: Boolean(sown), path: "/setup/trays", name: "What is sown", words: "its crop says how dry, wet, cold and hot is too much", seen: sown && `${sown.sowings[0].variety ?? sown.sowings[0].crop} in ${sown.id}` },
    { done: heard > 0 || Boolean(spoken), path: "/setup/devices", name: "A sensor that speaks", words: "what to type into the board that sends", seen: heard ? `${heard} messages since the program started` : told(spoken) },
    { done: inCells.length > 0, path: "/setup/sensors", name: "Its cell", words: "tell which sensor stands where, by tapping the cell", seen: told(inCells[0]) },
    { done: moisture.length > 0 && moisture.every(isCalibrated), path: "/setup/sensors", name: "Its calibration", words: "hold it in dry, then in wet medium", seen: told(moisture[0]) },
  ];
}

/** Leads on to the first step that is open, or names it where it is done on this very page; null when none is open. */
export function nextStep(keys) {
  const next = steps(keys).find(({ done }) => !done);
  if (!next || !keys.site) return null;
  const isHere = location.pathname === next.path || (next.name === "Its calibration" && location.pathname.startsWith("/setup/calibrate/"));
  return el("p", { class: "next" }, "Next: ", isHere ? el("strong", {}, next.name) : el("a", { href: next.path }, next.name), `, ${next.words}.`);
}

// What a probe tells, as the setup shows it.
import { bench } from "../bench.js";
import { valueOf } from "../words.js";

/** Counts that nothing has made a moisture of are no percentages: no moisture is more than three full soaks; our choice. */
export const isCounts = (measures, value) => measures === "moisture" && Math.abs(value) > 3;

export const counts = (value) => `${Number(value.toPrecision(4))} counts`;

/** The last that a probe of the file told; empty while it has told nothing. */
export function lastOf({ id, measures }) {
  const live = bench.probes.find((probe) => probe.id === id);
  if (!live?.last) return "";
  return isCounts(measures, live.last.value) ? counts(live.last.value) : valueOf(measures, live.unit, live.last.value);
}

// The limits in force: stage by stage, beside their sources and beside what the trays did.
import { el, table } from "../dom.js";
import { limitName, limitValue } from "../limit-words.js";
import { capital, hours, listed, spoken, valueOf } from "../words.js";

/** How many trays are named beside one limit; the others are counted. Our choice. */
const NAMED = 3;
/** Which readings each limit is held to, and on which side. */
const HELD = {
  "dry-line": ["moisture", "below", "lowest"], "wet-line": ["moisture", "above", "highest"],
  "root-cold": ["temperature", "below", "lowest"], "root-hot": ["temperature", "above", "highest"],
};

export function inForce(state) {
  const sources = state.limits.sources;
  const cite = (source) => {
    const ids = Object.keys(sources).filter((id) => /^S\d+$/.test(id) && new RegExp(`\\b${id}\\b`).test(source ?? ""));
    return el("span", { title: ids.map((id) => `${id}: ${sources[id]}`).join("\n") || null }, source ?? "—");
  };
  const stays = state.stays ?? [];
  return el("section", { "aria-labelledby": "force-title" }, el("h2", { id: "force-title" }, "Limits in force"),
    state.limits.crops.map(({ crop, stages }) => [el("h3", {}, capital(crop)), el("div", { class: "stages" }, stages.map(({ stage, standing, limits }) =>
      el("details", { id: `limits-${crop}-${stage}` },
        el("summary", {}, `${capital(spoken(stage))}: dry line ${limitValue(limits.find(({ limit }) => limit === "dry-line"))}`, standing && el("span", { class: "quiet" }, " · stands here now")),
        ofStage(limits, stays.filter((stay) => stay.crop === crop && stay.stage === stage), `${capital(crop)}, ${spoken(stage)}`, cite))))]),
    el("details", { id: "sources" }, el("summary", {}, "What the sources stand for"),
      el("dl", {}, Object.entries(sources).map(([id, words]) => [el("dt", {}, id), el("dd", {}, words)]))));
}

function ofStage(limits, stays, caption, cite) {
  const head = ["Limit", "Value", ...(stays.length ? ["What the trays did, last 7 days"] : []), "Source"];
  return table(caption, head, limits.map((one) => [limitName(one.limit), limitValue(one),
    ...(stays.length ? [did(one.limit, stays)] : []), cite(one.source)]));
}

/** The trays whose worst place came closest to a limit, or beyond it. */
function did(limit, stays) {
  if (!HELD[limit]) return "";
  const [measures, side, end] = HELD[limit];
  const worse = (one, other) => (side === "below" ? one - other : other - one);
  const trays = new Map();
  for (const stay of stays.filter((one) => one.measures === measures)) {
    const known = trays.get(stay.tray) ?? { tray: stay.tray, value: stay[end], probes: new Map(), unit: stay.unit };
    if (worse(stay[end], known.value) < 0) known.value = stay[end];
    known.probes.set(stay.probe, (known.probes.get(stay.probe) ?? 0) + stay[side].hours);
    trays.set(stay.tray, known);
  }
  if (!trays.size) return "no probe";
  const all = [...trays.values()].map((tray) => ({ ...tray, hours: Math.max(...tray.probes.values()) }))
    .sort((one, other) => other.hours - one.hours || worse(one.value, other.value));
  const words = all.slice(0, NAMED).map(({ tray, value, unit, hours: beyond }) => `${tray} ${end} ${valueOf(measures, unit, value)}${
    beyond > 0 ? `, ${hours(beyond)} ${side}` : ""}`);
  return `${words.join("; ")}${all.length > NAMED ? `; ${all.length - NAMED} others less` : ""}`;
}

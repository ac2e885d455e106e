// A tray in short: its cells, what stands in it, its driest zone and its alerts.
import { bench } from "./bench.js";
import { judgedWords } from "./coverage.js";
import { el } from "./dom.js";
import { URGENCY } from "./alert-item.js";
import { doing, writeEntries } from "./tell.js";
import { trayMap } from "./tray-map.js";
import { capital, degrees, onDay, percent, spoken, when, zoneWords } from "./words.js";

export const trayAlerts = (tray) => bench.alerts.filter((alert) => alert.tray === tray.id);

export function trayCard(tray) {
  const alerts = trayAlerts(tray);
  return el("article", { class: "card tray-card" },
    el("h3", {}, el("a", { href: `/trays/${encodeURIComponent(tray.id)}` }, tray.id), badge(alerts)),
    el("p", { class: "quiet" }, sowingWords(tray)),
    emergenceWords(tray, true).map((words) => el("p", {}, words)),
    trayMap(tray, bench.probes),
    el("p", {}, judgedWords(tray) ?? driestWords(tray)),
    el("div", { class: "actions" }, wantsWaterButton(tray), carryButtons(tray)));
}

/** A tray that hardens is carried out in the morning and in at night: one tap for each other room. */
export function carryButtons(tray) {
  if (!tray.sowings.some(({ stage }) => stage === "hardening")) return null;
  return bench.rooms.filter(({ id }) => id !== tray.room).map((room) => {
    const words = `Carried ${room.kind === "outdoors" ? "out" : "in"} to ${spoken(room.id)}`;
    return el("button", { type: "button", id: `carry-${tray.id}-${room.id}`, "aria-label": `${words}: ${tray.id}`,
      onclick: (event) => doing(event.target, () => writeEntries([{ tray: tray.id, entry: "moved", detail: { to: room.id } }],
        `Written: ${tray.id} stands in ${spoken(room.id)}.`)) }, words);
  });
}

/** One tap: the grower would water this now. From such words a tray's dry line can be learnt. */
export function wantsWaterButton(tray) {
  return el("button", {
    type: "button", id: `wants-${tray.id}`, "aria-label": `I would water ${tray.id} now`,
    onclick: (event) => doing(event.target, () => writeEntries([{ tray: tray.id, entry: "wants-water" }], `Noted: you would water ${tray.id} now.`)),
  }, "I would water this now");
}

function badge(alerts) {
  for (const urgency of ["now", "today", "note"]) {
    const of = alerts.filter((alert) => alert.urgency === urgency);
    if (of.length) {
      return el("span", { class: `badge ${urgency}` }, `${URGENCY[urgency].sign} ${of.length} ${URGENCY[urgency].title.toLowerCase()}`);
    }
  }
  return null;
}

/** What stands in a tray and how far it has come. */
export function sowingWords(tray) {
  return tray.sowings.map((sowing) => `${sowing.variety} (${sowing.crop}), ${spoken(sowing.stage)}`).join("; ") || "nothing sown";
}

/** When germinating sowings are due to come up, a sentence each; only those to look at now, when asked. */
export function emergenceWords(tray, onlyToLook = false) {
  return tray.sowings.filter(({ emergence }) => emergence && (!onlyToLook || emergence.look)).map(({ variety, emergence }) => {
    if (emergence.overdue) {
      return `${variety} should have been up ${onDay(emergence.expected, bench.now)}: look whether the seed is sound and the medium neither wet nor cold.`;
    }
    if (!emergence.from) return `${variety} is too cold to come up.`;
    const window = `half of it is expected ${onDay(emergence.expected, bench.now)}, the last ${onDay(emergence.to, bench.now)}`;
    return emergence.look ? `Look for the first seedlings of ${variety}: ${window}.`
      : `${variety} may first show ${onDay(emergence.from, bench.now)}; ${window}, at the warmth it has had.`;
  });
}

/** The driest zone, when it will be dry, and the root zone's temperatures. */
export function driestWords(tray) {
  const driest = tray.zones.filter((zone) => zone.moisture !== null)
    .sort((one, other) => (one.moisture - one.dryLine) - (other.moisture - other.dryLine))[0];
  const warm = tray.zones.map((zone) => zone.temperature).filter((value) => value !== null);
  const parts = [];
  if (driest) {
    const below = driest.moisture < driest.dryLine;
    const until = below ? `, below its dry line of ${percent(driest.dryLine)}`
      : driest.expected ? `, dry by about ${when(driest.expected, bench.now)}` : `, dry line ${percent(driest.dryLine)}`;
    parts.push(`${capital(zoneWords(driest.zone))} ${percent(driest.moisture)}${until}`);
  } else {
    parts.push(tray.whole ? `Whole tray ${percent(tray.whole.moisture)} by its weight` : "No moisture known");
  }
  if (warm.length) {
    const [low, high] = [degrees(Math.min(...warm)), degrees(Math.max(...warm))];
    parts.push(low === high ? `root zone ${low}` : `root zone ${low.replace(/ .*/, "")} to ${high}`);
  }
  return `${parts.join("; ")}.`;
}

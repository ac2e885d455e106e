// The round: what the open alerts come to for one who walks along the benches. Pure: no document, no program.

const HOUR = 3600000;
/** From so many trays of a bench that want water on it is one line for the bench; our choice. */
const MANY_TRAYS = 4;
const WANT_WATER = ["dry", "drying-soon", "missed-watering"];

export const wantsWater = ({ kind }) => WANT_WATER.includes(kind);

/** Heat that cannot be trusted comes before water: it can hurt people as well as plants. */
export const isHeat = ({ kind, reason }) => Number(kind === "mat-not-stopping" || (kind === "mat-shut-off" && reason === "too-hot"));

const URGENCIES = { now: 0, today: 1, note: 2 };

/** When an alert must be seen to, in ms: what is expected by then; else at once when it is urgent, or by the evening. */
export function dueAt(alert, evening) {
  if (alert.urgency === "now") return Date.parse(alert.opened);
  return alert.expected ? Date.parse(alert.expected) : evening;
}

/** Whether the grower has answered it and it does not ask again yet. */
export function isAnswered({ mark, urgency }, now) {
  if (!mark || (mark.until && Date.parse(mark.until) <= now)) return false;
  // What is still to be done stays on the round after a look; what is only good to know does not.
  return mark.mark !== "seen" || urgency === "note";
}

const byDue = (evening) => (one, other) => URGENCIES[one.urgency] - URGENCIES[other.urgency] || isHeat(other) - isHeat(one)
  || dueAt(one, evening) - dueAt(other, evening) || one.id.localeCompare(other.id);

/**
 * The round as benches in the order in which they must be seen to; each bench has lines, each line one or more alerts.
 *
 * @param alerts open ones
 * @param trays where each stands
 * @param now in ms
 * @return {benches: [{room, bench, lines: [{alerts, whole}]}], answered: [alert], notes: [alert]}
 */
export function roundOf(alerts, trays, now) {
  const evening = now + 12 * HOUR;
  const order = byDue(evening);
  const asking = alerts.filter((alert) => !isAnswered(alert, now)).sort(order);
  const benches = new Map();
  for (const alert of asking.filter(({ urgency }) => urgency !== "note")) {
    const tray = trays.find(({ id }) => id === alert.tray);
    const room = tray?.room ?? alert.room ?? "";
    const bench = tray?.bench ?? null;
    const key = JSON.stringify([room, bench]);
    if (!benches.has(key)) benches.set(key, { room, bench, alerts: [] });
    benches.get(key).alerts.push(alert);
  }
  return {
    benches: [...benches.values()].map(({ room, bench, alerts: mine }) => ({ room, bench, lines: lines(mine, order) }))
      .sort((one, other) => order(one.lines[0].alerts[0], other.lines[0].alerts[0])),
    answered: alerts.filter((alert) => isAnswered(alert, now)).sort(order),
    notes: asking.filter(({ urgency }) => urgency === "note"),
  };
}

const HEAT = ["centre-overheating", "uneven-heat", "mat-shut-off", "mat-not-heating", "mat-not-stopping", "root-cold"];

/** What one walk to a tray settles together: its water, its heat, its probes; anything else by itself. */
function errand(alert) {
  const place = alert.tray ?? alert.room;
  if (wantsWater(alert) || alert.kind === "uneven-drying") return `${place} water`;
  if (HEAT.includes(alert.kind)) return `${place} heat`;
  if (alert.kind.startsWith("probe-") || alert.kind === "battery-low") return `${place} probes`;
  return alert.id;
}

function lines(alerts, order) {
  const water = alerts.filter(wantsWater);
  const many = new Set(water.map(({ tray }) => tray)).size >= MANY_TRAYS;
  const errands = new Map();
  for (const alert of many ? alerts.filter((one) => !wantsWater(one)) : alerts) {
    const key = errand(alert);
    errands.set(key, [...(errands.get(key) ?? []), alert]);
  }
  const all = [...errands.values()].map((mine) => ({ alerts: mine, whole: false }));
  if (many) all.push({ alerts: water, whole: true });
  return all.sort((one, other) => order(one.alerts[0], other.alerts[0]));
}

/**
 * Whether a tray's moisture lasts until a time.
 *
 * @return {answer: "yes" | "perhaps" | "no" | "dry" | "unknown", zone} with the zone that decides
 */
export function lasts(tray, until) {
  const known = tray.zones.filter(({ moisture, dryLine }) => moisture !== null && dryLine !== null);
  if (!known.length) return { answer: "unknown", zone: null };
  const first = (zone) => (zone.moisture < zone.dryLine ? 0 : Date.parse(zone.expected ?? "") || Infinity);
  const zone = [...known].sort((one, other) => first(one) - first(other) || (one.moisture - one.dryLine) - (other.moisture - other.dryLine))[0];
  if (zone.moisture < zone.dryLine) return { answer: "dry", zone };
  if (!zone.expected) return { answer: zone.rate === null ? "unknown" : "yes", zone };
  if (Date.parse(zone.earliest) > until) return { answer: "yes", zone };
  return { answer: Date.parse(zone.expected) > until ? "perhaps" : "no", zone };
}

/** The next morning round after a time, in ms, found on the site's own clock. */
export function nextMorningRound(now, round, clock) {
  for (let time = Math.ceil(now / 60000) * 60000, end = time + 25 * HOUR; time <= end; time += 60000) {
    if (clock(time) === round.slice(0, 5)) return time;
  }
  return now + 24 * HOUR;
}

/** From when on one asks how the night will go, until the morning round; our choice. */
const EVENING = "15:00";

export const isEvening = (clockNow, round) => clockNow >= EVENING || clockNow < round;

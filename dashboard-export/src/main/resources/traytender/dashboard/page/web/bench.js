// What the page knows of the bench, kept up to date by the program's own word (Server-Sent Events).
import { ask } from "./ask.js";
import { setSite } from "./words.js";

export const bench = { site: null, now: Date.now(), alerts: [], trays: [], rooms: [], mats: [], probes: [], coverage: null, counts: null };

/** Longest silence from the program before the page says it is cut off: two and a half beats of 10 s. */
const SILENCE_MS = 25000;
/** Shortest time between two rounds of questions. */
const PACE_MS = 3000;

let listeners = [];
let lastHeard = 0;
let asking = null;
let askAgain = false;
let lastAsked = 0;

export function onChange(listener) {
  listeners.push(listener);
}

function tell(what) {
  for (const listener of listeners) listener(what);
}

async function askForTrays() {
  const [site, trays, rooms, mats, probes, coverage] = await Promise.all(
    ["site", "trays", "rooms", "mats", "probes", "coverage"].map((what) => ask(what)));
  setSite(site);
  Object.assign(bench, { site, trays, rooms, mats, probes, coverage, now: Date.parse(site.now) });
}

const known = () => JSON.stringify([bench.trays, bench.rooms, bench.mats, bench.probes, bench.coverage]);

/**
 * Asks for what may have changed; questions that come meanwhile are put together into one more.
 *
 * @param anyway whether what turns out to be as it was is told too, since time has passed over it
 */
async function refresh(anyway = true) {
  if (asking) {
    askAgain = true;
    return;
  }
  const before = known();
  asking = askForTrays();
  try {
    await asking;
    if (anyway || known() !== before) tell("trays");
  } finally {
    asking = null;
    lastAsked = performance.now();
    if (askAgain) {
      askAgain = false;
      setTimeout(() => refresh().catch(() => {}), PACE_MS);
    }
  }
}

function refreshAtPace(anyway = true) {
  const wait = lastAsked + PACE_MS - performance.now();
  if (wait > 0) setTimeout(() => refresh(anyway).catch(() => {}), wait);
  else refresh(anyway).catch(() => {});
}

/** Asks for everything once, then listens. */
export async function begin() {
  const [alerts, counts] = await Promise.all([ask("alerts", { open: true }), ask("counts"), refresh()]);
  Object.assign(bench, { alerts, counts });
  listen();
}

function listen() {
  const source = new EventSource("/api/v1/changes");
  const heard = (event) => {
    lastHeard = performance.now();
    tell("heard");
    return event?.data ? JSON.parse(event.data) : null;
  };
  // What changed between the first answers and the beginning of listening, or while the page was cut off, nobody has told.
  source.addEventListener("open", () => { heard(); refreshAtPace(false); });
  source.addEventListener("beat", (event) => { bench.now = Date.parse(heard(event).now); });
  source.addEventListener("alerts", (event) => {
    const alerts = heard(event);
    // What was known already is told again when the page begins to listen: nothing is drawn anew for it.
    if (JSON.stringify(alerts) === JSON.stringify(bench.alerts)) return;
    bench.alerts = alerts;
    tell("alerts");
  });
  // What was written may be about a mat, a stage or a room.
  source.addEventListener("journal", (event) => { heard(event); tell("journal"); refreshAtPace(); });
  source.addEventListener("counts", (event) => { bench.counts = heard(event); tell("counts"); });
  source.addEventListener("trays", (event) => { heard(event); refreshAtPace(); });
  source.addEventListener("error", () => tell("lost"));
  setInterval(() => { if (performance.now() - lastHeard > SILENCE_MS) tell("lost"); }, 5000);
}

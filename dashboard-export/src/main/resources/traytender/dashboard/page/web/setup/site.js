// Setup: the site, its rooms and mats, the steps still to do, and what was changed.
import { bench } from "../bench.js";
import { el } from "../dom.js";
import { ask, doing } from "../tell.js";
import { clock, dateOf, when } from "../words.js";
import { change, choice, field, file, head, load, mats, rooms, takeBack, text, valueOf, whoField } from "./file.js";
import { steps } from "./steps.js";

const KINDS = [["indoors", "indoors, heated and lit"], ["greenhouse", "greenhouse"], ["outdoors", "outdoors, such as a cold frame"]];

export function siteView({ go }) {
  const state = { changes: [], sunset: null, redraw: () => go("/setup", { replace: true }) };
  return { title: "Setup", on: [], isHeld: () => true, load: () => fetchAll(state), draw: () => (file.begun ? draw(state) : begin(state)) };
}

async function fetchAll(state) {
  await load();
  const isPlaced = file.keys.location;
  [state.changes, state.sunset] = await Promise.all([ask("site/changes"),
    isPlaced && ask(`nights/${dateOf(bench.now)}`).then(({ sunset }) => Date.parse(sunset)).catch(() => null)]);
}

/** From nothing: what a site cannot do without, in one form. */
function begin(state) {
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  return [...head("Your site", "Nothing is set up yet. Name the place and one room; trays and sensors come after, one by one, and you can leave at any time."),
    el("form", { class: "card", "aria-label": "Your site", onsubmit: (event) => {
      event.preventDefault();
      doing(document.getElementById("begin"), () => change([
        { do: "site", keys: siteKeys() },
        { do: "put", of: "rooms", id: valueOf("room"), keys: { kind: valueOf("room-kind") } },
      ], "Your site is set up. Next: the first tray.", state.redraw));
    } },
    siteFields({ timezone: zone }),
    text("room", "First room", "propagation", { required: true, hint: "Where the first trays stand." }),
    choice("room-kind", "This room is", KINDS, "indoors"),
    el("button", { type: "submit", id: "begin", class: "main-button" }, "Begin"))];
}

function siteFields(keys) {
  const place = keys.location ?? {};
  const zones = Intl.supportedValuesOf ? Intl.supportedValuesOf("timeZone") : [];
  return [text("site-name-field", "Name", keys.site ?? "", { required: true, placeholder: "Alder Lane Nursery" }),
    text("timezone", "Clock", keys.timezone ?? file.timezone ?? "UTC", { required: true, list: "zones", hint: "The time zone your days and nights go by." }),
    el("datalist", { id: "zones" }, zones.map((zone) => el("option", { value: zone }))),
    field("latitude", "Place", el("span", { class: "pair" },
      el("input", { id: "latitude", type: "number", step: "any", min: "-90", max: "90", value: place.latitude ?? "", placeholder: "53.35", "aria-label": "Degrees north" }),
      el("input", { id: "longitude", type: "number", step: "any", min: "-180", max: "180", value: place.longitude ?? "", placeholder: "-6.26", "aria-label": "Degrees east" }),
      navigator.geolocation && el("button", { type: "button", id: "here", onclick: (event) => doing(event.target, here) }, "I am here")),
    "Degrees north and east, for sunset, sunrise and frost. Without them neither is foretold."),
    choice("show", "Temperatures in", [["C", "Celsius"], ["F", "Fahrenheit"]], keys.show?.temperature ?? "C"),
    text("last-frost", "Last frost", keys["last-frost"] ?? "", { placeholder: "04-20", pattern: "\\d\\d-\\d\\d", hint: "Month and day of the usual last frost, for planting out. May be left empty." })];
}

const here = () => new Promise((resolve, reject) => navigator.geolocation.getCurrentPosition(({ coords }) => {
  document.getElementById("latitude").value = coords.latitude.toFixed(2);
  document.getElementById("longitude").value = coords.longitude.toFixed(2);
  resolve();
}, () => reject(new Error("this browser does not say where it is; type it in"))));

function siteKeys() {
  const [latitude, longitude] = [valueOf("latitude"), valueOf("longitude")];
  return { site: valueOf("site-name-field"), timezone: valueOf("timezone"), show: { ...(file.keys.show ?? {}), temperature: valueOf("show") },
    location: latitude && longitude ? { latitude: Number(latitude), longitude: Number(longitude) } : null,
    "last-frost": valueOf("last-frost") || null };
}

function draw(state) {
  const isRead = Boolean(file.keys.site);
  return [...head("Setup", null), ...(isRead ? [progress(state), siteForm(state), roomList(state), matList(state)] : []), past(state)];
}

/** What is left to do, each in a line, and of what is done what was seen working. */
function progress(state) {
  const all = steps(file.keys);
  all[0].seen = state.sunset ? `sunset today at ${clock(state.sunset)}` : "no place on the map yet, so no sunset and no frost are foretold";
  const next = all.find(({ done }) => !done);
  return el("section", { class: "card", "aria-labelledby": "steps-title" },
    el("h2", { id: "steps-title" }, next ? "Still to do" : "Everything is set up"),
    el("ol", { class: "steps" }, all.map(({ done, path, name, words, seen }) => el("li", {}, el("span", { "aria-label": done ? "done" : "to do" }, done ? "✓ " : "○ "),
      el("a", { href: path }, name), `: ${(done && seen) || words}`))),
    next && el("p", { class: "buttons" }, el("a", { class: "button main-button", id: "next-step", href: next.path }, `Next: ${next.name}`)),
    el("p", { class: "quiet" }, next ? "You can leave at any time; what is done stays." : "From here on the start page says what to do. More trays and sensors are added the same way."));
}

function siteForm(state) {
  return el("details", { id: "site-details" }, el("summary", {}, `Site: ${file.keys.site}`),
    el("form", { class: "card", "aria-label": "Site", onsubmit: (event) => {
      event.preventDefault();
      doing(document.getElementById("keep-site"), () => change([{ do: "site", keys: siteKeys() }], "The site is changed.", state.redraw));
    } }, siteFields(file.keys), el("button", { type: "submit", id: "keep-site" }, "Keep")));
}

function roomList(state) {
  return el("section", { "aria-labelledby": "rooms-title" }, el("h2", { id: "rooms-title" }, "Rooms"),
    el("ul", { class: "entries" }, rooms().map((room) => el("li", { class: "entry" },
      el("p", {}, `${room.id}, ${room.kind}${room.light ? `, lamps ${room.light}` : ""}`),
      el("button", { type: "button", "aria-label": `Take away room ${room.id}`, onclick: (event) => doing(event.target, () =>
        change([{ do: "remove", of: "rooms", id: room.id }], `${room.id} is taken away.`, state.redraw)) }, "Take away")))),
    el("details", { id: "room-details" }, el("summary", {}, "Add or change a room"), el("form", { class: "card", "aria-label": "Add or change a room", onsubmit: (event) => {
      event.preventDefault();
      doing(document.getElementById("keep-room"), () => change([{ do: "put", of: "rooms", id: valueOf("new-room"), keys: {
        kind: valueOf("new-room-kind"), light: valueOf("new-room-light") || null } }], `${valueOf("new-room")} is kept.`, state.redraw));
    } }, text("new-room", "Room", "", { required: true, list: "room-ids", hint: "A new name, or one of those above to change it." }),
    el("datalist", { id: "room-ids" }, rooms().map(({ id }) => el("option", { value: id }))),
    choice("new-room-kind", "This room is", KINDS, "greenhouse"),
    text("new-room-light", "Lamps burn", "", { placeholder: "06:00-22:00", pattern: "\\d\\d:\\d\\d-\\d\\d:\\d\\d" }),
    el("button", { type: "submit", id: "keep-room" }, "Keep room"))));
}

function matList(state) {
  return el("section", { "aria-labelledby": "mats-title" }, el("h2", { id: "mats-title" }, "Heat mats"),
    mats().length === 0 && el("p", { class: "quiet" }, "None."), el("ul", { class: "entries" }, mats().map((mat) => el("li", { class: "entry" },
      el("p", {}, `${mat.id} in ${mat.room}${mat.thermostat === "own" ? ", with its own thermostat" : ""}`),
      el("button", { type: "button", "aria-label": `Take away mat ${mat.id}`, onclick: (event) => doing(event.target, () =>
        change([{ do: "remove", of: "mats", id: mat.id }], `${mat.id} is taken away.`, state.redraw)) }, "Take away")))),
    el("details", { id: "mat-details" }, el("summary", {}, "Add or change a mat"), el("form", { class: "card", "aria-label": "Add or change a mat", onsubmit: (event) => {
      event.preventDefault();
      doing(document.getElementById("keep-mat"), () => change([{ do: "put", of: "mats", id: valueOf("new-mat"), keys: {
        room: valueOf("new-mat-room"), thermostat: valueOf("new-mat-thermostat") } }], `${valueOf("new-mat")} is kept.`, state.redraw));
    } }, text("new-mat", "Mat", `mat-${mats().length + 1}`, { required: true }),
    choice("new-mat-room", "Lies in", rooms().map(({ id }) => [id, id]), rooms()[0]?.id),
    choice("new-mat-thermostat", "Thermostat", [["none", "none of its own"], ["own", "its own"]], "none"),
    el("p", { class: "quiet" }, "This program never turns heat on. A thermostat and a cut-out of the mat's own are what keeps it safe."),
    el("button", { type: "submit", id: "keep-mat" }, "Keep mat"))));
}

/** Times in it as the site's clock shows them. */
const toldTimes = (what) => what.replaceAll(/\d{4}-\d\d-\d\dT[\d:.]+Z/g, (time) => when(time, bench.now));

function past(state) {
  return el("section", { "aria-labelledby": "past-title" }, el("h2", { id: "past-title" }, "What was changed"), whoField(),
    state.changes.length ? el("ol", { class: "entries" }, [...state.changes].reverse().map((one) => el("li", { class: "entry" },
      el("p", {}, el("span", { class: "quiet" }, `${when(one.at, bench.now)} `), toldTimes(one.what), one.who && ` — ${one.who}`),
      one.current && el("button", { type: "button", id: `take-back-${one.number}`, onclick: (event) => doing(event.target, () => takeBack(one.number, state.redraw)) }, "Take back"))))
      : el("p", { class: "quiet" }, "Nothing yet by this page. Before each change the folder's files are copied to data/site-copies."));
}

// Rooms with their air, mats and trays.
import { bench } from "../bench.js";
import { el } from "../dom.js";
import { matCaution, matWords, restNotice } from "../mats.js";
import { trayCard } from "../tray-card.js";
import { legend } from "../tray-map.js";
import { capital, clock, degrees, degreesApart, spoken, toldSpan } from "../words.js";

export function traysView() {
  return { title: "Trays", on: ["alerts", "trays"], draw };
}

const KINDS = { indoors: "indoors", greenhouse: "greenhouse", outdoors: "outdoors" };

function draw() {
  return [el("h1", {}, "Rooms, mats and trays"),
    bench.trays.length > 0 && el("p", { class: "legend" }, legend(bench.trays[0])),
    bench.rooms.map((room) => el("section", { class: "room", "aria-label": capital(spoken(room.id)) },
      el("h2", {}, capital(spoken(room.id))),
      el("p", {}, airWords(room)),
      room.night && el("p", {}, nightWords(room.night)),
      matList(room),
      el("div", { class: "cards" }, bench.trays.filter((tray) => tray.room === room.id).map((tray) => trayCard(tray)))))];
}

function airWords(room) {
  const parts = [capital(KINDS[room.kind] ?? room.kind)];
  if (room.airTemperature !== null) parts.push(`air ${degrees(room.airTemperature)}`);
  if (room.humidity !== null) parts.push(`humidity ${Math.round(room.humidity)} %`);
  if (room.lit !== null) parts.push(room.lit >= 0.5 ? "lit" : "dark");
  if (room.lampHours) parts.push(`lamps ${toldSpan(room.lampHours)}`);
  return `${parts.join(", ")}.`;
}

/** The coming night in a sentence, with what it would be too cold for. */
export function nightWords(night) {
  const before = night.rough ? "Tonight, roughly estimated" : "Tonight";
  const risk = night.frost !== null && night.lowest <= night.frost ? ", frost"
    : night.coldBelow !== null && night.lowest < night.coldBelow ? `, cold below ${degrees(night.coldBelow)}` : "";
  const leaf = night.leaf === null ? "" : ` Leaves under a clear sky come to about ${degrees(night.leaf)}.`;
  return `${before}: lowest about ${degrees(night.lowest)} (give or take ${degreesApart(night.doubt)}) before sunrise at ${
    clock(night.sunrise)}${risk}.${leaf}`;
}

function matList(room) {
  const mats = bench.mats.filter((mat) => mat.room === room.id);
  if (!mats.length) return null;
  return el("div", { class: "mats" },
    mats.map((mat) => restNotice(mat)), el("ul", {}, mats.map((mat) => el("li", {}, matWords(mat)))), matCaution(mats));
}

// A tray drawn as its cells, seen from above by the grower standing in front of it.
import { svg } from "./dom.js";
import { labelOn, soil } from "./ramp.js";
import { capital, listed, percent, zoneWords } from "./words.js";

const STEP = 20;
const GAP = 2;
const narrow = matchMedia("(max-width: 640px)");

/** Whether a tray is turned upright, so that its cells stay large on a phone: its front is then on the left. */
export const isUpright = (tray) => narrow.matches && tray.columns > tray.rows;

export function onTurn(listener) {
  narrow.addEventListener("change", listener);
}

/** How wide the rim is that bears the labels of sowings, in the map's units. */
const LABEL = 16;

/** The map of a tray; probes are those of the whole bench; labelled: with the sowings' labels where they stand. */
export function trayMap(tray, probes, labelled = false) {
  const upright = isUpright(tray);
  const rim = labelled ? LABEL : 0;
  const [across, up] = upright ? [tray.rows, tray.columns] : [tray.columns, tray.rows];
  const lines = new Map(tray.zones.map((zone) => [zone.zone, zone]));
  return svg("svg", {
    class: "tray-map", role: "img", "aria-label": sentence(tray),
    viewBox: upright ? `-3 ${-3 - rim} ${across * STEP + 4} ${up * STEP + 4 + rim}` : `${-3 - rim} -3 ${across * STEP + 4 + rim} ${up * STEP + 4}`,
  },
  svg("rect", { class: "tray-rim", x: upright ? -3 : -3 - rim, y: upright ? -3 - rim : -3, rx: 5,
    width: across * STEP + 4 + (upright ? 0 : rim), height: up * STEP + 4 + (upright ? rim : 0) }),
  tray.cells.map((cell) => (tray.judged ? doubtfulMark(cell, corner(cell, tray, upright)) : cellMark(cell, corner(cell, tray, upright), lines.get(cell.zone)))),
  probes.filter((probe) => probe.at.tray === tray.id && probe.at.row)
    .map((probe) => probeMark(probe, tray, corner(probe.at, tray, upright))),
  labelled && tray.sowings.map((sowing) => sowingLabel(sowing, tray, upright)));
}

/** The label of a sowing at the rim, along its rows; of one that fills part of them, at its own edge. A line runs round its cells. */
function sowingLabel({ rows, columns, variety }, tray, upright) {
  const [[firstRow, lastRow], [firstColumn, lastColumn]] = [rows, columns].map((range) => range.split("-").map(Number));
  const corners = [corner({ row: firstRow, column: firstColumn }, tray, upright), corner({ row: lastRow, column: lastColumn }, tray, upright)];
  const [x, y] = [Math.min(...corners.map((at) => at.x)), Math.min(...corners.map((at) => at.y))];
  const [width, height] = [0, 1].map((i) => Math.abs(corners[0]["xy"[i]] - corners[1]["xy"[i]]) + STEP - GAP);
  const long = upright ? width : height;
  const name = shortened(variety, long);
  const outline = svg("rect", { class: "sowing-line", x: x - 1, y: y - 1, width: width + 2, height: height + 2, rx: 3 });
  if (upright) {
    return [outline, svg("text", { class: "sowing-label", x: x + width / 2, y: firstColumn > 1 ? y - 3 : -7, "text-anchor": "middle" }, name)];
  }
  const [atX, atY] = [firstColumn > 1 ? x - 3 : -8, y + height / 2];
  return [outline, svg("text", { class: "sowing-label", x: atX, y: atY, "text-anchor": "middle", transform: `rotate(-90 ${atX} ${atY})` }, name)];
}

/** A label's letter is about so wide. */
const LETTER = 5.4;

const shortened = (name, room) => (name.length * LETTER <= room ? name : `${name.slice(0, Math.max(1, Math.floor(room / LETTER) - 1))}…`);

/** Where a cell's top left corner is drawn: the front row lies nearest to the grower, at the bottom; upright, at the left. */
function corner({ row, column }, tray, upright) {
  return upright
    ? { x: (row - 1) * STEP, y: (column - 1) * STEP }
    : { x: (column - 1) * STEP, y: (tray.rows - row) * STEP };
}

function cellMark(cell, { x, y }, zone) {
  const size = STEP - GAP;
  if (cell.moisture === null) return svg("rect", { class: "cell unknown", x, y, width: size, height: size, rx: 3 });
  const tooDry = zone && cell.moisture < zone.dryLine;
  const tooWet = zone && cell.moisture > zone.wetLine;
  const colour = labelOn(cell.moisture);
  return [
    svg("rect", { class: "cell", x, y, width: size, height: size, rx: 3, fill: soil(cell.moisture) }),
    tooDry && svg("path", { d: `M${x + 5} ${y + 9}h8`, stroke: colour, "stroke-width": 2.4 }),
    tooWet && svg("path", { d: `M${x + 5} ${y + 9}h8M${x + 9} ${y + 5}v8`, stroke: colour, "stroke-width": 1.6 }),
  ];
}

/** A cell judged from another tray: both ends of what it may be, in one square. */
function doubtfulMark(cell, { x, y }) {
  const size = STEP - GAP;
  if (cell.moisture === null) return cellMark(cell, { x, y });
  const [dry, wet] = [-2, 2].map((times) => soil(Math.max(0, Math.min(1, cell.moisture + times * cell.spread))));
  return [svg("path", { class: "cell", d: `M${x} ${y + size}V${y}H${x + size}z`, fill: dry }), svg("path", { class: "cell", d: `M${x} ${y + size}H${x + size}V${y}z`, fill: wet })];
}

function probeMark(probe, tray, { x, y }) {
  const cell = tray.cells.find(({ row, column }) => row === probe.at.row && column === probe.at.column);
  const colour = cell && cell.moisture !== null ? labelOn(cell.moisture) : "currentColor";
  const [cx, cy] = [x + (STEP - GAP) / 2, y + (STEP - GAP) / 2];
  if (probe.measures === "moisture") {
    return svg("circle", { cx, cy, r: 7, fill: "none", stroke: colour, "stroke-width": 1.8 });
  }
  return svg("path", { d: `M${cx} ${cy - 4.6}l4 7h-8z`, fill: "none", stroke: colour, "stroke-width": 1.4 });
}

/** The map in a sentence, for whoever does not see it. */
export function sentence(tray) {
  const known = tray.zones.filter((zone) => zone.moisture !== null).sort((one, other) => one.moisture - other.moisture);
  if (tray.judged) return `${tray.id}, no probe; judged from ${tray.judged.from} it is at about ${percent(tray.judged.moisture)}, give or take ${percent(2 * tray.judged.spread)}.`;
  if (!known.length) return tray.whole ? `${tray.id}: the whole tray is at ${percent(tray.whole.moisture)} by its weight.` : `${tray.id}: no moisture known.`;
  const told = known.map((zone) => `${zoneWords(zone.zone)} ${percent(zone.moisture)}`);
  return `${tray.id}, ${tray.rows} by ${tray.columns} cells, driest first: ${listed(told)}.`;
}

/** What the colours and signs mean. */
export function legend(tray) {
  const steps = [0.1, 0.3, 0.5, 0.7, 0.9];
  return [
    svg("svg", { class: "ramp", viewBox: `0 0 ${steps.length * 30} 20`, role: "img",
      "aria-label": "Pale is dry, dark is wet." },
    steps.map((step, i) => [
      svg("rect", { class: "cell", x: i * 30 + 1, y: 1, width: 28, height: 18, rx: 3, fill: soil(step) }),
      svg("text", { x: i * 30 + 15, y: 14, fill: labelOn(step), "text-anchor": "middle", "font-size": 10 },
        `${step * 100}`),
    ])),
    ` % of a full soak. − too dry, + too wet, ○ moisture probe, △ temperature probe. ${
      capital(isUpright(tray) ? "the front of the tray is on the left." : "the front of the tray is at the bottom.")}`,
  ];
}

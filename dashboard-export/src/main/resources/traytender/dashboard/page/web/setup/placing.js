// Setup: how to place a probe in a small cell, in words and drawings.
import { el, svg } from "../dom.js";
import { head, load } from "./file.js";

export function placingView() {
  return { title: "Placing a probe", on: [], load, draw };
}

const cellShape = (x) => svg("path", { d: `M${x} 30h70l-14 80h-42z`, class: "draw-medium" });

function drawing(label, ...parts) {
  return svg("svg", { viewBox: "0 0 240 140", role: "img", "aria-label": label, class: "placing" }, parts);
}

const note = (x, y, words) => svg("text", { x, y }, words);

function blade() {
  return drawing("A broad blade fills a small cell; a thin rod leaves room for roots",
    cellShape(20), svg("rect", { x: 41, y: 12, width: 28, height: 84, rx: 3, class: "draw-bad" }), note(28, 132, "broad: no"),
    cellShape(150), svg("rect", { x: 182, y: 8, width: 6, height: 80, rx: 3, class: "draw-good" }), note(158, 132, "thin: yes"));
}

function contact() {
  return drawing("The rod stands upright two thirds down the plug, the medium pressed to it; a gap beside it reads dry",
    cellShape(20), svg("rect", { x: 52, y: 8, width: 6, height: 74, rx: 3, class: "draw-good" }), note(20, 132, "pressed in, ⅔ deep"),
    cellShape(150), svg("path", { d: "M176 30l9 62h6l3-62z", class: "draw-gap" }), svg("rect", { x: 183, y: 8, width: 6, height: 74, rx: 3, class: "draw-bad" }), note(156, 132, "a gap: no"));
}

function cells() {
  const all = [];
  for (let row = 0; row < 4; row++) for (let column = 0; column < 8; column++) all.push(svg("rect", { x: 22 + column * 24, y: 10 + row * 24, width: 21, height: 21, rx: 3, class: "draw-cell" }));
  return drawing("Seen from above: one probe in the centre, one in a front corner, each in a sacrificed cell", all,
    svg("circle", { cx: 128.5, cy: 44.5, r: 7, class: "draw-spot" }), svg("circle", { cx: 32.5, cy: 92.5, r: 7, class: "draw-spot" }), note(22, 132, "centre, and a corner of the front"));
}

function lead() {
  return drawing("The lead leaves the probe downwards in a loop, so that water drips off before it reaches the board, which hangs above the bench",
    cellShape(20), svg("rect", { x: 52, y: 14, width: 6, height: 70, rx: 3, class: "draw-good" }),
    svg("path", { d: "M55 14c0-20 40 0 50 60s30 60 50 10", class: "draw-lead" }), svg("rect", { x: 146, y: 40, width: 44, height: 30, rx: 4, class: "draw-board" }), note(60, 134, "drip loop; board above"));
}

/** On a phone folded, or it would be a very long page; the cautions never are. */
const item = (picture, title, ...words) => el("details", { class: "card", open: !matchMedia("(max-width: 640px)").matches },
  el("summary", {}, el("h2", {}, title)), picture, words.map((one) => el("p", {}, one)));

function draw() {
  return [...head("Placing a probe", "A plug is a few thimbles of medium. What you stick into it changes it, so choose cells that you can spare."),
    el("div", { class: "cards" },
      item(blade(), "Thin, not broad", "A broad blade made for pots takes up much of a 128-cell plug (about 25 ml), splits it and lets water run past. Its field also reaches out of the plug into air and the neighbours, so it reads too dry.",
        "Take a thin rod or a short two-pin probe. Where there is only a blade, give it a larger cell of the same mix at the same spot."),
      item(cells(), "A sacrificed cell", "The plant in a probe's cell often lags. Give the probe a cell that is sown like the others and do not sell it: with plants it dries as they do, bare it stays wetter.",
        "The first probe goes to the centre, the next one to a front corner or an edge: there trays dry first. One more tells more on another tray than in the same zone."),
      item(contact(), "Contact and depth", "Push it straight down once, to two thirds of the plug, and press the medium to it all round. A gap of air reads as dry medium. Do not pull it out and back: water the cell through once, and let it settle for a day.",
        "A temperature probe for the root zone goes as deep, and does not touch the tray's wall or bottom, or it tells the mat's temperature."),
      item(null, "Salts and wear", "Probes that measure by conductance read fertilizer as water; those that measure by capacitance do so less. After feeding, look whether the readings jumped without water. Calibrate again with a new mix.",
        "Bare metal pins corrode within weeks when current flows all the time: switch the probe on for the reading only."),
      item(lead(), "Leads and water", "Let each lead hang in a loop below the plug of the board, so that water drips off. Hang boards above the bench, never below it, in a box whose glands point down. Fix leads so that a hose cannot pull the probe out."),
      el("section", { class: "card" }, el("h2", {}, "Mains beside water"), el("p", { class: "wrong" }, "A wet bench with mains on it can kill."),
        el("p", {}, "Feed mats and lamps through a residual-current device (GFCI) of 30 mA or less, test its button each month. Sensors and boards run from a low-voltage supply with safe isolation, never from mains parts of your own making."),
        el("p", {}, "A mat needs its own thermostat or thermal cut-out. This program advises; it can be wrong or off, and it never turns heat on. Fixed wiring and anything with mains in a wet place is the work of a licensed electrician; your local code counts before anything said here.")))];
}

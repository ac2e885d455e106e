// Mats in words: what they do, what the program told them, and the cautions that go with heat in a wet place.
import { bench } from "./bench.js";
import { el } from "./dom.js";
import { doing, writeEntries } from "./tell.js";
import { inScale, listed, when } from "./words.js";

const STATES = { heating: "▲ heating", resting: "▽ resting", unknown: "? not known whether it heats" };

/** A mat in a line. */
export function matWords(mat) {
  const how = mat.inferred && mat.state !== "unknown" ? " (judged by temperatures)" : "";
  const under = mat.trays.length ? ` under ${listed(mat.trays)}` : "";
  return `${mat.id}${under}: ${STATES[mat.state]}${how}${mat.ownThermostat ? "; has its own thermostat" : ""}${
    mat.relay ? "; the program may tell it to rest when it is too hot" : ""}.`;
}

/** A mat that was told to rest stays on the page until the grower has seen to it; nothing for any other. */
export function restNotice(mat, level = "h3") {
  if (!mat.told) return null;
  const { at, tray, why } = mat.told;
  const stands = { resting: " and is still off; the readings confirm it", heating: ", but the readings say that it still heats",
    unknown: " and should be off; no reading tells whether it is" };
  const act = { resting: "", heating: " Cut it at its breaker or plug, with dry hands.", unknown: " Look." };
  const write = (entry, words) => (event) => doing(event.target, () => writeEntries([{ tray, entry }], words));
  return el("article", { class: "alert now", "data-rest": mat.id },
    el("p", { class: "sign", "aria-hidden": "true" }, "▽"),
    el("div", { class: "alert-words" },
      el(level, {}, `${mat.id} was told to rest at ${when(at, bench.now)}${stands[mat.state]}`),
      el("p", {}, `${inScale(why)}${act[mat.state]} The program never turns it on again: find the cause first. ${
        mat.trays.length > 1 ? `${listed(mat.trays)} all lie on it and cool down.` : "The tray cools down."}`),
      el("div", { class: "actions" },
        el("button", { type: "button", id: `rest-seen-${mat.id}`, class: "main-button", onclick: write("mat-off", `Noted: ${mat.id} is off, and you have seen it.`) }, "Seen: it stays off"),
        el("button", { type: "button", id: `rest-on-${mat.id}`, onclick: write("mat-on", `Noted: ${mat.id} is on again, by your hand.`) }, "I turned it on again"))));
}

/** What is always said where mats are shown; more where the program may tell one to rest. */
export function matCaution(mats) {
  const relays = mats.filter(({ relay }) => relay).map(({ id }) => id);
  return [el("p", { class: "quiet" }, "This page advises and never turns heat on. It does not replace a mat's own thermostat or "
    + "cut-out, nor a residual-current (GFCI) protected socket; dry hands at the plug, and leave wiring to an electrician."),
  relays.length > 0 && el("p", { class: "quiet relay-caution" }, `${listed(relays)}: a relay can weld shut and a message can be lost, so being told to rest is `
    + "a help and not a protection. Have the relay built into an enclosure made for wet places by an electrician, under your local code. A breaker or "
    + "residual-current device that trips turns the heat off as well: find out why before you set it again, and mind the cold. Keep the thermostat's sensor in the medium, "
    + "mats flat, cords with a drip loop and plugs above the water; a damaged mat or cord goes out of service.")];
}

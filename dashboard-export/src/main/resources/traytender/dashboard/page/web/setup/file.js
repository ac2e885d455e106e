// The site's file, as the program has it, and changes of it. Every change says which version was seen.
import { el, replaceContent } from "../dom.js";
import { ask, post, said } from "../tell.js";
import { nextStep } from "./steps.js";

export const file = { version: "", begun: false, keys: {}, errors: [], crops: [] };
const WHO = "traytender-who";
const LOOK_MS = 3000;

export const rooms = () => file.keys.rooms ?? [];
export const mats = () => file.keys.mats ?? [];
export const trays = () => file.keys.trays ?? [];
export const probes = () => file.keys.probes ?? [];
export const who = () => localStorage.getItem(WHO) ?? "";

export async function load() {
  Object.assign(file, await ask("site/setup"));
}

/** Writes changes into the file, says so, and offers to take them back. */
export async function change(all, words, redraw) {
  const changes = all.map(onlyChanged).filter(Boolean);
  if (!changes.length) {
    said("It is so already; nothing was changed.");
    return;
  }
  Object.assign(file, await post("site/changes", { version: file.version, who: who(), changes }));
  const newest = (await ask("site/changes")).find(({ current }) => current);
  said(words, newest ? () => takeBack(newest.number, redraw) : undefined);
  redraw?.();
}

/** Without what is so already, so that the list of changes tells what was changed; null when nothing is left. */
function onlyChanged(one) {
  const now = one.do === "site" ? file.keys : one.do === "put" ? (file.keys[one.of] ?? []).find(({ id }) => id === one.id) ?? {} : null;
  if (!now) return one;
  const keys = Object.entries(one.keys).filter(([key, value]) => JSON.stringify(value ?? null) !== JSON.stringify(now[key] ?? null));
  return keys.length ? { ...one, keys: Object.fromEntries(keys) } : null;
}

export async function takeBack(number, redraw) {
  Object.assign(file, await post(`site/changes/${number}/take-back`, { version: file.version, who: who() }));
  redraw?.();
}

export const field = (id, label, input, hint) => el("div", { class: "field" }, el("label", { for: id }, label), input,
  hint && el("p", { class: "quiet hint", id: `${id}-hint` }, hint));

export const text = (id, label, value = "", more = {}) => field(id, label, el("input", {
  id, value, maxlength: "120", "aria-describedby": more.hint && `${id}-hint`, ...more, hint: undefined }), more.hint);

export const choice = (id, label, options, chosen, more = {}) => field(id, label, el("select", { id, ...more, hint: undefined },
  options.map(([value, words]) => el("option", { value, selected: String(value) === String(chosen) }, words))), more.hint);

export const valueOf = (id) => document.getElementById(id)?.value.trim() ?? "";

const PAGES = [["/setup", "Site"], ["/setup/trays", "Trays"], ["/setup/sensors", "Sensors"], ["/setup/devices", "Devices"], ["/setup/placing", "Placing a probe"]];

/** What has become of the files meanwhile, by somebody else or by hand, told while the page is looked at. */
function filesState() {
  const place = el("div", { id: "file-state", role: "alert" }, stateWords(file));
  follow(place);
  return place;
}

async function follow(place) {
  let told = JSON.stringify(stateWords(file).map(({ textContent }) => textContent));
  for (;;) {
    await new Promise((resolve) => setTimeout(resolve, LOOK_MS));
    if (!place.isConnected) return;
    const seen = file.version;
    const answer = await ask("site/setup").catch(() => null);
    // What this page has changed itself while it asked is no news.
    if (seen !== file.version) continue;
    const words = answer && stateWords(answer);
    const text = JSON.stringify(words?.map(({ textContent }) => textContent));
    // Said anew only when it changes, or a screen reader would repeat it.
    if (words && text !== told) replaceContent(place, words);
    told = text ?? told;
  }
}

function stateWords({ version, errors }) {
  if (errors.length) {
    return [el("p", { class: "wrong" }, "The site's files were changed by hand and are not right. The old ones stay in force until they are mended:"),
      el("pre", { class: "errors", tabindex: "0" }, errors.join("\n"))];
  }
  return version === file.version ? [] : [el("p", {}, "The site was changed meanwhile, by somebody else or by hand. ", el("a", { href: location.pathname }, "Show it as it is now"))];
}

/** The pages of the setup, and what is wrong with the files. */
export function head(title, lead) {
  return [el("h1", {}, title),
    file.begun && el("nav", { class: "pages", "aria-label": "Setup" }, PAGES.map(([path, words]) =>
      el("a", { href: path, "aria-current": location.pathname === path && "page" }, words))),
    file.begun && filesState(),
    file.begun && location.pathname !== "/setup" && nextStep(file.keys),
    lead && el("p", { class: "lead" }, lead)];
}

export function whoField() {
  return el("div", { class: "field" }, el("label", { for: "who" }, "Your name"), el("input", {
    id: "who", value: who(), maxlength: "60", oninput: (event) => localStorage.setItem(WHO, event.target.value.trim()) }));
}

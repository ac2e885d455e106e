// The site's file, as the program has it, and changes of it. Every change says which version was seen.
import { el } from "../dom.js";
import { ask, post, said } from "../tell.js";

export const file = { version: "", begun: false, keys: {}, errors: [], crops: [] };
const WHO = "traytender-who";

export const rooms = () => file.keys.rooms ?? [];
export const mats = () => file.keys.mats ?? [];
export const trays = () => file.keys.trays ?? [];
export const probes = () => file.keys.probes ?? [];
export const who = () => localStorage.getItem(WHO) ?? "";

export async function load() {
  Object.assign(file, await ask("site/setup"));
}

/** Writes changes into the file, says so, and offers to take them back. */
export async function change(changes, words, redraw) {
  Object.assign(file, await post("site/changes", { version: file.version, who: who(), changes }));
  const newest = (await ask("site/changes")).find(({ current }) => current);
  said(words, newest && newest.number > 1 ? () => takeBack(newest.number, redraw) : undefined);
  redraw?.();
}

export async function takeBack(number, redraw) {
  Object.assign(file, await post(`site/changes/${number}/take-back`, { version: file.version, who: who() }));
  redraw?.();
}

/** Value in force of what may be a list of values with dates. */
export const newest = (dated) => (Array.isArray(dated) ? dated.at(-1) : dated);

export const field = (id, label, input, hint) => el("div", { class: "field" }, el("label", { for: id }, label), input,
  hint && el("p", { class: "quiet hint", id: `${id}-hint` }, hint));

export const text = (id, label, value = "", more = {}) => field(id, label, el("input", {
  id, value, maxlength: "120", "aria-describedby": more.hint && `${id}-hint`, ...more, hint: undefined }), more.hint);

export const choice = (id, label, options, chosen, more = {}) => field(id, label, el("select", { id, ...more, hint: undefined },
  options.map(([value, words]) => el("option", { value, selected: String(value) === String(chosen) }, words))), more.hint);

export const valueOf = (id) => document.getElementById(id)?.value.trim() ?? "";

const PAGES = [["/setup", "Site"], ["/setup/trays", "Trays"], ["/setup/sensors", "Sensors"], ["/setup/devices", "Devices"], ["/setup/placing", "Placing a probe"]];

/** The pages of the setup, and what is wrong with the files. */
export function head(title, lead) {
  return [el("h1", {}, title),
    file.begun && el("nav", { class: "pages", "aria-label": "Setup" }, PAGES.map(([path, words]) =>
      el("a", { href: path, "aria-current": location.pathname === path && "page" }, words))),
    file.errors.length > 0 && el("div", { class: "card", role: "alert" },
      el("p", { class: "wrong" }, "The site's files were changed by hand and are not right. The old ones stay in force until they are mended:"),
      el("pre", { tabindex: "0" }, file.errors.join("\n"))),
    lead && el("p", { class: "lead" }, lead)];
}

export function whoField() {
  return el("div", { class: "field" }, el("label", { for: "who" }, "Your name"), el("input", {
    id: "who", value: who(), maxlength: "60", oninput: (event) => localStorage.setItem(WHO, event.target.value.trim()) }));
}

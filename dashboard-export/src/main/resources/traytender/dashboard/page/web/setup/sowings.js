// Setup: sowings of a tray, typed or pasted from a spreadsheet.
import { el, table } from "../dom.js";
import { doing, failed } from "../tell.js";
import { dateOf } from "../words.js";
import { bench } from "../bench.js";
import { change, choice, field, file, text, trays, valueOf } from "./file.js";

export function sowings(state, tray) {
  const sown = tray.sowings ?? [];
  return [sown.length > 0 && table(`Sowings of ${tray.id}`, ["Variety", "Crop", "Rows", "Columns", "Sown", "Change"], sown.map((one, i) => [
    one.variety ?? one.crop, one.crop, one.rows ?? "all", one.columns ?? "all", one.sown ?? "—",
    el("button", { type: "button", "aria-label": `Take away ${one.variety ?? one.crop} of ${tray.id}`, onclick: (event) => doing(event.target, () =>
      change([{ do: "unsow", tray: tray.id, number: i }], `${one.variety ?? one.crop} is taken out of ${tray.id}.`, state.redraw)) }, "Take away")])),
  one(state, tray), paste(state, tray.id, tray.id, "Paste many from a spreadsheet", "Variety, crop, rows, date")];
}

const crops = () => file.crops.map((crop) => [crop, crop.replaceAll("-", " ")]);

function one(state, tray) {
  const id = (name) => `${name}-${tray.id}`;
  return el("form", { "aria-label": `Sow in ${tray.id}`, onsubmit: (event) => {
    event.preventDefault();
    doing(event.submitter, () => change([{ do: "sow", tray: tray.id, items: [{
      rows: valueOf(id("sow-rows")), crop: valueOf(id("sow-crop")), variety: valueOf(id("sow-variety")) || null, sown: valueOf(id("sow-date")) || null }] }],
    `${valueOf(id("sow-variety")) || valueOf(id("sow-crop"))} is sown in ${tray.id}.`, state.redraw));
  } },
  text(id("sow-variety"), "Variety"), choice(id("sow-crop"), "Crop", crops(), "tomato"),
  text(id("sow-rows"), "Rows", `1-${tray.cells.rows}`, { required: true, pattern: "\\d+(-\\d+)?" }),
  text(id("sow-date"), "Sown on", dateOf(bench.now), { type: "date" }),
  el("button", { type: "submit", id: id("sow-one") }, "Sow"));
}

/** Sowings of many trays at once, the tray in the first column. */
export const sowMany = (state) => paste(state, "all", null, "Paste the sowings of many trays from a spreadsheet", "Tray, variety, crop, rows, date");

function paste(state, name, tray, title, columns) {
  const id = `paste-${name}`;
  return el("details", { id: `many-${name}` }, el("summary", {}, title),
    field(id, "A line each", el("textarea", { id, rows: "6", placeholder: `${tray ? "" : "T01\t"}Copper Lantern\ttomato\t1-4\t2026-03-02` }),
      `${columns}, in columns parted by tabs, semicolons or commas. Rows may be 5 or 1-4, the date 2026-03-02.`),
    el("button", { type: "button", id: `sow-many-${name}`, onclick: (event) => {
      try {
        const sown = pasted(document.getElementById(id).value, tray);
        const count = [...sown.values()].flat().length;
        doing(event.target, () => change([...sown].map(([of, items]) => ({ do: "sow", tray: of, items })),
          `${count} sowings are in ${tray ?? `${sown.size} trays`}.`, state.redraw));
      } catch (error) {
        failed(error);
      }
    } }, "Sow all"));
}

/** Lines of a spreadsheet as sowings by tray, which the first column names where no tray is given; every line that cannot be read is named. */
export function pasted(lines, tray) {
  const wrong = [];
  const sown = new Map();
  lines.split(/\r?\n/).forEach((line, i) => {
    if (!line.trim() || /^(tray|variety)\b/i.test(line.trim())) return;
    const parts = line.split(/\t|;|,/).map((part) => part.trim());
    const of = tray ?? parts.shift();
    const [variety, crop, rows, date] = parts;
    const known = file.crops.find((each) => each === crop?.toLowerCase().replaceAll(" ", "-"));
    if (!trays().some(({ id }) => id === of)) wrong.push(`line ${i + 1}: no tray ${of}`);
    else if (!known) wrong.push(`line ${i + 1}: ${crop ? `no crop ${crop}` : "no crop"}`);
    else if (rows && !/^\d+(-\d+)?$/.test(rows)) wrong.push(`line ${i + 1}: rows ${rows}`);
    else if (date && !/^\d{4}-\d\d-\d\d$/.test(date)) wrong.push(`line ${i + 1}: date ${date}; right is 2026-03-02`);
    else sown.set(of, [...(sown.get(of) ?? []), { rows: rows || null, crop: known, variety: variety || null, sown: date || null }]);
  });
  if (wrong.length) throw new Error(`nothing is sown: ${wrong.join("; ")}`);
  if (!sown.size) throw new Error("there is no line to sow");
  return sown;
}

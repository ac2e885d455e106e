// Setup: trays from common formats, their order on the bench, and what is sown in them.
import { el } from "../dom.js";
import { labels } from "../labels.js";
import { doing } from "../tell.js";
import { carriedBy } from "./drag.js";
import { change, choice, file, head, load, mats, rooms, text, trays, valueOf } from "./file.js";
import { sowings, sowMany } from "./sowings.js";

/** Formats printed in growers' tray lists: cells, rows, columns. Others are typed. */
const FORMATS = [[50, 5, 10], [72, 6, 12], [98, 7, 14], [128, 8, 16], [200, 10, 20]];

export function traySetupView({ go }) {
  const state = { redraw: () => go("/setup/trays", { replace: true }) };
  return { title: "Trays", on: [], isHeld: () => true, load, draw: () => [...head("Trays", "Row 1 is at your side of the bench, column 1 at your left hand."), benches(state), addForm(state),
    trays().length > 0 && labels()] };
}

/** Trays by room and bench, in the order in which they stand side by side. */
function benches(state) {
  if (!trays().length) return el("p", { class: "nothing" }, "No tray yet. Add the first one below.");
  const places = new Map();
  for (const tray of trays()) {
    const place = `${tray.room}${tray.bench ? `, bench ${tray.bench}` : ""}`;
    places.set(place, [...(places.get(place) ?? []), tray]);
  }
  return [sowMany(state), ...[...places].map(([place, standing]) => el("section", { "aria-label": place }, el("h2", {}, place), matUnder(state, place, standing),
    el("ol", { class: "bench-order" }, standing.map((tray, i) => trayItem(state, tray, standing, i)))))];
}

/** One mat laid under all that stand there. */
function matUnder(state, place, standing) {
  const lying = mats().filter(({ room }) => room === standing[0].room);
  if (standing.length < 2 || !lying.length) return null;
  const id = `mat-under-${standing[0].id}`;
  return el("form", { class: "buttons", "aria-label": `Mat under ${place}`, onsubmit: (event) => {
    event.preventDefault();
    const mat = valueOf(id);
    doing(event.submitter, () => change(standing.map((tray) => ({ do: "put", of: "trays", id: tray.id, keys: { mat: mat || null } })),
      mat ? `${mat} lies under ${standing[0].id} to ${standing.at(-1).id}.` : "No mat lies under them.", state.redraw));
  } }, choice(id, "Mat under all of them", [["", "none"], ...lying.map((one) => [one.id, one.id])], standing[0].mat ?? ""),
  el("button", { type: "submit", id: `lay-${standing[0].id}` }, "Lay it so"));
}

function trayItem(state, tray, standing, i) {
  const sown = (tray.sowings ?? []).map(({ variety, crop }) => variety ?? crop);
  const handle = el("h3", { class: "handle", title: "Drag it to its place" }, el("span", { "aria-hidden": "true" }, "⠿ "), tray.id,
    el("span", { class: "quiet" }, ` ${tray.cells.rows} × ${tray.cells.columns}${tray.mat ? `, on ${tray.mat}` : ""}`));
  carriedBy(handle, "tray", (onto, side) => dropped(state, tray.id, trays().find(({ id }) => id === onto.dataset.tray), side));
  return el("li", { class: "card", "data-tray": tray.id },
    el("div", { class: "tray-head" }, handle,
      el("button", { type: "button", id: `left-${tray.id}`, disabled: i === 0, "aria-label": `${tray.id} one to the left`, onclick: () => swap(state, tray, standing[i - 1]) }, "←"),
      el("button", { type: "button", id: `right-${tray.id}`, disabled: i === standing.length - 1, "aria-label": `${tray.id} one to the right`, onclick: () => swap(state, tray, standing[i + 1]) }, "→")),
    el("p", {}, sown.length ? [...new Set(sown)].join(", ") : "nothing sown"),
    el("div", { class: "folds" },
      el("details", { id: `place-${tray.id}` }, el("summary", {}, "Where it stands"), placeForm(state, tray)),
      el("details", { id: `sow-${tray.id}` }, el("summary", {}, "What is sown"), sowings(state, tray))));
}

function order(ids) {
  return { do: "order", of: "trays", ids };
}

function swap(state, one, other) {
  const ids = trays().map(({ id }) => id);
  const [a, b] = [ids.indexOf(one.id), ids.indexOf(other.id)];
  [ids[a], ids[b]] = [ids[b], ids[a]];
  doing(document.getElementById(`left-${one.id}`), () => change([order(ids)], `${one.id} and ${other.id} have changed places.`, state.redraw));
}

function dropped(state, id, onto, side) {
  const ids = trays().map((tray) => tray.id).filter((each) => each !== id);
  ids.splice(ids.indexOf(onto.id) + (side === "after" ? 1 : 0), 0, id);
  const moved = trays().find((tray) => tray.id === id);
  const changes = [order(ids)];
  if (moved.room !== onto.room || moved.bench !== onto.bench) {
    changes.unshift({ do: "put", of: "trays", id, keys: { room: onto.room, bench: onto.bench ?? null, ...(moved.room !== onto.room && { mat: null }) } });
  }
  doing(document.getElementById(`left-${id}`), () => change(changes, `${id} stands beside ${onto.id}.`, state.redraw));
}

function placeForm(state, tray) {
  return el("form", { "aria-label": `Where ${tray.id} stands`, onsubmit: (event) => {
    event.preventDefault();
    doing(event.submitter, () => change([{ do: "put", of: "trays", id: tray.id, keys: {
      room: valueOf(`room-${tray.id}`), bench: valueOf(`bench-${tray.id}`) || null, mat: valueOf(`mat-${tray.id}`) || null, medium: valueOf(`medium-${tray.id}`) || null,
    } }], `${tray.id} is changed.`, state.redraw));
  } },
  el("p", { class: "quiet" }, "Puts right where it has stood all along. When a tray is carried elsewhere today, write that in the journal, so that its past stays."),
  choice(`room-${tray.id}`, "Room", rooms().map(({ id }) => [id, id]), tray.room),
  text(`bench-${tray.id}`, "Bench", tray.bench ?? ""),
  choice(`mat-${tray.id}`, "Mat", [["", "none"], ...mats().map(({ id, room }) => [id, `${id} in ${room}`])], tray.mat ?? ""),
  text(`medium-${tray.id}`, "Medium", tray.medium ?? ""),
  el("div", { class: "buttons" }, el("button", { type: "submit" }, "Keep"),
    el("button", { type: "button", "aria-label": `Take away ${tray.id}`, onclick: (event) => doing(event.target, () =>
      change([{ do: "remove", of: "trays", id: tray.id }], `${tray.id} is taken away.`, state.redraw)) }, "Take away")));
}

/** The next name in a row of names such as T09, T10. */
export function following(id, step = 1) {
  if (step === 0) return id;
  const [, stem, digits] = /^(.*?)(\d*)$/.exec(id);
  return digits ? `${stem}${String(Number(digits) + step).padStart(digits.length, "0")}` : `${id}-${step + 1}`;
}

const firstFree = () => {
  let id = "T01";
  while (trays().some((tray) => tray.id === id)) id = following(id);
  return id;
};

function addForm(state) {
  // The next ones are like the last one until something else is chosen.
  const last = trays().at(-1);
  const { rows, columns } = last?.cells ?? { rows: 8, columns: 16 };
  const format = FORMATS.find((one) => one[1] === rows && one[2] === columns)?.[0] ?? "other";
  return el("form", { class: "card", "aria-label": "Add trays", onsubmit: (event) => {
    event.preventDefault();
    const known = FORMATS.find(([cells]) => String(cells) === valueOf("format"));
    const cells = known ? { rows: known[1], columns: known[2] } : { rows: Number(valueOf("rows")), columns: Number(valueOf("columns")) };
    const items = Array.from({ length: Number(valueOf("how-many")) }, (_, i) => ({
      id: following(valueOf("tray-id"), i), room: valueOf("tray-room"), bench: valueOf("tray-bench") || null,
      mat: valueOf("tray-mat") || null, cells, medium: valueOf("tray-medium") || null }));
    doing(document.getElementById("add-trays"), () => change([{ do: "add", of: "trays", items }],
      items.length === 1 ? `${items[0].id} is added.` : `${items[0].id} to ${items.at(-1).id} are added.`, state.redraw));
  } },
  el("h2", {}, "Add trays"),
  text("tray-id", "Name", firstFree(), { required: true, hint: "Of the first one; the next ones count on." }),
  text("how-many", "How many", "1", { type: "number", min: "1", max: "100", required: true }),
  choice("format", "Cells", [...FORMATS.map(([cells, rows, columns]) => [cells, `${cells} cells, ${rows} × ${columns}`]), ["other", "other"]], format,
    { onchange: (event) => { document.getElementById("other-cells").hidden = event.target.value !== "other"; } }),
  el("div", { id: "other-cells", hidden: format !== "other" }, text("rows", "Rows", rows, { type: "number", min: "1", max: "100" }),
    text("columns", "Columns", columns, { type: "number", min: "1", max: "100" })),
  choice("tray-room", "Room", rooms().map(({ id }) => [id, id]), last?.room ?? rooms()[0]?.id),
  text("tray-bench", "Bench", last?.bench ?? "", { hint: "Trays of one bench stand side by side. May be left empty." }),
  choice("tray-mat", "Mat under it", [["", "none"], ...mats().map(({ id, room }) => [id, `${id} in ${room}`])], last?.mat ?? ""),
  text("tray-medium", "Medium", last?.medium ?? "peat-perlite"),
  el("button", { type: "submit", id: "add-trays", class: "main-button", disabled: !file.begun }, "Add"));
}

// Where a probe is: a cell of a tray, a whole tray, a mat or a room.
import { el, replaceContent } from "../dom.js";
import { cellPick } from "./cell-pick.js";
import { newest } from "./dated.js";
import { choice, field, mats, probes, rooms, trays, valueOf } from "./file.js";

const IN_CELL = ["moisture", "temperature", "battery"];
const AT_MAT = ["mat-surface", "mat-power"];

/** Kinds of place that what is measured can have. */
const KINDS = { cell: (measures) => IN_CELL.includes(measures), tray: (measures) => IN_CELL.includes(measures) || measures === "weight",
  mat: (measures) => AT_MAT.includes(measures), room: (measures) => Boolean(measures) && measures !== "weight" && !IN_CELL.includes(measures) && !AT_MAT.includes(measures) };

/** Shows of a place's fields those that what is measured needs. */
export function showPlaces(id, measured) {
  for (const [kind, isNeeded] of Object.entries(KINDS)) {
    document.getElementById(`places-${id}`)?.querySelectorAll(`[data-place="${kind}"]`).forEach((part) => { part.hidden = !measured.some(isNeeded); });
  }
}

/** Fields for the places of what is measured; the others are there too, but hidden. */
export function placeFields(id, measured, at = {}) {
  const tray = trays().find((one) => one.id === at.tray) ?? trays()[0];
  if (!tray) return null;
  const cell = { row: at.row ?? Math.ceil(tray.cells.rows / 2), column: at.column ?? Math.ceil(tray.cells.columns / 2) };
  const place = el("div", {});
  const row = el("input", { id: `row-${id}`, type: "number", min: "1", value: cell.row, "aria-label": "Row", oninput: () => typed() });
  const column = el("input", { id: `column-${id}`, type: "number", min: "1", value: cell.column, "aria-label": "Column", oninput: () => typed() });
  const draw = () => {
    const chosen = trays().find((one) => one.id === (valueOf(`tray-${id}`) || tray.id));
    replaceContent(place, cellPick(chosen, cell, takenIn(chosen.id), (r, c) => { row.value = r; column.value = c; }));
  };
  const typed = () => { cell.row = Number(row.value); cell.column = Number(column.value); draw(); };
  draw();
  const part = (kind, ...fields) => el("div", { "data-place": kind, hidden: !measured.some(KINDS[kind]) }, fields);
  return el("fieldset", { class: "place", id: `places-${id}` }, el("legend", {}, "Where it stands"),
    part("tray", choice(`tray-${id}`, "Tray", trays().map((one) => [one.id, one.id]), tray.id, { onchange: draw })),
    part("cell", field(`row-${id}`, "Cell: row, column", el("span", { class: "pair" }, row, column)), place),
    part("room", choice(`room-${id}`, "Room", rooms().map((one) => [one.id, one.id]), at.room ?? tray.room)),
    part("mat", mats().length > 0 ? choice(`mat-${id}`, "Mat", mats().map((one) => [one.id, one.id]), at.mat ?? tray.mat ?? mats()[0].id)
      : el("p", {}, "There is no mat yet. ", el("a", { href: "/setup" }, "Add one under Site"))));
}

function takenIn(tray) {
  return new Set(probes().map(({ at }) => newest(at)).filter((at) => at.tray === tray && at.row).map(({ row, column }) => `${row}/${column}`));
}

/** The place that the fields say, for what is measured. */
export function atOf(measures, id) {
  const tray = valueOf(`tray-${id}`);
  if (IN_CELL.includes(measures)) return { tray, row: Number(valueOf(`row-${id}`)), column: Number(valueOf(`column-${id}`)) };
  if (measures === "weight") return { tray };
  if (AT_MAT.includes(measures)) {
    if (!valueOf(`mat-${id}`)) throw new Error("there is no mat yet; add one under Site");
    return { mat: valueOf(`mat-${id}`) };
  }
  return { room: valueOf(`room-${id}`) };
}

export function placeText(at) {
  if (at.row) return `in ${at.tray}, row ${at.row}, column ${at.column}`;
  return at.tray ? `under ${at.tray}` : at.mat ? `at ${at.mat}` : `in ${at.room}`;
}

// Where a probe is: a cell of a tray, a whole tray, a mat or a room.
import { el, replaceContent } from "../dom.js";
import { cellPick } from "./cell-pick.js";
import { choice, field, mats, newest, probes, rooms, trays, valueOf } from "./file.js";

const IN_CELL = ["moisture", "temperature", "battery"];
const AT_MAT = ["mat-surface", "mat-power"];

/** Fields for every kind of place; which of them count depends on what is measured. */
export function placeFields(id, at = {}) {
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
  return el("fieldset", { class: "place" }, el("legend", {}, "Where it stands"),
    choice(`tray-${id}`, "Tray", trays().map((one) => [one.id, one.id]), tray.id, { onchange: draw }),
    field(`row-${id}`, "Cell: row, column", el("span", { class: "pair" }, row, column)), place,
    el("details", { id: `elsewhere-${id}` }, el("summary", {}, "For air, light or a mat"),
      choice(`room-${id}`, "Room", rooms().map((one) => [one.id, one.id]), at.room ?? tray.room),
      mats().length > 0 && choice(`mat-${id}`, "Mat", mats().map((one) => [one.id, one.id]), at.mat ?? tray.mat ?? mats()[0].id)));
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

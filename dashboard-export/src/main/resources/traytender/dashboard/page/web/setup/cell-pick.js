// A tray as cells to tap; row and column can be typed as well.
import { el, replaceContent } from "../dom.js";

const narrow = () => matchMedia("(max-width: 640px)").matches;

/** A tray's cells; taken holds "row/column" of cells that have a probe. Told of the cell tapped. */
export function cellPick(tray, chosen, taken, pick) {
  const { rows, columns } = tray.cells;
  const upright = narrow() && columns > rows;
  const place = el("div", { class: "cell-pick" });
  place.style.setProperty("--across", upright ? rows : columns);
  const draw = () => replaceContent(place, order(rows, columns, upright).map(([row, column]) => {
    const here = chosen.row === row && chosen.column === column;
    return el("button", { type: "button", tabindex: "-1", class: `pick${taken.has(`${row}/${column}`) ? " taken" : ""}`, "aria-pressed": String(here),
      "aria-label": `Row ${row}, column ${column}${taken.has(`${row}/${column}`) ? ", has a probe" : ""}`, "data-cell": `${row}/${column}`,
      onclick: () => { pick(row, column); chosen.row = row; chosen.column = column; draw(); } }, here ? "●" : taken.has(`${row}/${column}`) ? "○" : "");
  }));
  draw();
  return el("div", {}, place, el("p", { class: "quiet" }, upright ? "The front of the tray, your side, is on the left." : "The front of the tray, your side, is at the bottom."));
}

function order(rows, columns, upright) {
  const cells = [];
  if (upright) for (let column = 1; column <= columns; column++) for (let row = 1; row <= rows; row++) cells.push([row, column]);
  else for (let row = rows; row >= 1; row--) for (let column = 1; column <= columns; column++) cells.push([row, column]);
  return cells;
}

// A tray as cells to tap, or to walk over by arrow keys; row and column can be typed as well.
import { bench } from "../bench.js";
import { el, replaceContent } from "../dom.js";
import { capital, zoneWords } from "../words.js";

const narrow = () => matchMedia("(max-width: 640px)").matches;
const STEPS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

/** A tray's cells; taken holds "row/column" of cells that have a probe. Told of the cell tapped. */
export function cellPick(tray, chosen, taken, pick) {
  const { rows, columns } = tray.cells;
  const upright = narrow() && columns > rows;
  const across = upright ? rows : columns;
  const place = el("div", { class: "cell-pick", role: "group", "aria-label": `Cells of ${tray.id}` });
  const told = el("p", { role: "status" });
  place.style.setProperty("--across", across);
  const cells = order(rows, columns, upright);
  const choose = ([row, column]) => {
    pick(row, column);
    Object.assign(chosen, { row, column });
    draw();
    place.querySelector("[aria-pressed='true']").focus({ preventScroll: true });
  };
  const walk = (event) => {
    const [x, y] = STEPS[event.key] ?? [];
    if (x === undefined) return;
    event.preventDefault();
    const at = Math.max(0, cells.findIndex(([row, column]) => row === chosen.row && column === chosen.column));
    const [toX, toY] = [at % across + x, Math.floor(at / across) + y];
    if (toX < 0 || toX >= across || toY < 0 || toY * across >= cells.length) return;
    choose(cells[toY * across + toX]);
  };
  place.addEventListener("keydown", walk);
  const draw = () => {
    const isIn = chosen.row >= 1 && chosen.row <= rows && chosen.column >= 1 && chosen.column <= columns;
    replaceContent(place, cells.map(([row, column], i) => {
      const here = chosen.row === row && chosen.column === column;
      const has = taken.has(`${row}/${column}`);
      return el("button", { type: "button", tabindex: here || (!isIn && i === 0) ? "0" : "-1", class: `pick${has ? " taken" : ""}`, "aria-pressed": String(here),
        "aria-label": `Row ${row}, column ${column}${has ? ", has a probe" : ""}`, "data-cell": `${row}/${column}`, onclick: () => choose([row, column]) }, here ? "●" : has ? "○" : "");
    }));
    told.textContent = isIn ? cellWords(tray, chosen) : `${tray.id} has rows 1 to ${rows} and columns 1 to ${columns}.`;
  };
  draw();
  return el("div", {}, told, el("div", { class: "scroll" }, place),
    el("p", { class: "quiet" }, upright ? "The front of the tray, your side, is on the left." : "The front of the tray, your side, is at the bottom."));
}

/** Where in the tray the chosen cell lies, once the program knows the tray. */
function cellWords(tray, { row, column }) {
  const zone = bench.trays.find(({ id }) => id === tray.id)?.cells.find((cell) => cell.row === row && cell.column === column)?.zone;
  return `${zone ? capital(zoneWords(zone)) : tray.id}, row ${row}, column ${column}`;
}

function order(rows, columns, upright) {
  const cells = [];
  if (upright) for (let column = 1; column <= columns; column++) for (let row = 1; row <= rows; row++) cells.push([row, column]);
  else for (let row = rows; row >= 1; row--) for (let column = 1; column <= columns; column++) cells.push([row, column]);
  return cells;
}

// Labels to print; on each a code that leads a phone to its tray.
import { el } from "./dom.js";

/** Sheets to cut out, and sizes of label printers' labels, mm (common practice, no source). */
const PAPERS = [["A4", "A4 sheets, to cut out"], ["Letter", "US Letter sheets, to cut out"], ["62x29", "label printer, 62 × 29 mm"],
  ["57x32", "label printer, 57 × 32 mm"], ["100x50", "label printer, 100 × 50 mm"], ["152x102", "label printer, 6 × 4 in"], ["other", "label printer, another size"]];

/** Labels of one tray, or of all where none is named. */
export function labels(tray) {
  const loopback = ["localhost", "127.0.0.1", "[::1]"].includes(location.hostname);
  const link = el("a", { class: "button", id: "labels", download: "labels.pdf" }, tray ? `Labels of ${tray} (PDF)` : "Labels of all trays (PDF)");
  const paper = el("select", { id: "paper", onchange: () => point() }, PAPERS.map(([size, words]) => el("option", { value: size }, words)));
  const [width, height] = [["label-width", "Width, mm", 80], ["label-height", "Height, mm", 40]].map(([id, words, value]) =>
    el("input", { id, type: "number", min: "20", max: "300", value, "aria-label": words, oninput: () => point() }));
  const other = el("div", { class: "field", hidden: true }, el("span", {}, "Width and height, mm"), el("span", { class: "pair" }, width, height));
  const point = () => {
    other.hidden = paper.value !== "other";
    const query = new URLSearchParams({ ...(tray && { tray }), paper: paper.value === "other" ? `${width.value}x${height.value}` : paper.value });
    link.href = `/api/v1/labels.pdf?${query}`;
  };
  point();
  return el("section", { "aria-labelledby": "labels-title" }, el("h2", { id: "labels-title" }, "Labels to print"),
    el("p", {}, "For each tray a large label, for each sowing a strip for its rows; a phone that reads the code opens the tray here.",
      loopback && " But this page is served to this machine alone: start it with --page and an address of its network, or say in notices.yaml (page:) where it is."),
    el("div", { class: "field" }, el("label", { for: "paper" }, "Print on"), paper), other,
    el("p", { class: "buttons" }, link));
}

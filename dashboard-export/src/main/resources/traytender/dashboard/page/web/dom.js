// Elements from plain calls. Text always goes in as text: whatever a sensor sent can never become markup.

const SVG = "http://www.w3.org/2000/svg";

function fill(element, attributes, children) {
  for (const [name, value] of Object.entries(attributes ?? {})) {
    if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
    else if (value === true) element.setAttribute(name, "");
    else if (value !== null && value !== undefined && value !== false) element.setAttribute(name, value);
  }
  element.append(...children.flat(Infinity).filter((child) => child !== null && child !== undefined && child !== false));
  return element;
}

export function el(tag, attributes, ...children) {
  return fill(document.createElement(tag), attributes, children);
}

export function svg(tag, attributes, ...children) {
  return fill(document.createElementNS(SVG, tag), attributes, children);
}

/** Puts new content in an element, keeping the focus and what was unfolded, both found again by id. */
export function replaceContent(element, ...children) {
  const focused = element.contains(document.activeElement) ? document.activeElement.id : "";
  const unfolded = [...element.querySelectorAll("details[open][id]")].map((details) => details.id);
  element.replaceChildren(...children.flat(Infinity).filter(Boolean));
  for (const id of unfolded) document.getElementById(id)?.setAttribute("open", "");
  if (focused) document.getElementById(focused)?.focus({ preventScroll: true });
}

/** A table that can be scrolled sideways by keyboard too. */
export function table(caption, heads, rows, name = caption) {
  return el("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": name },
    el("table", {},
      el("caption", {}, caption),
      el("thead", {}, el("tr", {}, heads.map((head) => el("th", { scope: "col" }, head)))),
      el("tbody", {}, rows.map((row) => el("tr", {}, row.map((cell, i) =>
        i === 0 ? el("th", { scope: "row" }, cell) : el("td", {}, cell)))))));
}

// Things of a list carried to another place by mouse, finger or pen (Pointer Events, W3C).

/** So far a pointer may stray and still be a tap, px. */
const TAP = 6;
/** Near the window's border by so much the page scrolls along, px. */
const BORDER = 60;
const SCROLL_STEP = 12;

/**
 * A handle by which its card is carried. Cards are found by their data attribute; told of the card dropped upon and of the side,
 * "before" or "after", once it is let go over another one. Escape, or letting go elsewhere, leaves all as it was.
 */
export function carriedBy(handle, cardName, dropped) {
  handle.style.touchAction = "none";
  handle.addEventListener("pointerdown", (event) => {
    if (event.button === 0) carry(event, handle, handle.closest(`[data-${cardName}]`), cardName, dropped);
  });
}

function carry(start, handle, card, cardName, dropped) {
  let target = null;
  let side = "before";
  let carried = false;
  let at = start;
  const from = { x: start.clientX + scrollX, y: start.clientY + scrollY };
  const unmark = () => target?.classList.remove("drop-before", "drop-after");
  const follow = (event) => {
    at = event;
    const [x, y] = [event.clientX + scrollX - from.x, event.clientY + scrollY - from.y];
    if (!carried && Math.hypot(x, y) < TAP) return;
    carried = true;
    card.classList.add("carried");
    card.style.transform = `translate(${x}px, ${y}px)`;
    unmark();
    target = document.elementsFromPoint(event.clientX, event.clientY).map((one) => one.closest(`[data-${cardName}]`)).find((one) => one && one !== card) ?? null;
    if (!target) return;
    const box = target.getBoundingClientRect();
    // Where several stand in a row left and right of its middle, where one fills the row above and below.
    const besides = box.width < card.parentElement.clientWidth * 0.9;
    side = (besides ? event.clientX > box.left + box.width / 2 : event.clientY > box.top + box.height / 2) ? "after" : "before";
    target.classList.add(`drop-${side}`);
  };
  const scrolling = setInterval(() => {
    if (!carried) return;
    // Never away from where it is carried, be it picked up at the border itself.
    const by = at.clientY < Math.min(BORDER, start.clientY) ? -SCROLL_STEP : at.clientY > Math.max(innerHeight - BORDER, start.clientY) ? SCROLL_STEP : 0;
    if (!by) return;
    scrollBy(0, by);
    follow(at);
  }, 16);
  const end = (isDropped) => {
    clearInterval(scrolling);
    listening.abort();
    unmark();
    card.classList.remove("carried");
    card.style.transform = "";
    if (isDropped && carried && target) dropped(target, side);
  };
  const listening = new AbortController();
  const on = (name, work, where = handle) => where.addEventListener(name, work, { signal: listening.signal });
  handle.setPointerCapture(start.pointerId);
  on("pointermove", follow);
  on("pointerup", () => end(true));
  on("pointercancel", () => end(false));
  on("keydown", (event) => event.key === "Escape" && end(false), document);
  // A text marked meanwhile would be in the way.
  start.preventDefault();
}

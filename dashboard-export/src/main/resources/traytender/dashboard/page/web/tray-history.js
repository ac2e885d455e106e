// A tray's past, scrubbed by a slider: its cells and figures as they were.
import { ask } from "./ask.js";
import { bench } from "./bench.js";
import { el } from "./dom.js";
import { doing } from "./tell.js";
import { when } from "./words.js";

/** How many times are looked at, over whatever span; our choice: half an hour apart in a day, an hour and a half in three. */
const VIEWS = 49;
const HOUR = 3600000;

/**
 * The slider over a tray's past.
 *
 * @param state {id, span: in hours, past: {span, views, at} or null}; past is kept here
 * @param redraw draws all of the cells' section anew
 * @param show draws only the map and figures anew: a slider that is being drawn must stay where it is
 */
export function historyControls(state, redraw, show) {
  const past = pastOf(state);
  if (!past) {
    return el("div", { class: "buttons" }, el("button", { type: "button", id: "look-back", onclick: (event) => doing(event.target, async () => {
      await load(state);
      redraw();
      document.getElementById("past-time")?.focus({ preventScroll: true });
    }) }, "Look back"));
  }
  const label = el("label", { for: "past-time", id: "past-words" });
  const slider = el("input", { type: "range", id: "past-time", min: "0", max: String(past.views.length - 1), step: "1", value: String(past.at),
    oninput: () => go(Number(slider.value)) });
  const step = (id, words, sign, by) => el("button", { type: "button", id, "aria-label": words, onclick: () => go(past.at + by) }, sign);
  const [earlier, later] = [step("past-earlier", "Earlier", "←", -1), step("past-later", "Later", "→", 1)];
  const tell = () => {
    label.textContent = `As it was ${timeWords(past)}`;
    slider.value = String(past.at);
    slider.setAttribute("aria-valuetext", timeWords(past));
    earlier.disabled = past.at === 0;
    later.disabled = past.at === past.views.length - 1;
  };
  const go = (at) => {
    past.at = Math.min(past.views.length - 1, Math.max(0, at));
    tell();
    show();
  };
  tell();
  return el("div", { class: "history" }, label, el("div", { class: "buttons" }, earlier, slider, later,
    el("button", { type: "button", id: "past-now", onclick: () => { state.past = null; redraw(); } }, "Back to now")));
}

/** What is scrubbed; of another span it is forgotten. */
function pastOf(state) {
  if (state.past && state.past.span !== state.span) state.past = null;
  return state.past;
}

async function load(state) {
  const to = bench.now;
  const views = await ask(`trays/${encodeURIComponent(state.id)}/history`, {
    from: new Date(to - state.span * HOUR).toISOString(), to: new Date(to).toISOString(), views: VIEWS });
  state.past = { span: state.span, views, at: views.length - 1 };
}

/** The tray as it is to be drawn: as it was, or as it is. */
export const shownTray = (state) => pastOf(state)?.views[state.past.at] ?? state.tray;

/** The time at which it is drawn. */
export const shownTime = (state) => (pastOf(state) ? Date.parse(shownTray(state).asOf) : bench.now);

const timeWords = ({ views, at }) => (views[at].asOf ? `at ${when(views[at].asOf, bench.now)}` : "before anything was heard");

// The page: which view the address names, kept up to date.
import { begin, bench, onChange } from "./bench.js";
import { el, replaceContent } from "./dom.js";
import { tellHealth } from "./health.js";
import { onTurn } from "./tray-map.js";
import { clock } from "./words.js";
import { calibrateView } from "./setup/calibrate.js";
import { devicesView } from "./setup/devices.js";
import { placingView } from "./setup/placing.js";
import { sensorsView } from "./setup/sensors.js";
import { siteView } from "./setup/site.js";
import { traySetupView } from "./setup/trays.js";
import { alertsView } from "./views/alerts.js";
import { journalView } from "./views/journal.js";
import { limitsView } from "./views/limits.js";
import { messagesView } from "./views/messages.js";
import { nightsView } from "./views/nights.js";
import { probesView } from "./views/probes.js";
import { todoView } from "./views/todo.js";
import { trayView } from "./views/tray.js";
import { traysView } from "./views/trays.js";

const main = document.getElementById("main");
const linkState = document.getElementById("link-state");
const news = document.getElementById("news");

/** Address to view. A view is {title, on: which changes it shows, load?, draw, drawn?, isHeld?: whether it must not be drawn anew now}. */
const VIEWS = [
  [/^\/$/, todoView],
  [/^\/trays$/, traysView],
  [/^\/trays\/(?<id>[^/]+)$/, trayView],
  [/^\/nights(?:\/(?<date>[^/]+))?$/, nightsView],
  [/^\/journal$/, journalView],
  [/^\/limits$/, limitsView],
  [/^\/probes$/, probesView],
  [/^\/alerts$/, alertsView],
  [/^\/messages$/, messagesView],
  [/^\/setup$/, siteView],
  [/^\/setup\/trays$/, traySetupView],
  [/^\/setup\/sensors$/, sensorsView],
  [/^\/setup\/calibrate\/(?<id>[^/]+)$/, calibrateView],
  [/^\/setup\/devices$/, devicesView],
  [/^\/setup\/placing$/, placingView],
];

let current = null;
let turn = 0;

function viewAt(address) {
  for (const [pattern, view] of VIEWS) {
    const match = pattern.exec(address.pathname);
    if (match) {
      const names = Object.fromEntries(Object.entries(match.groups ?? {})
        .map(([name, value]) => [name, value === undefined ? undefined : decodeURIComponent(value)]));
      return view({ ...names, query: address.searchParams, go });
    }
  }
  return { title: "No such page", on: [], draw: () => [el("h1", {}, "No such page")] };
}

function markPage() {
  for (const link of document.querySelectorAll("#pages a")) {
    const path = link.getAttribute("href");
    const here = path === "/" ? location.pathname === "/" : location.pathname.startsWith(path);
    if (here) link.setAttribute("aria-current", "page");
    else link.removeAttribute("aria-current");
  }
}

async function show(focus) {
  const mine = ++turn;
  current = viewAt(new URL(location));
  document.title = `${current.title} · ${bench.site?.name ?? "Traytender"}`;
  markPage();
  await redraw(mine);
  if (focus) {
    main.focus({ preventScroll: true });
    scrollTo(0, 0);
  }
}

async function redraw(mine = ++turn) {
  const view = current;
  try {
    await view.load?.();
    // A newer view or a newer drawing of this one has overtaken this answer.
    if (mine !== turn || view !== current) return;
    replaceContent(main, view.draw());
    for (const chart of main.querySelectorAll("figure.chart")) chart.start?.();
    view.drawn?.(main);
  } catch (error) {
    if (mine !== turn) return;
    replaceContent(main, el("h1", {}, view.title), el("p", { class: "wrong", role: "alert" }, `The program does not answer this: ${error.message}`));
  }
}

/** Shows another view without loading the page anew. */
export function go(path, { replace = false } = {}) {
  history[replace ? "replaceState" : "pushState"]({}, "", path);
  show(!replace);
}

document.addEventListener("click", (event) => {
  const link = event.target.closest?.("a[href^='/']");
  const plain = event.button === 0 && !event.metaKey && !event.ctrlKey && !event.shiftKey && !event.altKey;
  if (!link || !plain || link.hasAttribute("download") || /^\/(api|web|health|metrics)/.test(link.getAttribute("href"))) return;
  event.preventDefault();
  go(link.getAttribute("href"));
});
addEventListener("popstate", () => show(true));
onTurn(() => current && !current.isHeld?.() && redraw());

let lost = null;
let knownAlerts = null;

function tellLink() {
  linkState.classList.toggle("lost", lost !== null);
  const text = lost === null ? `● live, ${clock(bench.now)}`
    : `✕ cut off from the program since ${clock(lost)}; what you see is old`;
  // Said anew only when it changes, or a screen reader would tell the time every minute.
  if (linkState.textContent !== text) linkState.textContent = text;
  linkState.setAttribute("aria-live", lost === null ? "off" : "polite");
}

const tellName = () => { document.getElementById("site-name").textContent = bench.site.name; };

function tellNews() {
  const open = bench.alerts;
  if (knownAlerts) {
    const fresh = open.filter((alert) => !knownAlerts.has(alert.id) && alert.urgency !== "note");
    if (fresh.length) news.textContent = `New: ${fresh[0].do} ${fresh.length > 1 ? `and ${fresh.length - 1} more` : ""}`;
  }
  knownAlerts = new Set(open.map((alert) => alert.id));
}

onChange((what) => {
  if (what === "lost") {
    lost ??= Date.now();
  } else if (what === "heard") {
    lost = null;
    // When it cannot be asked, the page is cut off, which is told beside.
    tellHealth().catch(() => {});
  } else {
    if (what === "alerts") tellNews();
    if (what === "trays") tellName();
    if (current?.on.includes(what) && !current.isHeld?.()) redraw();
  }
  if (bench.site) tellLink();
});

async function start() {
  try {
    await begin();
    tellName();
    // A site without rooms is one that nobody has described yet.
    if (!bench.rooms.length && location.pathname === "/") history.replaceState({}, "", "/setup");
    knownAlerts = new Set(bench.alerts.map((alert) => alert.id));
    await show(false);
  } catch (error) {
    replaceContent(main, el("p", { class: "wrong", role: "alert" }, `The program does not answer: ${error.message}. Trying again.`));
    setTimeout(start, 3000);
  }
}

start();

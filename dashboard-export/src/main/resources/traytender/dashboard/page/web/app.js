// The page: which view the address names, kept up to date.
import { begin, bench, onChange } from "./bench.js";
import { el, replaceContent } from "./dom.js";
import { tellHealth } from "./health.js";
import { onTurn } from "./tray-map.js";
import { clock } from "./words.js";

const main = document.getElementById("main");
const linkState = document.getElementById("link-state");
const news = document.getElementById("news");

/**
 * Address, module and maker of a view, fetched when first wanted. A view is {title, on: which changes it shows, load?, draw, drawn?,
 * isHeld?: whether it must not be drawn anew now}.
 */
const VIEWS = [
  [/^\/$/, () => import("./views/todo.js"), "todoView"],
  [/^\/trays$/, () => import("./views/trays.js"), "traysView"],
  [/^\/trays\/(?<id>[^/]+)$/, () => import("./views/tray.js"), "trayView"],
  [/^\/nights(?:\/(?<date>[^/]+))?$/, () => import("./views/nights.js"), "nightsView"],
  [/^\/journal$/, () => import("./views/journal.js"), "journalView"],
  [/^\/limits$/, () => import("./views/limits.js"), "limitsView"],
  [/^\/probes$/, () => import("./views/probes.js"), "probesView"],
  [/^\/alerts$/, () => import("./views/alerts.js"), "alertsView"],
  [/^\/messages$/, () => import("./views/messages.js"), "messagesView"],
  [/^\/setup$/, () => import("./setup/site.js"), "siteView"],
  [/^\/setup\/trays$/, () => import("./setup/trays.js"), "traySetupView"],
  [/^\/setup\/sensors$/, () => import("./setup/sensors.js"), "sensorsView"],
  [/^\/setup\/calibrate\/(?<id>[^/]+)$/, () => import("./setup/calibrate.js"), "calibrateView"],
  [/^\/setup\/devices$/, () => import("./setup/devices.js"), "devicesView"],
  [/^\/setup\/placing$/, () => import("./setup/placing.js"), "placingView"],
];
/** How long after the first view the others are fetched, so that they are there when the program is not. */
const OTHERS_AFTER_MS = 4000;

let current = null;
let turn = 0;

async function viewAt(address) {
  for (const [pattern, fetched, maker] of VIEWS) {
    const match = pattern.exec(address.pathname);
    if (match) {
      const names = Object.fromEntries(Object.entries(match.groups ?? {})
        .map(([name, value]) => [name, value === undefined ? undefined : decodeURIComponent(value)]));
      return (await fetched())[maker]({ ...names, query: address.searchParams, go });
    }
  }
  return { title: "No such page", on: [], draw: () => [el("h1", {}, "No such page")] };
}

/** What stands where a view cannot be had. */
function notFetched() {
  const title = "The program does not answer";
  return { title, on: [], draw: () => [el("h1", {}, title),
    el("p", { class: "wrong", role: "alert" }, "This part of the page could not be fetched. Load the page again once the program is back.")] };
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
  const view = await viewAt(new URL(location)).catch(notFetched);
  if (mine !== turn) return;
  current = view;
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
    // The view is fetched while the program is asked.
    viewAt(new URL(location)).catch(() => {});
    await begin();
    tellName();
    // A site without rooms is one that nobody has described yet.
    if (!bench.rooms.length && location.pathname === "/") history.replaceState({}, "", "/setup");
    knownAlerts = new Set(bench.alerts.map((alert) => alert.id));
    await show(false);
    setTimeout(() => VIEWS.forEach(([, fetched]) => fetched().catch(() => {})), OTHERS_AFTER_MS);
  } catch (error) {
    replaceContent(main, el("p", { class: "wrong", role: "alert" }, `The program does not answer: ${error.message}. Trying again.`));
    setTimeout(start, 3000);
  }
}

start();

// Setup: what a board that sends needs: address, user, password, topic; and who may send.
import { el, svg } from "../dom.js";
import { ask, doing, post, remove } from "../tell.js";
import { change, field, file, head, load, text, valueOf } from "./file.js";

/** A message as a board may send it. */
const MESSAGE = '{"soil": 2100, "temp": 21.4}';
const LOOK_MS = 2000;

export function devicesView({ go }) {
  const state = { devices: null, sketch: "", redraw: () => go("/setup/devices", { replace: true }) };
  return { title: "Devices", on: [], isHeld: () => true, load: () => fetchAll(state), draw: () => draw(state) };
}

async function fetchAll(state) {
  [state.devices, state.sketch] = await Promise.all([ask("site/devices"), sketch(), load()]);
}

/** A minimal program for boards with MicroPython. */
const sketch = async () => (await fetch("/web/setup/sketch.py")).text();

/** The same with the board's own settings in it. */
function filledIn(program, { host, port, user, password, topic }) {
  const own = { HOST: JSON.stringify(host), PORT: port, USER: user && JSON.stringify(user), PASSWORD: password && JSON.stringify(password), TOPIC: topic && JSON.stringify(topic) };
  return program.replace(/^([A-Z, ]+) = (.*)$/gm, (line, names, values) => {
    const before = values.split(", ");
    return `${names} = ${names.split(", ").map((name, i) => own[name] || before[i]).join(", ")}`;
  });
}

/** The line that sends a message from a computer, as it works when it is typed. */
function tryLine({ host, port, user, password, topic, tls }) {
  const who = user ? ` -u ${user} -P ${password}` : "";
  return `mosquitto_pub -h ${host} -p ${port}${tls ? " --cafile CERTIFICATE" : ""}${who} -q 1 -t ${topic} -m '${MESSAGE}'`;
}

const isLocal = ({ listen }) => listen === "127.0.0.1" || listen === "localhost" || listen === "::1";
const hostOf = (devices) => devices.host ?? location.hostname;
/** First level of this site's topics: the first word of its name. */
const stem = () => /[a-z0-9]+/.exec((file.keys.site ?? "").toLowerCase())?.[0] ?? "bench";

function draw(state) {
  const { devices } = state;
  if (devices.broker !== "built-in") {
    return [...head("Devices", `Sensors send to the broker ${devices.broker}. Its own users and passwords count.`), examples(state, devices.broker.replace(/^[a-z]+:\/\//, "").split(":")[0])];
  }
  return [...head("Devices", "Any board that speaks MQTT 3.1.1 can send. Name it here; what is then shown is typed into it, as it stands."),
    el("p", {}, isLocal(devices) ? `The program takes messages at port ${devices.port}, from this machine alone.`
      : `Sensors reach it at ${devices.addresses.join(" or ")}, port ${devices.port}, ${devices.tls ? "with TLS" : "without TLS"}.`),
    give(state), users(state), isLocal(devices) && letIn(state), examples(state, hostOf(devices))];
}

/** Rows of modules, 1 for dark, with the quiet zone of four that readers need (ISO/IEC 18004). */
function qrCode(rows) {
  const side = rows.length + 8;
  const dark = rows.flatMap((row, y) => [...row].map((module, x) => (module === "1" ? `M${x + 4} ${y + 4}h1v1h-1z` : ""))).join("");
  return svg("svg", { id: "given-qr", viewBox: `0 0 ${side} ${side}`, width: side * 5, height: side * 5, role: "img", "aria-label": "The same as a QR code", "shape-rendering": "crispEdges" },
    svg("rect", { width: side, height: side, fill: "#fff" }), svg("path", { d: dark, fill: "#000" }));
}

function users(state) {
  return el("section", { id: "users", "aria-labelledby": "users-title" }, el("h2", { id: "users-title" }, "Who may send"),
    state.devices.users.length ? el("ul", { class: "entries" }, state.devices.users.map((user) => el("li", { class: "entry" },
      el("p", {}, `${user.name}: `, el("code", {}, user.topics.join(" "))),
      el("button", { type: "button", "aria-label": `Take the credentials of ${user.name} away`, onclick: (event) => doing(event.target, async () => {
        await remove(`site/devices/${encodeURIComponent(user.name)}`);
        state.redraw();
      }) }, "Take away")))) : el("p", { class: "quiet" }, "Nobody has credentials yet. On this machine itself none are needed."));
}

function give(state) {
  const place = el("div", { id: "given", role: "status" });
  const topics = (name) => `${stem()}/${name || "T01"}/#`;
  let isOwn = false;
  return el("form", { class: "card", "aria-label": "New credentials", onsubmit: (event) => {
    event.preventDefault();
    doing(event.submitter, async () => {
      const made = await post("site/devices", { name: valueOf("device"), topics: valueOf("device-topics").split(/\s+/) });
      state.devices = await ask("site/devices");
      document.getElementById("users").replaceWith(users(state));
      document.getElementById("let-in-box")?.replaceWith(letIn(state));
      place.replaceChildren(given(state, made));
      const own = { host: hostOf(state.devices), port: state.devices.port, user: made.name, password: made.password, topic: made.topic, tls: state.devices.tls };
      document.getElementById("sketch-text").textContent = filledIn(state.sketch, own);
      document.getElementById("try-line").textContent = tryLine(own);
      followDevice(made.topic);
    });
  } },
  el("h2", {}, "A device's own user and password"),
  text("device", "Device", "", { required: true, pattern: "[^\\s#+\\/]+", hint: "A name without spaces, such as T01.",
    oninput: ({ target }) => { if (!isOwn) document.getElementById("device-topics").value = topics(target.value.trim()); } }),
  text("device-topics", "May send to", topics(""), { required: true, hint: "# stands for all below, + for one level, as in MQTT; several parted by spaces.", oninput: () => { isOwn = true; } }),
  el("button", { type: "submit", id: "give", class: "main-button" }, "Make them"), place);
}

/** All that is typed into the device, and whether it was heard since. */
function given(state, made) {
  const rows = [["Address", hostOf(state.devices)], ["Port", state.devices.port], ["TLS", state.devices.tls ? "yes" : "no"], ["User", made.name], ["Password", made.password],
    ["Topic", made.topic], ["Message", MESSAGE], ["May send to", made.topics.join(" ")]];
  return el("div", { class: "card credentials" }, el("p", {}, el("strong", {}, "Shown once: "), "type it into the device now. Only the password's hash is kept."),
    el("dl", {}, rows.map(([name, value]) => [el("dt", {}, name), el("dd", {}, el("code", { id: `given-${name.toLowerCase().replaceAll(" ", "-")}` }, String(value)))])),
    isLocal(state.devices) && el("p", {}, `This is for a program on this machine. A board elsewhere finds it at ${state.devices.addresses.join(" or ") || "this machine's address"}, once boards are let in below.`),
    el("p", {}, "The message is an example: each number in it is found by itself. Under the topic more levels may follow, one for each of its sensors."),
    el("p", { id: "heard-of-it" }, "Nothing is heard of it yet."), qrCode(made.qr));
}

/** Says when the first message comes; what it is about is asked on the next page. */
async function followDevice(topic) {
  const place = document.getElementById("heard-of-it");
  while (place.isConnected) {
    const heard = (await ask("site/sensors").catch(() => [])).find((one) => one.topic === topic || one.topic.startsWith(`${topic}/`));
    if (heard) {
      place.replaceChildren("✓ It speaks: ", el("code", {}, heard.payload), ". ", el("a", { href: "/setup/sensors" }, "Tell where it stands"));
      return;
    }
    await new Promise((resolve) => setTimeout(resolve, LOOK_MS));
  }
}

/** From the network only with credentials, so the first ones come first. */
function letIn(state) {
  return el("section", { class: "card", id: "let-in-box", "aria-labelledby": "let-in-title" }, el("h2", { id: "let-in-title" }, "Let boards in your network send"),
    el("p", {}, "Then the program listens at all of this machine's addresses and asks every device for its user and password. It starts anew for it; the page is away for some seconds. Without TLS passwords travel in clear: keep it to a network you trust."),
    el("button", { type: "button", id: "let-in", disabled: !state.devices.users.length, onclick: (event) => doing(event.target, () => change([{ do: "site", keys: {
      messages: { ...(file.keys.messages ?? {}), listen: "0.0.0.0" } } }], "The program starts anew and lets devices with credentials in.", state.redraw)) }, "Let them in"),
    !state.devices.users.length && el("p", { class: "quiet" }, "Make a user for one device first."));
}

function examples({ devices, sketch: program }, host) {
  const port = devices.port || 1883;
  const asks = devices.broker !== "built-in" || !isLocal(devices);
  return el("section", { "aria-labelledby": "examples-title" }, el("h2", { id: "examples-title" }, "Try it, and a sketch to begin with"),
    field("try-line", "From a computer", el("pre", { id: "try-line", tabindex: "0" },
      tryLine({ host, port, topic: `${stem()}/T01`, tls: devices.tls, ...(asks && { user: "USER", password: "PASSWORD" }) })),
    `${asks ? "With the user and password of a device in it; above it stands with those just made." : "On this machine it works as it stands."}${devices.tls ? " CERTIFICATE is the file of the one who signed the program's." : ""}`),
    el("p", {}, "Send a number, JSON, or SenML (RFC 8428), with quality of service 1, about once a minute. The topic says which sensor it is; two sensors need two topics."),
    el("details", { id: "sketch" }, el("summary", {}, "A board with MicroPython"),
      devices.tls && el("p", {}, "This sketch speaks without TLS."), el("pre", { tabindex: "0", id: "sketch-text" }, filledIn(program, { host, port, topic: `${stem()}/T01` }))));
}

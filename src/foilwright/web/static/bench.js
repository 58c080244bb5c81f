// Bench: swing the wand through the chain, move adjusters, type what was read, see what it says.

import { ask, Refused, send } from "./answers.js";
import { adjusterList } from "./adjusters.js";
import { writeChoice } from "./choice.js";
import * as chart from "./chart.js";
import * as chainDrawing from "./chain.js";
import { degrees, radians } from "./geometry.js";
import { handlesOn } from "./handles.js";
import { text } from "./marks.js";
import { about, choice, fillBoats, find, madeFrom, nextFrame, openNewest, sized, tell } from "./page.js";
import { sheetOf } from "./sheet.js";
import * as side from "./side.js";
import { fixed, say, signed, spoken, typed } from "./words.js";

const STEP_PIXELS = 18, STANDING = 1.15;

/** @type {any} */ let now = null;
/** @type {any} */ let before = null;
let settingsBefore = /** @type {Record<string, number> | null} */ (null);
let wandBefore = /** @type {number | null} */ (null);
const svg = find("side"), chainSvg = find("chain");

const wandNow = () => choice.wand ?? 45;

/** The boat standing ashore with its wand held. */
function standing(wand = wandNow()) {
  return { height: STANDING, trim: 0, wand, foil: chainDrawing.reading(now.chain, wand).foil, joints: chainDrawing.joints(now.chain, wand) };
}

function draw() {
  if (!now) return;
  const state = standing();
  const wide0 = svg.clientWidth, high = Math.round(Math.min(Math.max(wide0 * 0.5, 280), 480));
  const wide = sized(svg, high);
  const on = side.frame(now.drawn, wide, high);
  const parts = [];
  if (before) parts.push(side.boat(before.drawn, before.chain, { ...state, ...before.state }, on, true));
  parts.push(side.boat(now.drawn, now.chain, state, on, false));
  now.drawn.adjusters.forEach((/** @type {any} */ one, /** @type {number} */ i) => {
    const at = anchor(one, state, on);
    parts.push(text([at[0] + 15, at[1] - 9], String(i + 1), "anchor-number"));
  });
  svg.innerHTML = parts.join("");
  grips.show(handlesOf(state, on));
  drawChain();
  drawCharts();
  tellState();
}

/** @param {any} one @param {any} state @param {any} on @returns {[number, number]} */
function anchor(one, state, on) {
  if (one.name === "wand-length") return on.place(state, alongWand(0.55));
  return on.place(state, one.anchor);
}

/** @param {number} share @returns {[number, number]} */
function alongWand(share) {
  const a = radians(wandNow()), p = now.drawn.wand_pivot, l = now.drawn.wand_length_m * share;
  return [p[0] - l * Math.sin(a), p[1] - l * Math.cos(a)];
}

/** @param {any} state @param {any} on */
function handlesOf(state, on) {
  const handles = now.drawn.adjusters.map((/** @type {any} */ one) => {
    const [x, y] = anchor(one, state, on);
    return {
      name: one.name, x, y, value: one.steps, least: one.least, greatest: one.greatest, step: 1, kind: "turn", label: spoken(one.name),
      spoken: say("adjuster_spoken", { steps: signed(one.steps, Number.isInteger(one.steps) ? 0 : 1), does: "" }),
      perPixel: one.choice ? [-1 / STEP_PIXELS, 0] : [1 / STEP_PIXELS, 1 / STEP_PIXELS],
    };
  });
  handles.push(wandHandle(on.place(state, alongWand(0.97)), on.place(state, now.drawn.wand_pivot)));
  return handles;
}

/** @param {[number, number]} at @param {[number, number]} pivot */
function wandHandle(at, pivot) {
  return {
    name: "wand", x: at[0], y: at[1], value: wandNow(), least: Math.ceil(now.chain.forward_stop_deg), greatest: Math.floor(now.chain.aft_stop_deg), step: 0.5, kind: "swing",
    label: say("wand"), spoken: wandSpoken(), perPixel: /** @type {[number, number]} */ ([0, 0]),
    follow: (/** @type {number} */ x, /** @type {number} */ y) => degrees(Math.atan2(pivot[0] - x, y - pivot[1])),
  };
}

const wandSpoken = () => say("wand_spoken", { wand: fixed(wandNow(), 0), foil: signed(chainDrawing.reading(now.chain, wandNow()).foil ?? 0, 1) });

function drawChain() {
  const wide = chainSvg.clientWidth || 320;
  const made = chainDrawing.draw(now.chain, now.drawn, wandNow(), wandBefore, wide, { hidden: say("hidden"), foil: say("foil"), wand: say("wand") });
  sized(chainSvg, made.plan.high);
  chainSvg.innerHTML = made.svg;
  const scale = side.frame(now.drawn, svg.clientWidth || 600, 400).scale;
  find("chain-scale").textContent = made.scale ? say("chain_scale", { times: fixed(made.scale / scale, 0) }) : say("chain_hidden");
  if (!made.scale) return chainGrips.show([]);
  const centre = made.centres[0], a = radians(wandNow()), reach = 64;
  return chainGrips.show([wandHandle([centre[0] - Math.sin(a) * reach, centre[1] + Math.cos(a) * reach], /** @type {[number, number]} */ (centre))]);
}

function drawCharts() {
  const chain = now.chain;
  const inside = chain.wand_deg.map((/** @type {number} */ w) => w >= chain.forward_stop_deg - 1e-6 && w <= chain.aft_stop_deg + 1e-6);
  const keep = (/** @type {any[]} */ list) => list.filter((_, i) => inside[i]);
  const xs = keep(chain.wand_deg), foil = keep(chain.foil_deg), slop = keep(chain.slop_deg);
  const marks = stopMarks(xs, keep(chain.stop));
  for (const angle of chain.locks_at_deg) marks.push({ x: angle, words: say("at_lock") });
  const here = chainDrawing.reading(chain, wandNow());
  const half = (/** @type {number} */ sign) => foil.map((f, i) => (f === null ? null : f + sign * 0.5 * (slop[i] ?? 0)));
  const curves = [{ xs, ys: foil, kind: "curve" }];
  if (before) curves.push({ xs, ys: keep(before.chain.foil_deg), kind: "curve-before" });
  const one = (/** @type {string} */ id, /** @type {any} */ plan) => {
    const view = find(id), high = 190, wide = sized(view, high);
    const made = chart.draw({ wide, high, unit: "", xUnit: "°", cursor: wandNow(), marks: [], ...plan });
    view.innerHTML = made.svg;
    view.dataset.from = JSON.stringify({ x0: made.toX(0), per: made.toX(1) - made.toX(0) });
  };
  one("chart-curve", { title: say("chart_curve"), curves, bands: [{ xs, low: half(-1), high: half(1) }], value: here.foil === null ? "–" : `${signed(here.foil, 1)}°`, marks });
  one("chart-gearing", { title: say("chart_gearing"), curves: [{ xs, ys: keep(chain.gearing) }], value: here.gearing === null ? "–" : fixed(here.gearing, 2) });
  one("chart-slop", { title: say("chart_slop"), curves: [{ xs, ys: slop }], value: here.slop === null ? "–" : `${fixed(here.slop, 2)}°` });
  find("locks").textContent = chain.locks_at_deg.length ? say("locks", { angles: chain.locks_at_deg.map((/** @type {number} */ a) => `${fixed(a, 0)}°`).join(", ") }) : "";
}

/** Where a stop begins or ends to hold. @param {number[]} xs @param {string[]} stops */
function stopMarks(xs, stops) {
  const marks = [];
  for (let i = 1; i < xs.length; i += 1) if (stops[i] !== stops[i - 1]) marks.push({ x: xs[i], words: say("at_stop") });
  return marks;
}

function tellState() {
  const here = chainDrawing.reading(now.chain, wandNow());
  if (here.locked) {
    find("sentence").textContent = say("locked");
    find("more").textContent = "";
    find("stopped").textContent = "";
  } else {
    find("sentence").textContent = say("ashore", { wand: fixed(wandNow(), 1).replace(/\.0$/, ""), part: say(now.drawn.whole_foil ? "whole" : "flap"), foil: signed(here.foil ?? 0, 1), edge: edge(here.edge ?? 0) });
    find("more").textContent = say("more", { gearing: fixed(here.gearing ?? 0, 2), slop: fixed(here.slop ?? 0, 2) });
    find("stopped").textContent = here.stop ? say("stopped", { stop: here.stop }) : "";
  }
  const check = now.swing_check;
  find("swing").textContent = say("swing", { back: edge(check.back_mm), forward: edge(check.forward_mm) });
  const slider = find("wand");
  slider.min = String(Math.ceil(now.chain.forward_stop_deg));
  slider.max = String(Math.floor(now.chain.aft_stop_deg));
  slider.value = String(wandNow());
  slider.setAttribute("aria-valuetext", wandSpoken());
  if (document.activeElement !== find("wand-number")) find("wand-number").value = fixed(wandNow(), 1);
}

/** @param {number} mm */
const edge = (mm) => say(mm >= 0 ? "edge_down" : "edge_up", { mm: fixed(Math.abs(mm), 1) });

// Moving ---------------------------------------------------------------------------------------------------

function remember() {
  before = { drawn: now.drawn, chain: now.chain, state: { wand: wandNow(), foil: chainDrawing.reading(now.chain, wandNow()).foil } };
  settingsBefore = Object.fromEntries(now.drawn.adjusters.map((/** @type {any} */ one) => [one.name, one.steps]));
  wandBefore = wandNow();
}

async function turned() {
  const drawing = await about("drawing", "/ask/drawing");
  if (!drawing) return;
  now = drawing;
  nextFrame(draw);
  list.show(now.drawn.adjusters, new Map());
  writeChoice(choice);
}

/** @param {string} name @param {number} steps @param {boolean} first */
function setAdjuster(name, steps, first = true) {
  if (first) remember();
  choice.settings[name] = steps;
  const one = now.drawn.adjusters.find((/** @type {any} */ each) => each.name === name);
  if (one) one.steps = steps;
  turned();
}

/** @param {number} wand */
function setWand(wand) {
  choice.wand = Math.min(Math.max(wand, now.chain.forward_stop_deg), now.chain.aft_stop_deg);
  nextFrame(draw);
}

function putBack() {
  if (settingsBefore) choice.settings = { ...settingsBefore };
  if (wandBefore !== null) choice.wand = wandBefore;
  before = null;
  wandBefore = null;
  turned();
}

const list = adjusterList(find("adjusters"), (name, steps) => setAdjuster(name, steps));
const moves = {
  /** @param {string} name @param {number} value @param {boolean} first */
  move(name, value, first) {
    if (name !== "wand") return setAdjuster(name, value, first);
    if (first) remember();
    return setWand(value);
  },
  end: () => writeChoice(choice),
  back: putBack,
};
const grips = handlesOn(find("handles"), moves);
const chainGrips = handlesOn(find("chain-handles"), moves);

find("wand").addEventListener("input", () => setWand(Number(find("wand").value)));
find("wand").addEventListener("change", () => writeChoice(choice));
find("wand-number").addEventListener("change", () => {
  const wand = typed(find("wand-number").value);
  const wrong = !Number.isFinite(wand) || wand < now.chain.forward_stop_deg || wand > now.chain.aft_stop_deg;
  find("wand-number").setAttribute("aria-invalid", String(wrong));
  find("wand-fault").hidden = !wrong;
  find("wand-fault").textContent = wrong ? say("wand_fault") : "";
  if (!wrong) setWand(wand);
});
find("put-back").addEventListener("click", putBack);
for (const id of ["chart-curve", "chart-gearing", "chart-slop"]) {
  const view = find(id);
  const follow = (/** @type {PointerEvent} */ event) => {
    const { x0, per } = JSON.parse(view.dataset.from ?? '{"x0":0,"per":0.2}');
    setWand(Math.round((x0 + per * (event.clientX - view.getBoundingClientRect().left)) * 2) / 2);
  };
  view.addEventListener("pointerdown", (/** @type {PointerEvent} */ event) => (view.setPointerCapture(event.pointerId), follow(event)));
  view.addEventListener("pointermove", (/** @type {PointerEvent} */ event) => event.buttons && follow(event));
}

// The bench sheet -------------------------------------------------------------------------------------------

const sheet = sheetOf(find("readings"), soon);
let waiting = 0;
function soon() {
  clearTimeout(waiting);
  waiting = setTimeout(fit, 250);
}

const sheetText = () => find("sheet").value.trim() ? find("sheet").value : sheet.csv(choice.boat);

async function fit() {
  const words = sheetText();
  const fault = find("fit-fault");
  if (!words) {
    fault.hidden = true;
    find("fit-words").textContent = say("fit_none");
    find("fitted").hidden = true;
    find("outliers").replaceChildren();
    return;
  }
  try {
    const answer = await send("fit", "/ask/bench-fit", { boat: choice.boat, sheet: words, version: madeFrom() });
    if (!answer) return;
    fault.hidden = true;
    find("fit-words").textContent = say("fit_rms", { rms: fixed(answer.rms_deg, 2), slop: fixed(answer.slop_deg, 2) });
    find("fitted").hidden = false;
    find("fitted").tBodies[0].replaceChildren(
      ...answer.fitted.map((/** @type {any} */ one) => {
        const row = document.createElement("tr");
        row.append(...[one.name, `${number(one.before)} ${one.unit}`, `${number(one.after)} ${one.unit}`, number(one.standard_error)].map((told) => {
          const cell = document.createElement("td");
          cell.textContent = told;
          return cell;
        }));
        return row;
      }),
    );
    find("outliers").replaceChildren(
      ...answer.outliers.map((/** @type {any} */ one) => {
        const item = document.createElement("li");
        item.textContent = say("outlier", { line: one.line, reading: one.reading, expected: one.expected });
        return item;
      }),
    );
    find("not-learned").textContent = answer.not_learned.length ? say("not_learned", { names: answer.not_learned.map((/** @type {any} */ one) => one.name ?? one).join(", ") }) : "";
  } catch (wrong) {
    fault.hidden = false;
    fault.textContent = wrong instanceof Refused ? wrong.message : say("broken");
  }
}

/** @param {number | null} x */
const number = (x) => (x === null || x === undefined ? "–" : fixed(x, Math.abs(x) < 0.1 ? 4 : Math.abs(x) < 10 ? 2 : 1));

for (const travel of ["back", "forward"]) for (const wand of ["15", "30", "45", "60", "75"]) sheet.add({ wand, travel });
find("add-line").addEventListener("click", () => sheet.add().reading.focus());
find("sheet").addEventListener("input", soon);
find("sheet-file").addEventListener("change", async () => {
  const file = find("sheet-file").files[0];
  if (!file) return;
  if (file.size > 200000) {
    find("fit-fault").hidden = false;
    find("fit-fault").textContent = say("broken");
    return;
  }
  find("sheet").value = await file.text();
  fit();
});

/** The phone as the gauge, where the browser lets a page know its tilt: on this machine or by https only. */
find("gauge").addEventListener("click", async () => {
  const told = find("gauge-words");
  const kind = /** @type {any} */ (window).DeviceOrientationEvent;
  if (!kind || !window.isSecureContext) return (told.textContent = say("gauge_not"));
  if (kind.requestPermission && (await kind.requestPermission()) !== "granted") return (told.textContent = say("gauge_not"));
  let heard = false;
  const take = document.createElement("button");
  take.type = "button";
  window.addEventListener("deviceorientation", (event) => {
    if (event.beta === null) return;
    heard = true;
    take.textContent = say("gauge_take", { angle: fixed(event.beta, 1) });
    take.dataset.angle = event.beta.toFixed(1);
  });
  take.addEventListener("click", () => {
    const empty = [...find("readings").querySelectorAll("tr")].find((row) => !row.querySelectorAll("input")[1].value);
    (empty ? empty.querySelectorAll("input")[0] : sheet.add().wand).value = take.dataset.angle ?? "";
    soon();
  });
  setTimeout(() => (heard ? told.replaceChildren(take) : (told.textContent = say("gauge_not"))), 600);
  return undefined;
});

find("save").addEventListener("submit", async (/** @type {Event} */ event) => {
  event.preventDefault();
  try {
    const words = sheetText();
    if (!words) return void (find("saved").textContent = say("fit_none"));
    const saved = await send("save", `/boats/${encodeURIComponent(choice.boat)}/measured`, { sheet: words, made_from: madeFrom(), by: find("by").value });
    if (!saved) return;
    choice.version = saved.version_id;
    choice.settings = {};
    find("saved").textContent = say(saved.beside.length ? "saved_beside" : "saved", { others: saved.beside.map((/** @type {any} */ one) => one.made_by).join(", ") });
    find("undo").hidden = false;
    find("undo").dataset.entry = saved.trail_id;
    remember();
    fillBoats(await ask("boats", "/boats"));
    await turned();
  } catch (fault) {
    tell(fault);
  }
});
find("undo").addEventListener("click", async () => {
  try {
    await send("undo", "/boats/undo", { trail_id: Number(find("undo").dataset.entry), by: find("by").value });
    find("undo").hidden = true;
    find("saved").textContent = say("undone");
    openNewest();
    fillBoats(await ask("boats", "/boats"));
    await turned();
  } catch (fault) {
    tell(fault);
  }
});

async function begin() {
  fillBoats(await ask("boats", "/boats"));
  const drawing = await about("drawing", "/ask/drawing");
  if (!drawing) return;
  now = drawing;
  draw();
  list.show(now.drawn.adjusters, new Map());
  document.body.dataset.ready = "yes";
  document.body.dataset.full = "yes";
}

new ResizeObserver(() => nextFrame(draw)).observe(svg);
begin().catch(tell);

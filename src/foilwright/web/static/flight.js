// Flight: sweep boat speed beside the drawing, turn adjusters, see height, bow, wand and loads answer.

import { ask } from "./answers.js";
import { adjusterList, entryOf } from "./adjusters.js";
import * as astern from "./astern.js";
import * as chainDrawing from "./chain.js";
import { writeChoice } from "./choice.js";
import { flightCharts, tellParts } from "./flight_charts.js";
import { layingOver, withSpeeds } from "./flight_over.js";
import { spokenSpeed, tellAssumed, tellState } from "./flight_words.js";
import { between, degrees, placeIn, radians, touchingWand } from "./geometry.js";
import { handlesOn } from "./handles.js";
import { keeping } from "./kept.js";
import { onTheBoat, onTheChain } from "./on_the_boat.js";
import { about, adjustersTell, choice, fieldFault, find, ink, inkLayers, last, nextFrame, sized, tell, wideScreen, widths } from "./page.js";
import * as side from "./side.js";
import { fixed, metres, newtons, say, typed } from "./words.js";

const LEAST_SPEED = 4, GREATEST_SPEED = 24;
const RESTS = 120; // when a hand rests, the whole sweep is asked for [ms]
const MIXED = ["ride_height_m", "trim_deg", "wand_deg", "foil_deg", "main_lift_n", "rudder_lift_n", "buoyancy_n", "drag_n"];

/** @type {any} */ let now = null; // drawn, chain
/** @type {any} */ let swept = null; // rows over all speeds
/** @type {any} */ let present = null; // the row at the cursor, where it was asked for by itself
/** @type {any[]} */ const past = []; // what was before each change, newest last
/** @type {any} */ let other = null; // what is laid over it
/** @type {Map<string, any>} */ let effects = new Map();
/** @type {{height?: number, wand?: number} | null} */ let held = null; // what a hand holds: hull or wand
let showLoads = true;

const svg = find("side"), chainSvg = find("chain"), asternSvg = find("astern");
const ids = ["stage-side", "stage-chain", "stage-astern", "chart-height", "chart-bow", "chart-wand", "chart-foil", "chart-lift", "chart-drag"];
const wide = widths(ids, () => nextFrame(draw));
const charts = flightCharts((speed) => setSpeed(speed), wide);

/** The counting row at a speed: between two rows of one state the numbers between them. @param {any} answer @param {number} speed */
function rowAt(answer, speed) {
  if (!answer) return null;
  const rows = answer.counts.map((/** @type {number | null} */ i) => (i === null ? null : answer.rows[i]));
  const place = placeIn(answer.speeds, speed);
  const a = rows[place.i], b = rows[Math.min(place.i + 1, rows.length - 1)];
  const near = place.share < 0.5 ? a : b;
  if (!a || !b || a.state !== b.state || a.wand_touching !== b.wand_touching) return near;
  const mixed = { ...near };
  for (const key of MIXED) mixed[key] = a[key] + place.share * (b[key] - a[key]);
  mixed.margins = Object.fromEntries(Object.keys(near.margins).map((key) => [key, between([a.margins[key], b.margins[key]], { i: 0, share: place.share })]));
  return mixed;
}

/** The row that counts of an answer at one speed, else the one that says why there is none. @param {any} answer */
const only = (answer) => answer.rows[answer.counts[0] ?? 0];

/** A row as the drawing wants it. @param {any} row @param {any} of drawn and chain */
function stateOf(row, of) {
  const wand = row && row.state ? row.wand_deg : of.chain.aft_stop_deg;
  const place = row && row.state ? { height: row.ride_height_m, trim: radians(row.trim_deg), foil: row.foil_deg } : { height: 0, trim: 0, foil: chainDrawing.reading(of.chain, wand).foil };
  return { ...place, wand, heel: 0, joints: chainDrawing.joints(of.chain, wand) };
}

const rowNow = () => present ?? rowAt(swept, choice.speed);

/** What is drawn now: as it flies, or as a hand holds it. */
function shownState() {
  const state = stateOf(rowNow(), now);
  if (!held) return state;
  let wand = held.wand ?? state.wand, height = state.height;
  if (held.height !== undefined) {
    height = held.height;
    wand = degrees(touchingWand(now.drawn, now.chain, { height, trim: state.trim }).wand);
  }
  return { ...state, height, wand, foil: chainDrawing.reading(now.chain, wand).foil, joints: chainDrawing.joints(now.chain, wand) };
}

const before = () => past[past.length - 1] ?? null;

function draw() {
  if (!now) return;
  const row = rowNow(), state = shownState();
  const on = drawSide(row, state);
  drawAstern(state, on);
  drawChain(state, on);
  charts.resize();
  charts.data({ swept, drawn: now.drawn }, before(), other);
  if (swept) charts.cursor(choice.speed, row);
  tellState(row, state, held, swept);
  tellParts(row);
  entries(state);
  legend();
  const slider = find("speed");
  slider.value = String(choice.speed);
  slider.setAttribute("aria-valuetext", spokenSpeed(row));
  if (find("speed-number").getAttribute("aria-invalid") !== "true") find("speed-number").value = fixed(choice.speed, 1);
  find("put-back").disabled = !past.length && !held;
}

/** How high the stage may be, so that a first screen shows the drawing with all that moves it. */
const mostHigh = () => (wideScreen() ? Math.min(Math.max(window.innerHeight - 412, 330), 620) : Math.max(window.innerHeight * 0.66, 330));

/** @param {any} row @param {any} state */
function drawSide(row, state) {
  const on = side.frame(now.drawn, wide["stage-side"], mostHigh());
  sized(svg, on.wide, on.high);
  const pool = side.water(now.drawn, state, on, metres(state.height));
  const parts = [pool.under];
  const names = /** @type {any[]} */ ([]);
  const stern = (/** @type {any} */ drawn, /** @type {any} */ one) => on.place(one, drawn.hull_deck[0]);
  const old = before();
  if (old) {
    parts.push(...side.boat(old.now.drawn, old.now.chain, old.state, on, { outline: "before" }));
    const at = stern(old.now.drawn, old.state);
    if (Math.hypot(at[0] - stern(now.drawn, state)[0], at[1] - stern(now.drawn, state)[1]) > 5) names.push({ words: say("outline_before"), x: at[0], to: at });
  }
  if (other) {
    const over = stateOf(rowAt(other.swept, choice.speed), other);
    parts.push(...side.boat(other.drawn, other.chain, over, on, { outline: "other" }));
    const at = stern(other.drawn, over);
    names.push({ words: say("outline_other"), x: at[0], to: at });
  }
  parts.push(...side.boat(now.drawn, now.chain, state, on), pool.over);
  const told = side.loads(showLoads && row?.state && !held ? row.arrows ?? [] : [], state, on, loadWords, names);
  const grip = onTheBoat({ ...now, jointsAt: (/** @type {number} */ wand) => chainDrawing.joints(now.chain, wand) }, state, on, { adjusters: now.drawn.adjusters, ashore: false, effects });
  inkLayers(svg, [...parts, grip.marks, told.marks, told.words]);
  grips.show(grip.handles);
  return on;
}

/** @param {string} name @param {number} n @param {number | null} up */
const loadWords = (name, n, up) => (up === null ? `${name} ${newtons(n)}` : say("pull_high", { name, load: newtons(n), height: fixed(up, 1) }));

/** @param {any} state @param {any} on */
function drawAstern(state, on) {
  const place = wide["stage-astern"];
  const frame = wideScreen() ? { ...on, wide: place } : astern.frame(now.drawn, place, 300);
  sized(asternSvg, frame.wide, frame.high);
  ink(asternSvg, astern.draw(now.drawn, state, frame, { windward: say("windward") }, before()?.state));
}

/** @param {any} state @param {any} on */
function drawChain(state, on) {
  const place = wide["stage-chain"];
  const old = before();
  const made = chainDrawing.draw(now.chain, now.drawn, state.wand, old ? old.state.wand : null, place, wideScreen() ? on.high - 60 : null, { hidden: say("hidden"), foil: say("foil"), wand: say("wand") }, old?.now.chain);
  sized(chainSvg, place, made.plan.high);
  ink(chainSvg, made.svg);
  find("chain-scale").textContent = made.scale ? say("chain_scale", { times: fixed(made.scale / on.scale, 0) }) : say("chain_hidden");
  chainGrips.show(onTheChain(now, state, made, place, effects));
}

/** The list beside the drawing: the adjusters, then what a hand may hold. @param {any} state */
function entries(state) {
  const none = { words: say("hold_note"), picture: "" };
  list.show([
    ...now.drawn.adjusters.map((/** @type {any} */ one, /** @type {number} */ i) => entryOf(one, i, effects.get(one.name))),
    { name: "hull", label: say("hold_hull"), sign: "", unit: "", value: Math.round(state.height * 100) / 100, least: -0.2, greatest: 0.7, step: 0.05, places: 2, plus: false, does: none, notes: [] },
    { name: "wand", label: say("hold_wand"), sign: "", unit: "", value: Math.round(state.wand * 2) / 2, least: Math.ceil(now.chain.forward_stop_deg), greatest: Math.floor(now.chain.aft_stop_deg), step: 1, places: 1, plus: false, does: none, notes: [] },
  ]);
}

function legend() {
  const words = [before() ? say("legend_before") : "", other ? say("legend_other", { name: other.name }) : ""].filter(Boolean).join(" ");
  const place = find("legend");
  if (place.textContent !== words) place.textContent = words;
  place.hidden = !words;
}

// Asking ---------------------------------------------------------------------------------------------------

const speedWords = () => String(Math.round(choice.speed * 100) / 100);

/** The adjuster moved: the drawing at this speed at once, everything else when the hand rests. */
async function turned() {
  const answer = await about("moved", "/ask/moved", { speed: speedWords() });
  if (!answer) return false;
  now = answer.drawing;
  present = only(answer.sweep);
  draw();
  writeChoice(choice);
  clearTimeout(resting);
  resting = setTimeout(settle, RESTS);
  return true;
}

let resting = 0;
async function settle() {
  const answer = await about("sweep", "/ask/sweep");
  if (!answer) return;
  swept = withSpeeds(answer);
  present = null;
  nextFrame(draw);
  await freshEffects();
}

async function freshEffects() {
  const answer = await about("effects", "/ask/effects", { speed: speedWords() });
  if (!answer) return;
  effects = new Map(answer.rows.map((/** @type {any} */ row) => [row.adjuster, row]));
  nextFrame(draw);
}

// Moving ---------------------------------------------------------------------------------------------------

/** Keeps how it is now, to be drawn thin and to go back to. */
function remember() {
  past.push({ now, state: shownState(), swept, settings: Object.fromEntries(now.drawn.adjusters.map((/** @type {any} */ one) => [one.name, one.steps])), sailor: choice.sailor, held });
  if (past.length > 50) past.shift();
}

/** @param {string} name @param {number} steps @param {boolean} first */
function setAdjuster(name, steps, first) {
  if (first) remember();
  choice.settings[name] = steps;
  now = { ...now, drawn: { ...now.drawn, adjusters: now.drawn.adjusters.map((/** @type {any} */ one) => (one.name === name ? { ...one, steps } : one)) } };
  held = null;
  turned();
}

/** @param {{height?: number, wand?: number}} what @param {boolean} first */
function hold(what, first) {
  if (first) remember();
  held = what;
  draw(); // moves come once a frame: drawn at once they are seen in the same frame
}

/** One change back. */
function putBack() {
  const old = past.pop();
  if (!old) return void ((held = null), nextFrame(draw));
  const onlyHeld = old.held || held ? JSON.stringify(old.settings) === JSON.stringify(Object.fromEntries(now.drawn.adjusters.map((/** @type {any} */ one) => [one.name, one.steps]))) : false;
  held = old.held;
  if (onlyHeld && old.sailor === choice.sailor) return nextFrame(draw);
  choice.settings = { ...old.settings };
  choice.sailor = old.sailor;
  find("sailor").value = old.sailor;
  turned();
  return undefined;
}

/** @param {string} name @param {number} value @param {boolean} first */
function moved(name, value, first) {
  if (name === "hull") hold({ height: value }, first);
  else if (name === "wand") hold({ wand: value }, first);
  else setAdjuster(name, value, first);
}

const list = adjusterList(find("adjusters"), (name, value) => moved(name, value, true));
adjustersTell(list.fault);
const moves = { move: moved, end: () => writeChoice(choice), back: putBack };
const grips = handlesOn(find("handles"), moves), chainGrips = handlesOn(find("chain-handles"), moves);

/** @param {number} speed */
function setSpeed(speed) {
  choice.speed = Math.min(Math.max(speed, LEAST_SPEED), GREATEST_SPEED);
  if (swept) present = null;
  held = null;
  fieldFault("speed-number", "");
  nextFrame(draw);
  writeChoice(choice);
  clearTimeout(calm);
  calm = setTimeout(() => (swept ? freshEffects() : turned()), RESTS);
}
let calm = 0;

find("speed").addEventListener("input", () => setSpeed(Number(find("speed").value)));
for (const [id, by] of /** @type {[string, number][]} */ ([["speed-less", -0.5], ["speed-more", 0.5]])) find(id).addEventListener("click", () => setSpeed(Math.round((choice.speed + by) * 10) / 10));
find("speed-number").addEventListener("change", () => {
  const speed = typed(find("speed-number").value);
  if (Number.isFinite(speed) && speed >= LEAST_SPEED && speed <= GREATEST_SPEED) setSpeed(speed);
  else fieldFault("speed-number", say("speed_fault"));
});
find("sailor").addEventListener("change", async () => {
  remember();
  const old = choice.sailor;
  choice.sailor = find("sailor").value.trim();
  // What cannot be read stays in its field with the sentence under it; the boat keeps the sailor it had.
  if (!(await turned())) (choice.sailor = old), past.pop();
});
find("loads").addEventListener("change", () => ((showLoads = find("loads").checked), nextFrame(draw)));
find("put-back").addEventListener("click", putBack);
document.addEventListener("keydown", (event) => {
  if ((event.ctrlKey || event.metaKey) && event.key === "z" && !/** @type {Element} */ (event.target).closest("input, textarea")) (event.preventDefault(), putBack());
});
find("how").addEventListener("click", () => {
  const shown = find("adjusters").classList.toggle("with-notes");
  find("how").setAttribute("aria-expanded", String(shown));
});

const over = layingOver(() => ({ ...now, swept }), (laid) => ((other = laid), nextFrame(draw)));
const keeper = keeping({
  what: "settings",
  body: () => ({ settings: Object.fromEntries(now.drawn.adjusters.map((/** @type {any} */ one) => [one.name, one.steps])) }),
  after: async () => void ((choice.settings = {}), await turned()),
});

async function begin() {
  find("sailor").value = choice.sailor;
  const asked = () => about("moved", "/ask/moved", { speed: speedWords() });
  let first = await asked();
  if (!first) {
    // An address with something wrong in it: the sentence stays, the boat is shown as it is kept.
    find("address-fault").textContent = last.fault;
    find("address-fault").hidden = false;
    Object.assign(choice, { settings: {}, version: null, sailor: "" });
    first = await asked();
    if (!first) return;
  }
  now = first.drawing;
  present = only(first.sweep);
  find("sailor").placeholder = fixed(now.usual_sailor_kg, 0);
  draw();
  document.fonts?.ready.then(() => nextFrame(draw));
  document.body.dataset.ready = "yes";
  const boats = await ask("boats", "/boats");
  over.offer(boats);
  await keeper.refreshed();
  const all = await about("sweep", "/ask/sweep");
  if (all) {
    swept = withSpeeds(all);
    present = null;
    draw();
  }
  await freshEffects();
  draw();
  await tellAssumed();
  document.body.dataset.full = "yes";
}

begin().catch(tell);

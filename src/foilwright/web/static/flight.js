// Flight: sweep boat speed or wind beside the drawing, turn adjusters, see height, bow, wand and loads answer.

import { ask } from "./answers.js";
import { adjusterList, entryOf } from "./adjusters.js";
import * as astern from "./astern.js";
import * as chainDrawing from "./chain.js";
import { GREATEST, LEAST, USUAL, query, writeChoice } from "./choice.js";
import { flightCharts, tellParts } from "./flight_charts.js";
import { layingOver, withSpeeds } from "./flight_over.js";
import { newTurn, PENDING, sweepWind } from "./flight_wind.js";
import { spokenSweep, tellAssumed, tellState, tellSweep } from "./flight_words.js";
import { between, degrees, placeIn, radians, touchingWand } from "./geometry.js";
import { handlesOn } from "./handles.js";
import { keeping } from "./kept.js";
import { onTheBoat, onTheChain } from "./on_the_boat.js";
import { about, adjustersTell, choice, fieldFault, find, ink, inkLayers, last, madeFrom, nextFrame, sized, tell, wideScreen, widths } from "./page.js";
import * as side from "./side.js";
import { fixed, metres, newtons, say, typed } from "./words.js";

const RESTS = 120; // when a hand rests, the whole sweep is asked for [ms]
const MIXED = ["ride_height_m", "trim_deg", "wand_deg", "foil_deg", "main_lift_n", "rudder_lift_n", "buoyancy_n", "drag_n",
  "wind_kn", "hand_gauge_kn", "boat_speed_kn", "heel_deg", "hiking_percent", "sail_lift_n", "strut_lift_n"];

/** @type {any} */ let now = null; // drawn, chain
/** @type {any} */ let swept = null; // rows over all speeds, or over all winds
/** @type {any} */ let present = null; // the row at the cursor, where it was asked for by itself
/** @type {any[]} */ let around = []; // every state in its wind
/** @type {any} */ let lastRow = null; // the row drawn last: it stays while another is worked out
let quick = false; // whether a wind is answered at once: the server's physics is compiled
/** @type {any[]} */ const past = []; // what was before each change, newest last
/** @type {any} */ let other = null; // what is laid over it
/** @type {Map<string, any>} */ let effects = new Map();
/** @type {{height?: number, wand?: number} | null} */ let held = null; // what a hand holds: hull or wand
let showLoads = true;

const svg = find("side"), chainSvg = find("chain"), asternSvg = find("astern");
const ids = ["stage-side", "stage-chain", "stage-astern", "chart-speed", "chart-height", "chart-bow", "chart-wand", "chart-foil", "chart-lift", "chart-drag"];
const wide = widths(ids, () => nextFrame(draw));
const charts = flightCharts((x) => setAt(Math.round(x * 10) / 10), wide);

const inWind = () => choice.sweep === "wind";
/** Where the cursor stands: a boat speed or a wind. */
const at = () => (inWind() ? choice.wind : choice.speed);
/** What a sweep is about; another is another curve. */
const mode = () => (inWind() ? `wind ${choice.angle} ${choice.measured}` : "speed");
const windWords = () => ({ angle: choice.angle, measured: choice.measured });

/** The counting row at a speed or in a wind: between two rows of one state the numbers between them. @param {any} answer @param {number} x */
function rowAt(answer, x) {
  if (!answer) return null;
  const rows = answer.counted;
  const place = placeIn(answer.xs, x);
  const a = rows[place.i], b = rows[Math.min(place.i + 1, rows.length - 1)];
  const near = place.share < 0.5 ? a : b;
  if (a?.pending || b?.pending) return place.share > 0 && place.share < 1 ? PENDING : near;
  if (!a || !b || a.state !== b.state || a.wand_touching !== b.wand_touching) return near;
  const mixed = { ...near };
  for (const key of MIXED) if (key in near) mixed[key] = a[key] + place.share * (b[key] - a[key]);
  mixed.margins = Object.fromEntries(Object.keys(near.margins).map((key) => [key, between([a.margins[key], b.margins[key]], { i: 0, share: place.share })]));
  return mixed;
}

/** The row that counts of an answer at one speed, else the one that says why there is none. @param {any} answer */
const only = (answer) => answer.rows[answer.counts[0] ?? 0];

/** A row as the drawing wants it. @param {any} row @param {any} of drawn and chain */
function stateOf(row, of) {
  const wand = row && row.state ? row.wand_deg : of.chain.aft_stop_deg;
  const place = row && row.state ? { height: row.ride_height_m, trim: radians(row.trim_deg), foil: row.foil_deg } : { height: 0, trim: 0, foil: chainDrawing.reading(of.chain, wand).foil };
  const lean = row && row.state && "hiking_percent" in row ? { heel: radians(row.heel_deg), out: row.hiking_percent / 100 } : { heel: 0 };
  return { ...place, ...lean, wand, joints: chainDrawing.joints(of.chain, wand) };
}

const rowNow = () => present ?? (swept || !inWind() ? rowAt(swept, at()) : PENDING);
/** Every state at the cursor, and what was found instead of one. */
const aroundNow = () => (present ? around : (swept?.rows ?? []).filter((/** @type {any} */ one) => Math.abs((one.told_kn ?? one.boat_speed_kn) - at()) < 0.51));

/** What is drawn now: as it flies, or as a hand holds it. */
function shownState() {
  const row = rowNow(), state = stateOf(row?.pending ? lastRow : row, now);
  if (!held) return state;
  let wand = held.wand ?? state.wand, height = state.height;
  if (held.height !== undefined) {
    height = held.height;
    wand = degrees(touchingWand(now.drawn, now.chain, { height, trim: state.trim }).wand);
  }
  return { ...state, height, wand, foil: chainDrawing.reading(now.chain, wand).foil, joints: chainDrawing.joints(now.chain, wand) };
}

/** How it was before the last change, of the same sweep. */
const before = () => (past.length && past[past.length - 1].mode === mode() ? past[past.length - 1] : null);

function draw() {
  if (!now) return;
  const row = rowNow(), state = shownState();
  if (!row?.pending) lastRow = row;
  const on = drawSide(row, state);
  drawAstern(state, on);
  drawChain(state, on);
  charts.resize();
  charts.data({ swept, drawn: now.drawn }, before(), other);
  if (swept) charts.cursor(at(), row);
  tellState(row, state, held, swept, aroundNow());
  tellSweep(row);
  tellParts(row);
  entries(state);
  legend();
  const slider = find(choice.sweep), number = find(`${choice.sweep}-number`);
  slider.value = String(at());
  slider.setAttribute("aria-valuetext", spokenSweep(row));
  if (number.getAttribute("aria-invalid") !== "true") number.value = fixed(at(), 1);
  find("put-back").disabled = !past.length && !held;
}

/** How high the stage may be, so that a first screen shows the drawing with all that moves it. */
const mostHigh = () => (wideScreen() ? Math.min(Math.max(window.innerHeight - (inWind() ? 462 : 412), 330), 620) : Math.max(window.innerHeight * 0.66, 330));

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
    const to = stern(old.now.drawn, old.state), here = stern(now.drawn, state);
    if (Math.hypot(to[0] - here[0], to[1] - here[1]) > 5) names.push({ words: say("outline_before"), x: to[0], to });
  }
  if (other) {
    const theirs = rowAt(other.swept, at());
    if (theirs?.state || !inWind()) {
      const over = stateOf(theirs, other);
      parts.push(...side.boat(other.drawn, other.chain, over, on, { outline: "other" }));
      const to = stern(other.drawn, over);
      names.push({ words: say("outline_other"), x: to[0], to });
    }
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

/** The other boat, or why it is not drawn. */
function otherInWords() {
  const row = inWind() ? rowAt(other.swept, at()) ?? (other.swept ? null : PENDING) : other;
  const found = !inWind() || row?.state;
  return say(found ? "legend_other" : row?.pending ? "legend_other_later" : "legend_other_none", { name: other.name, wind: fixed(at(), 1).replace(/\.0$/, "") });
}

function legend() {
  const words = [before() ? say("legend_before") : "", other ? otherInWords() : ""].filter(Boolean).join(" ");
  const place = find("legend");
  if (place.textContent !== words) place.textContent = words;
  place.hidden = !words;
}

// Asking ---------------------------------------------------------------------------------------------------

const speedWords = () => String(Math.round(choice.speed * 100) / 100);

/** The state in the wind under the cursor alone; whether there is an answer. */
async function askedInWind() {
  const answer = await about("wind-now", "/ask/wind", { ...windWords(), wind: String(Math.round(choice.wind * 100) / 100), needed: "false" });
  if (!answer) return false;
  [present, around, quick] = [only(answer), answer.rows, answer.compiled];
  return true;
}

/** The adjuster moved: the drawing with the state at the cursor at once, everything else when the hand rests.
 * A wind that takes a second is worked out only then: a turning hand would ask for twenty. */
async function turned() {
  clearTimeout(resting);
  if (inWind()) {
    const waits = quick ? askedInWind() : true;
    const drawing = await about("moved", "/ask/drawing");
    if (!drawing || !(await waits)) return false;
    now = drawing;
    if (!quick) present = PENDING;
  } else {
    const answer = await about("moved", "/ask/moved", { speed: speedWords() });
    if (!answer || inWind()) return false;
    now = answer.drawing;
    present = only(answer.sweep);
  }
  draw();
  writeChoice(choice);
  clearTimeout(resting);
  resting = setTimeout(settle, RESTS);
  return true;
}

let resting = 0;
async function settle() {
  if (inWind()) {
    if (!quick || !present || present.pending) {
      if (!(await askedInWind())) return;
      nextFrame(draw);
    }
    await freshEffects();
    await wholeWind();
    return;
  }
  const answer = await about("sweep", "/ask/sweep");
  if (!answer || inWind()) return;
  swept = withSpeeds(answer);
  present = null;
  nextFrame(draw);
  await freshEffects();
}

/** The whole sweep over the wind; it may come wind by wind. */
async function wholeWind() {
  const words = query(choice);
  words.set("version", String(madeFrom()));
  try {
    await sweepOver("wind", words, (made, left) => {
      quick = made.known;
      swept = made;
      if (rowAt(made, at())?.state && made.xs.includes(choice.wind)) present = null;
      find("wind-growing").hidden = !left;
      find("wind-growing").textContent = left ? say("wind_growing", { left }) : "";
      nextFrame(draw);
    });
  } catch (fault) {
    tell(fault);
  }
}

/** What is swept now, for one boat; `grown` sees every step.
 * @param {string} kind @param {URLSearchParams} words @param {(swept: any, left: number) => void} grown */
async function sweepOver(kind, words, grown) {
  if (inWind()) {
    const all = new URLSearchParams(words), asked = mode();
    for (const [name, value] of Object.entries(windWords())) all.set(name, value);
    await sweepWind(kind, all, () => choice.wind, (made, left) => mode() === asked && grown(made, left));
    return;
  }
  const mine = newTurn(kind);
  const answer = await ask(kind, `/ask/sweep?${words}`);
  if (answer && mine() && !inWind()) grown(withSpeeds(answer), 0);
}

async function freshEffects() {
  const row = inWind() ? rowNow() : null;
  if (inWind() && !row?.state) return void ((effects = new Map()), nextFrame(draw));
  // In a wind they are those at the speed and the heel of the state.
  const held = row ? { speed: row.boat_speed_kn.toFixed(2), heel: row.heel_deg.toFixed(1) } : { speed: speedWords() };
  const answer = await about("effects", "/ask/effects", held);
  if (!answer) return undefined;
  effects = new Map(answer.rows.map((/** @type {any} */ row) => [row.adjuster, row]));
  nextFrame(draw);
  return undefined;
}

// Moving ---------------------------------------------------------------------------------------------------

/** Keeps how it is now, to be drawn thin and to go back to. */
function remember() {
  past.push({ now, state: shownState(), swept, mode: mode(), settings: Object.fromEntries(now.drawn.adjusters.map((/** @type {any} */ one) => [one.name, one.steps])), sailor: choice.sailor, held });
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

/** Moves the cursor. @param {number} x */
function setAt(x) {
  const inside = Math.min(Math.max(x, LEAST), GREATEST);
  if (inWind()) choice.wind = inside;
  else choice.speed = inside;
  if (swept) present = null;
  held = null;
  fieldFault(`${choice.sweep}-number`, "");
  nextFrame(draw);
  writeChoice(choice);
  clearTimeout(calm);
  calm = setTimeout(rested, RESTS);
}
let calm = 0;

/** The hand that moved the cursor rests: a wind between two of the sweep is asked for by itself. */
async function rested() {
  if (!swept) return void (inWind() ? settle() : turned());
  if (inWind() && !(swept.xs.includes(choice.wind) && !rowNow()?.pending) && (await askedInWind())) nextFrame(draw);
  await freshEffects();
  return undefined;
}

for (const [name, by] of /** @type {[string, number][]} */ ([["speed", 0.5], ["wind", 1]])) {
  find(name).addEventListener("input", () => setAt(Number(find(name).value)));
  find(`${name}-less`).addEventListener("click", () => setAt(Math.round((at() - by) * 10) / 10));
  find(`${name}-more`).addEventListener("click", () => setAt(Math.round((at() + by) * 10) / 10));
  find(`${name}-number`).addEventListener("change", () => {
    const x = typed(find(`${name}-number`).value);
    if (Number.isFinite(x) && x >= LEAST && x <= GREATEST) setAt(x);
    else fieldFault(`${name}-number`, say(`${name}_fault`));
  });
}

/** Shows what moves the cursor: over boat speed or over the wind. */
function showSweep() {
  for (const name of ["speed", "wind"]) {
    find(`sweep-${name}`).checked = choice.sweep === name;
    find(`of-${name}`).hidden = choice.sweep !== name;
    if (choice.sweep !== name) find(name).setAttribute("aria-valuetext", say("working")); // until it is shown
  }
  find("about-wind").hidden = !inWind();
  find("chart-speed").toggleAttribute("hidden", !inWind());
  find("charts").classList.toggle("four", inWind());
  if (find("angle-number").getAttribute("aria-invalid") !== "true") find("angle-number").value = choice.angle;
  find("measured").value = choice.measured;
}

/** Something else is swept: its state at the cursor first, then all of it. */
async function sweepAnew() {
  swept = null;
  present = PENDING;
  held = null;
  clearTimeout(calm);
  clearTimeout(resting);
  newTurn("wind");
  find("wind-growing").hidden = true;
  over.clear();
  showSweep();
  nextFrame(draw);
  writeChoice(choice);
  if (inWind() && (await askedInWind())) {
    nextFrame(draw);
    resting = setTimeout(settle, 0);
  } else if (!inWind()) await turned();
  over.again();
}

for (const name of /** @type {("speed" | "wind")[]} */ (["speed", "wind"])) {
  find(`sweep-${name}`).addEventListener("change", () => ((choice.sweep = name), sweepAnew()));
}
/** @param {"angle" | "measured"} name @param {string} value */
async function setInWind(name, value) {
  const old = choice[name];
  choice[name] = value;
  const there = await askedInWind();
  // What cannot be read stays in its field with the sentence under it; the wind stays as it was.
  if (!there && find(name === "angle" ? "angle-number" : name).getAttribute("aria-invalid") === "true") choice[name] = old;
  else await sweepAnew();
}
find("angle-number").addEventListener("change", () => setInWind("angle", find("angle-number").value.trim().replace(",", ".").replace("°", "")));
find("measured").addEventListener("change", () => setInWind("measured", find("measured").value));
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

const over = layingOver(() => ({ ...now, swept, speed: inWind() ? rowNow()?.boat_speed_kn ?? choice.speed : choice.speed }), sweepOver, (laid) => ((other = laid), nextFrame(draw)));
const keeper = keeping({
  what: "settings",
  body: () => ({ settings: Object.fromEntries(now.drawn.adjusters.map((/** @type {any} */ one) => [one.name, one.steps])) }),
  after: async () => void ((choice.settings = {}), await turned()),
});

/** The first answers: the boat, and its state at the cursor. */
async function opened() {
  const answer = inWind() ? await about("moved", "/ask/drawing") : await about("moved", "/ask/moved", { speed: speedWords() });
  if (!answer) return false;
  now = answer.drawing ?? answer;
  if (inWind()) return askedInWind();
  present = only(answer.sweep);
  return true;
}

async function begin() {
  find("sailor").value = choice.sailor;
  showSweep();
  let begun = await opened();
  if (!begun) {
    // An address with something wrong in it: the sentence stays, the boat is shown as it is kept.
    find("address-fault").textContent = last.fault;
    find("address-fault").hidden = false;
    if (["angle", "measured", "wind"].includes(last.where)) Object.assign(choice, USUAL);
    else Object.assign(choice, { settings: {}, version: null, sailor: "" });
    showSweep();
    begun = await opened();
    if (!begun) return;
  }
  find("sailor").placeholder = fixed(now.usual_sailor_kg, 0);
  draw();
  document.fonts?.ready.then(() => nextFrame(draw));
  document.body.dataset.ready = "yes";
  const boats = await ask("boats", "/boats");
  over.offer(boats);
  await keeper.refreshed();
  if (inWind()) {
    await freshEffects();
    wholeWind();
  } else {
    const all = await about("sweep", "/ask/sweep");
    if (all && !inWind()) {
      swept = withSpeeds(all);
      present = null;
      draw();
    }
    await freshEffects();
  }
  draw();
  await tellAssumed();
  document.body.dataset.full = "yes";
}

begin().catch(tell);

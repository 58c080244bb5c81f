// Flight: sweep boat speed beside the drawing, turn adjusters, see height, bow, wand and loads answer.

import { ask, send } from "./answers.js";
import { adjusterList, effectWords } from "./adjusters.js";
import { writeChoice } from "./choice.js";
import { joints, reading } from "./chain.js";
import * as astern from "./astern.js";
import * as chart from "./chart.js";
import * as chainDrawing from "./chain.js";
import { degrees, placeIn, radians, touchingWand } from "./geometry.js";
import { handlesOn } from "./handles.js";
import { arrow, spread, text } from "./marks.js";
import { about, choice, fillBoats, find, madeFrom, nextFrame, openNewest, sized, tell } from "./page.js";
import * as side from "./side.js";
import { bow, fixed, metres, newtons, say, signed, spoken, typed } from "./words.js";

const STEP_PIXELS = 18;

/** @type {any} */ let now = null; // drawn, chain
/** @type {any} */ let swept = null; // rows over all speeds
/** @type {any} */ let present = null; // the row at the cursor, where it was asked for by itself
/** @type {any} */ let before = null; // how it flew before the last change
/** @type {any} */ let other = null; // what is laid over it
/** @type {Map<string, any>} */ let effects = new Map();
/** @type {{height?: number, wand?: number} | null} */ let held = null; // what a hand holds: hull or wand
let settingsBefore = /** @type {Record<string, number> | null} */ (null);
let showLoads = true;

const svg = find("side"), layer = find("handles");

/** The counting row at a speed: between two rows of one state the numbers between them. @param {any} answer @param {number} speed */
function rowAt(answer, speed) {
  if (!answer) return null;
  const rows = answer.counts.map((/** @type {number | null} */ i) => (i === null ? null : answer.rows[i]));
  const speeds = answer.speeds;
  const place = placeIn(speeds, speed);
  const a = rows[place.i], b = rows[Math.min(place.i + 1, rows.length - 1)];
  const near = place.share < 0.5 ? a : b;
  if (!a || !b || a.state !== b.state || a.wand_touching !== b.wand_touching) return near;
  const mixed = { ...near };
  for (const key of ["ride_height_m", "trim_deg", "wand_deg", "foil_deg", "main_lift_n", "rudder_lift_n", "buoyancy_n", "drag_n"]) {
    mixed[key] = a[key] + place.share * (b[key] - a[key]);
  }
  return mixed;
}

/** The row that counts of an answer at one speed. @param {any} answer */
const only = (answer) => (answer.counts[0] === null ? null : answer.rows[answer.counts[0]]);

/** A row as the drawing wants it. @param {any} row @param {any} chain @param {any} drawn */
function stateOf(row, chain, drawn) {
  const state = row
    ? { height: row.ride_height_m, trim: radians(row.trim_deg), wand: row.wand_deg, foil: row.foil_deg }
    : { height: 0, trim: 0, wand: chain.aft_stop_deg, foil: reading(chain, chain.aft_stop_deg).foil };
  return { ...state, heel: 0, joints: joints(chain, state.wand), drawn };
}

/** What is drawn now: as it flies, or as a hand holds it. */
function shownState() {
  const state = stateOf(present ?? rowAt(swept, choice.speed), now.chain, now.drawn);
  if (!held) return state;
  if (held.height !== undefined) {
    const lifted = { height: held.height, trim: state.trim };
    const { wand } = touchingWand(now.drawn, now.chain, lifted);
    return { ...state, ...lifted, wand: degrees(wand), foil: reading(now.chain, degrees(wand)).foil, joints: joints(now.chain, degrees(wand)) };
  }
  const wand = held.wand ?? state.wand;
  return { ...state, wand, foil: reading(now.chain, wand).foil, joints: joints(now.chain, wand) };
}

function draw() {
  if (!now) return;
  const row = present ?? rowAt(swept, choice.speed);
  const state = shownState();
  drawSide(row, state);
  drawAstern(state);
  drawChain(state);
  drawCharts();
  tellState(row, state);
  find("speed").value = String(choice.speed);
  find("speed").setAttribute("aria-valuetext", spokenSpeed(row));
  find("speed-number").value = fixed(choice.speed, 1);
}

/** @param {any} row @param {any} state */
function drawSide(row, state) {
  const wide0 = svg.clientWidth, high = Math.round(Math.min(Math.max(wide0 * 0.56, 300), 560));
  const wide = sized(svg, high);
  const on = side.frame(now.drawn, wide, high);
  const pool = side.water(now.drawn, state, on, metres(state.height));
  const parts = [pool.under];
  if (before && before.drawn) parts.push(side.boat(before.drawn, now.chain, before, on, true));
  if (other) parts.push(side.boat(other.drawn, other.chain, stateOf(rowAt(other.swept, choice.speed), other.chain, other.drawn), on, true));
  parts.push(side.boat(now.drawn, now.chain, state, on, false));
  const labels = [];
  if (showLoads && row && !held) {
    const pulled = side.loads(row.arrows ?? [], state, on, newtons);
    parts.push(pulled.marks);
    labels.push(...pulled.labels);
  }
  parts.push(pool.over);
  const handles = handlesOf(state, on);
  const numbers = now.drawn.adjusters.map((/** @type {any} */ one, /** @type {number} */ i) => {
    const at = anchor(one, state, on);
    return text([at[0] + 15, at[1] - 9], String(i + 1), "anchor-number") + effectArrow(one, at);
  });
  parts.push(...numbers);
  for (const label of spread(labels, 14, high - 6)) {
    const half = label.wide / 2;
    parts.push(text([Math.min(Math.max(label.x, half + 4), wide - half - 4), label.y], label.words, "load-name"));
  }
  svg.innerHTML = parts.join("");
  grips.show(handles);
}

/** How far the hull rises or falls for one step more, as a small arrow at the adjuster. @param {any} one @param {[number, number]} at */
function effectArrow(one, at) {
  const effect = effects.get(one.name);
  const change = effect?.one_more.ride_height_change_mm ?? effect?.ride_height_change_mm;
  if (change === null || change === undefined || Math.abs(change) < 1) return "";
  const long = Math.sign(change) * Math.min(Math.max(Math.abs(change) * 0.5, 8), 34);
  const from = /** @type {[number, number]} */ ([at[0] - 17, at[1] + long / 2]), to = /** @type {[number, number]} */ ([at[0] - 17, at[1] - long / 2]);
  return arrow(from, to, "effect");
}

/** @param {any} one @param {any} state @param {any} on @returns {[number, number]} */
function anchor(one, state, on) {
  if (one.name === "wand-length" || one.anchor_on === "wand") return on.place(state, alongWand(state, 0.55));
  return on.place(state, one.anchor);
}

/** @param {any} state @param {number} share @returns {[number, number]} */
function alongWand(state, share) {
  const a = radians(state.wand), p = now.drawn.wand_pivot, l = now.drawn.wand_length_m * share;
  return [p[0] - l * Math.sin(a), p[1] - l * Math.cos(a)];
}

/** @param {any} state @param {any} on */
function handlesOf(state, on) {
  const handles = now.drawn.adjusters.map((/** @type {any} */ one) => {
    const [x, y] = anchor(one, state, on);
    const sailor = one.choice;
    return {
      name: one.name, x, y, value: one.steps, least: one.least, greatest: one.greatest, step: 1, kind: "turn",
      label: spoken(one.name), spoken: adjusterSpoken(one),
      perPixel: sailor ? [-1 / STEP_PIXELS, 0] : [1 / STEP_PIXELS, 1 / STEP_PIXELS],
    };
  });
  const keel = on.place(state, [now.drawn.main_x_m + 0.35, 0.12]);
  handles.push({
    name: "hull", x: keel[0], y: keel[1], value: Math.round(state.height * 100) / 100, least: -0.3, greatest: 1, step: 0.01, kind: "lift",
    label: say("hull"), spoken: say("hull_spoken", { height: metres(state.height) }), perPixel: [0, 1 / on.scale],
  });
  const end = on.place(state, alongWand(state, 0.97)), pivot = on.place(state, now.drawn.wand_pivot);
  handles.push({
    name: "wand", x: end[0], y: end[1], value: Math.round(state.wand * 2) / 2, least: Math.ceil(now.chain.forward_stop_deg), greatest: Math.floor(now.chain.aft_stop_deg),
    step: 0.5, kind: "swing", label: say("wand"), spoken: say("wand_spoken", { wand: fixed(state.wand, 0), foil: signed(state.foil ?? 0, 1) }),
    perPixel: [0, 0], follow: (/** @type {number} */ px, /** @type {number} */ py) => degrees(Math.atan2(pivot[0] - px, py - pivot[1]) + state.trim),
  });
  return handles;
}

/** @param {any} one */
function adjusterSpoken(one) {
  const effect = effects.get(one.name);
  return say("adjuster_spoken", { steps: signed(one.steps, Number.isInteger(one.steps) ? 0 : 1), does: effect ? effectWords(effect) : "" });
}

/** @param {any} state */
function drawAstern(state) {
  const view = find("astern"), high = 260, wide = sized(view, high);
  view.innerHTML = astern.draw(now.drawn, state, wide, high, { windward: say("windward") });
}

/** @param {any} state */
function drawChain(state) {
  const view = find("chain");
  const wide = view.clientWidth || 320;
  const made = chainDrawing.draw(now.chain, now.drawn, state.wand, before?.wand ?? null, wide, { hidden: say("hidden"), foil: say("foil"), wand: say("wand") });
  sized(view, made.plan.high);
  view.innerHTML = made.svg;
  find("chain-scale").textContent = made.scale ? say("chain_scale", { times: fixed(made.scale / side.frame(now.drawn, svg.clientWidth || 600, 400).scale, 0) }) : say("chain_hidden");
}

function drawCharts() {
  if (!swept) return;
  const rows = swept.counts.map((/** @type {number | null} */ i) => (i === null ? null : swept.rows[i]));
  const row = present ?? rowAt(swept, choice.speed);
  const column = (/** @type {string} */ key, /** @type {any[]} */ list = rows) => list.map((one) => (one ? one[key] : null));
  const otherRows = other ? other.swept.counts.map((/** @type {number | null} */ i) => (i === null ? null : other.swept.rows[i])) : null;
  const off = swept.take_off_speed_kn;
  const marks = off ? [{ x: off, words: say("takes_off") }] : [];
  /** @param {string} id @param {string} key @param {string} title @param {(v: number) => string} form */
  const one = (id, key, title, form) => {
    const view = find(id), high = 190, wide = sized(view, high);
    const curves = [{ xs: swept.speeds, ys: column(key), kind: "curve" }];
    if (otherRows) curves.push({ xs: other.swept.speeds, ys: column(key, otherRows), kind: "curve-before" });
    const made = chart.draw({ wide, high, title, unit: "", xUnit: "", curves, cursor: choice.speed, value: row && row[key] !== null ? form(row[key]) : "–", marks });
    view.innerHTML = made.svg;
    view.dataset.from = JSON.stringify({ x0: made.toX(0), per: made.toX(1) - made.toX(0) });
  };
  one("chart-height", "ride_height_m", say("chart_height"), metres);
  one("chart-bow", "trim_deg", say("chart_bow"), bow);
  one("chart-wand", "wand_deg", say("chart_wand"), (v) => `${fixed(v, 0)}°`);
  one("chart-foil", "foil_deg", say(now.drawn.whole_foil ? "chart_foil" : "chart_flap"), (v) => `${signed(v, 1)}°`);
  one("chart-drag", "drag_n", say("chart_drag"), newtons);
  drawParts(row);
}

/** Shares of lift and parts of drag as plain lines of words with a bar. @param {any} row */
function drawParts(row) {
  const list = (/** @type {string} */ id, /** @type {[string, number][]} */ parts) => {
    const place = find(id);
    const total = parts.reduce((sum, [, n]) => sum + Math.abs(n), 0) || 1;
    place.replaceChildren(
      ...parts.filter(([, n]) => Math.abs(n) >= 0.5).map(([name, n]) => {
        const item = document.createElement("li");
        const words = document.createElement("span");
        words.textContent = name;
        const number = document.createElement("span");
        number.className = "figure";
        number.textContent = newtons(n);
        const bar = document.createElement("meter");
        bar.max = total;
        bar.value = Math.abs(n);
        bar.setAttribute("aria-label", name);
        item.append(words, number, bar);
        return item;
      }),
    );
  };
  if (!row || row.main_lift_n === null) return [list("lifts", []), list("drags", [])];
  list("lifts", [[say("main_foil"), row.main_lift_n], [say("rudder_foil"), row.rudder_lift_n], [say("hull_lift"), row.buoyancy_n]]);
  const drags = Object.entries(row.drag_by_part_n ?? {}).map(([name, n]) => /** @type {[string, number]} */ ([name, Number(n)]));
  list("drags", drags.sort((a, b) => b[1] - a[1]));
  return undefined;
}

/** @param {any} row @param {any} state */
function tellState(row, state) {
  const speed = fixed(choice.speed, 1).replace(/\.0$/, "");
  if (held) {
    const what = held.height !== undefined ? "held_hull" : "held_wand";
    find("sentence").textContent = say(what, { height: metres(state.height), wand: fixed(state.wand, 0), foil: signed(state.foil ?? 0, 1) });
    return;
  }
  if (!row || !row.state) {
    const told = swept?.rows.find((/** @type {any} */ one) => Math.abs(one.boat_speed_kn - choice.speed) < 0.26)?.sentence;
    find("sentence").textContent = told || say("no_state", { speed });
    find("limit").textContent = "";
    return;
  }
  find("sentence").textContent = say(`state_${row.state}`, { speed, height: metres(row.ride_height_m), bow: bow(row.trim_deg), wand: fixed(row.wand_deg, 0), foil: signed(row.foil_deg, 1) });
  const key = row.nearest_limit;
  const margin = key ? row.margins[key] : null;
  find("limit").textContent = margin === null || margin === undefined ? "" : say("nearest", { words: say(`margin_${key}`, { value: fixed(margin, key.endsWith("_mm") ? 0 : 1) }) });
  const off = swept?.take_off_speed_kn;
  find("off").textContent = swept ? (off ? say("take_off", { speed: fixed(off, 1) }) : say("no_take_off")) : "";
}

/** @param {any} row */
const spokenSpeed = (row) =>
  say("speed_spoken", { speed: fixed(choice.speed, 1), state: row?.state ? say(`short_${row.state}`, { height: metres(row.ride_height_m), bow: bow(row.trim_deg) }) : say("short_none") });

// Asking ---------------------------------------------------------------------------------------------------

/** The adjuster moved: the drawing at this speed at once, everything else when the hand rests. */
async function turned() {
  const speed = String(Math.round(choice.speed * 100) / 100);
  const [drawing, row] = await Promise.all([about("drawing", "/ask/drawing"), about("row", "/ask/sweep", { speed, take_off: "false" })]);
  if (!drawing || !row) return;
  now = drawing;
  present = only(row);
  nextFrame(draw);
  list.show(now.drawn.adjusters, effects);
  writeChoice(choice);
  settle();
}

let resting = 0;
function settle() {
  clearTimeout(resting);
  resting = setTimeout(async () => {
    const answer = await about("sweep", "/ask/sweep");
    if (!answer) return;
    swept = withSpeeds(answer);
    present = null;
    nextFrame(draw);
    await freshEffects();
  }, 120);
}

/** @param {any} answer */
function withSpeeds(answer) {
  const speeds = /** @type {number[]} */ ([]);
  for (const row of answer.rows) if (!speeds.length || row.boat_speed_kn > speeds[speeds.length - 1] + 1e-6) speeds.push(row.boat_speed_kn);
  return { ...answer, speeds };
}

async function freshEffects() {
  const answer = await about("effects", "/ask/effects", { speed: String(Math.round(choice.speed * 100) / 100) });
  if (!answer) return;
  effects = new Map(answer.rows.map((/** @type {any} */ row) => [row.adjuster, row]));
  list.show(now.drawn.adjusters, effects);
  nextFrame(draw);
}

/** Keeps how it flies now as the thin outline before. */
function remember() {
  before = { ...shownState(), drawn: now.drawn };
  settingsBefore = Object.fromEntries(now.drawn.adjusters.map((/** @type {any} */ one) => [one.name, one.steps]));
}

/** @param {string} name @param {number} steps @param {boolean} first */
function setAdjuster(name, steps, first = true) {
  if (first) remember();
  choice.settings[name] = steps;
  const one = now.drawn.adjusters.find((/** @type {any} */ each) => each.name === name);
  if (one) one.steps = steps;
  held = null;
  turned();
}

function putBack() {
  held = null;
  if (settingsBefore) choice.settings = { ...settingsBefore };
  before = null;
  turned();
}

const list = adjusterList(find("adjusters"), (name, steps) => setAdjuster(name, steps));
const grips = handlesOn(layer, {
  move(name, value, first) {
    if (name === "hull") {
      if (first) remember();
      held = { height: value };
      nextFrame(draw);
    } else if (name === "wand") {
      if (first) remember();
      held = { wand: value };
      nextFrame(draw);
    } else setAdjuster(name, value, first);
  },
  end() {},
  back(name) {
    if (name === "hull" || name === "wand") {
      held = null;
      before = null;
      nextFrame(draw);
    } else putBack();
  },
});

/** @param {number} speed */
function setSpeed(speed) {
  choice.speed = Math.min(Math.max(speed, 4), 24);
  present = null;
  held = null;
  nextFrame(draw);
  writeChoice(choice);
  clearTimeout(calm);
  calm = setTimeout(freshEffects, 150);
}
let calm = 0;

find("speed").addEventListener("input", () => setSpeed(Number(find("speed").value)));
find("speed-number").addEventListener("change", () => {
  const speed = typed(find("speed-number").value);
  const wrong = !Number.isFinite(speed) || speed < 4 || speed > 24;
  find("speed-number").setAttribute("aria-invalid", String(wrong));
  find("speed-fault").hidden = !wrong;
  find("speed-fault").textContent = wrong ? say("speed_fault") : "";
  if (!wrong) setSpeed(speed);
});
find("sailor").addEventListener("change", () => {
  choice.sailor = find("sailor").value.trim();
  turned();
});
find("loads").addEventListener("change", () => {
  showLoads = find("loads").checked;
  nextFrame(draw);
});
find("put-back").addEventListener("click", putBack);
for (const id of ["chart-height", "chart-bow", "chart-wand", "chart-foil", "chart-drag"]) {
  const view = find(id);
  const follow = (/** @type {PointerEvent} */ event) => {
    const { x0, per } = JSON.parse(view.dataset.from ?? '{"x0":4,"per":0.05}');
    setSpeed(Math.round((x0 + per * (event.clientX - view.getBoundingClientRect().left)) * 10) / 10);
  };
  view.addEventListener("pointerdown", (/** @type {PointerEvent} */ event) => (view.setPointerCapture(event.pointerId), follow(event)));
  view.addEventListener("pointermove", (/** @type {PointerEvent} */ event) => event.buttons && follow(event));
}

/** Another boat, or these settings kept, laid over it. */
find("over").addEventListener("change", async () => {
  const name = find("over").value;
  if (!name) other = null;
  else if (name === "=") other = { drawn: now.drawn, chain: now.chain, swept };
  else {
    const words = new URLSearchParams({ boat: name });
    try {
      const [drawing, sweep] = await Promise.all([ask("other-drawing", `/ask/drawing?${words}`), ask("other-sweep", `/ask/sweep?${words}`)]);
      if (drawing && sweep) other = { drawn: drawing.drawn, chain: drawing.chain, swept: withSpeeds(sweep) };
    } catch (fault) {
      tell(fault);
    }
  }
  find("over-note").hidden = !other;
  await fillSame(name);
  nextFrame(draw);
});

/** @param {string} name */
async function fillSame(name) {
  const place = find("same");
  place.hidden = !other;
  if (!other) return;
  const fill = (/** @type {any} */ select, /** @type {any[]} */ adjusters) => {
    select.replaceChildren(...adjusters.filter((one) => !one.choice).map((one) => new Option(spoken(one.name), one.name)));
  };
  fill(find("same-a"), now.drawn.adjusters);
  fill(find("same-b"), other.drawn.adjusters);
  place.dataset.boat = name === "=" ? choice.boat : name;
  await tellSame();
}

async function tellSame() {
  const a = find("same-a").value, b = find("same-b").value;
  if (!a || !b) return;
  const words = new URLSearchParams({ boat_a: choice.boat, adjuster_a: a, boat_b: find("same").dataset.boat, adjuster_b: b, speed: String(choice.speed) });
  if (choice.sailor) words.set("sailor_a", choice.sailor);
  try {
    const answer = await ask("same", `/ask/same-as?${words}`);
    if (!answer) return;
    find("same-words").textContent = answer.steps === null
      ? say("same_none")
      : say("same_words", { a: spoken(a), steps: signed(answer.steps, 1), b: spoken(b), left: leftOver(answer) });
  } catch (fault) {
    tell(fault);
  }
}
find("same-a").addEventListener("change", tellSame);
find("same-b").addEventListener("change", tellSame);

/** @param {any} answer */
function leftOver(answer) {
  const left = answer.left_over ?? {};
  return say("left_over", { height: signed(left.ride_height_change_mm ?? 0), bow: signed(left.trim_change_deg ?? 0, 1) });
}

find("save").addEventListener("submit", async (/** @type {Event} */ event) => {
  event.preventDefault();
  const settings = Object.fromEntries(now.drawn.adjusters.map((/** @type {any} */ one) => [one.name, one.steps]));
  try {
    const saved = await send("save", `/boats/${encodeURIComponent(choice.boat)}/settings`, { settings, made_from: madeFrom(), by: find("by").value });
    if (!saved) return;
    choice.version = saved.version_id;
    choice.settings = {};
    writeChoice(choice);
    find("saved").textContent = say(saved.beside.length ? "saved_beside" : "saved", { others: saved.beside.map((/** @type {any} */ one) => one.made_by).join(", ") });
    find("undo").hidden = false;
    find("undo").dataset.entry = saved.trail_id;
    fillBoats(await ask("boats", "/boats"));
    tell(null);
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
    await turned();
    fillBoats(await ask("boats", "/boats"));
  } catch (fault) {
    tell(fault);
  }
});

/** What was not measured, and what each guess costs. */
async function tellAssumed() {
  const answer = await about("assumed", "/ask/assumed");
  if (!answer) return;
  const told = answer.assumed.filter((/** @type {any} */ one) => one.ride_height_change_mm !== null && Math.abs(one.ride_height_change_mm) >= 1);
  find("assumed").replaceChildren(
    ...told.slice(0, 12).map((/** @type {any} */ one) => {
      const item = document.createElement("li");
      item.textContent = say("guess", { name: one.words ?? one.name, value: one.value, low: one.low, high: one.high, unit: one.unit, mm: fixed(Math.abs(one.ride_height_change_mm), 0) });
      return item;
    }),
  );
  find("assumed-none").hidden = told.length > 0;
}

async function begin() {
  fillBoats(await ask("boats", "/boats"));
  find("sailor").value = choice.sailor;
  const [drawing, sweep] = await Promise.all([about("drawing", "/ask/drawing"), about("row", "/ask/sweep", { speed: String(choice.speed), take_off: "false" })]);
  if (!drawing || !sweep) return;
  now = drawing;
  present = only(sweep);
  if (!choice.sailor) find("sailor").placeholder = fixed(drawing.usual_sailor_kg, 0);
  draw();
  list.show(now.drawn.adjusters, effects);
  document.body.dataset.ready = "yes";
  const all = await about("sweep", "/ask/sweep");
  if (all) {
    swept = withSpeeds(all);
    present = null;
    draw();
  }
  await freshEffects();
  await tellAssumed();
  document.body.dataset.full = "yes";
}

new ResizeObserver(() => nextFrame(draw)).observe(svg);
begin().catch(tell);

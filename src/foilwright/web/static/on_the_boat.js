// Handles on the boat and on the enlarged chain: which part each moves, where it stands, what it says.

import { effectArrows, effectOf, effectWords } from "./adjusters.js";
import { degrees, radians } from "./geometry.js";
import { circle, line, text } from "./marks.js";
import { HALF, placesFor } from "./places.js";
import { FIGURES_FROM, measureBox } from "./side.js";
import { fixed, metres, say, signed, spoken, steps } from "./words.js";

/** @typedef {[number, number]} Point */

const STEP_PIXELS = 18; // of a drag for one step
const FLYING = 0.4, HIGHEST = 0.7, LOWEST = -0.22; // ride heights: where places are sought, and between which [m]
const ROOM = 78; // what an effect's figures take beside a handle [px]
const HULL_LEAST = -0.2, HULL_GREATEST = 0.7;

/** The part that an adjuster moves. @param {any} one @param {any} drawn @param {any} state @param {any} on @returns {Point} */
export function partOf(one, drawn, state, on) {
  const [what, i, side] = one.acts_on.split(" ");
  const joint = state.joints?.[Number(i)];
  if (what === "wand") return on.place(state, alongWand(drawn, state.wand, 0.5));
  if (what === "elastic") return on.place(state, drawn.wand_pivot);
  if (what === "rod" && joint?.out && state.joints[Number(i) + 1]?.in) {
    const a = joint.out, b = state.joints[Number(i) + 1].in;
    return on.place(state, [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]);
  }
  if (what === "crank" && joint?.[side]) return on.place(state, joint[side]);
  return on.place(state, one.anchor);
}

/** @param {any} drawn @param {number} wand degrees @param {number} share @returns {Point} */
function alongWand(drawn, wand, share) {
  const a = radians(wand), p = drawn.wand_pivot, l = drawn.wand_length_m * share;
  return [p[0] - l * Math.sin(a), p[1] - l * Math.cos(a)];
}

const hullPlace = (/** @type {any} */ drawn) =>
  /** @type {Point} */ ([drawn.rudder.foot[0] + 0.5 * (drawn.main_x_m - drawn.rudder.foot[0]), 0.45 * drawn.hull_deck[0][1]]);

let kept = { key: "", offsets: /** @type {Map<string, {x: number, y: number}>} */ (new Map()) };

/** Where every adjuster's handle stands beside the boat: sought once for a boat and a size, so that the
 * handles move with the boat and never jump. @param {any} now @param {any} on @param {any[]} adjusters @param {boolean} ashore @param {boolean} figures */
function offsetsFor(now, on, adjusters, ashore, figures) {
  const { drawn, chain } = now;
  const key = JSON.stringify([adjusters.map((one) => [one.name, one.acts_on]), on.wide, on.high, ashore, figures, drawn.wand_length_m, chain.forward_stop_deg]);
  if (key === kept.key) return kept.offsets;
  const state = { height: ashore ? 0 : FLYING, trim: 0, wand: 45, joints: now.jointsAt(45) };
  const at = (/** @type {Point} */ p) => on.place(state, p);
  // High up, all handles but these are pressed down against the boat by so much.
  const pressed = ashore ? 0 : (HIGHEST - FLYING) * on.scale;
  const grip = (/** @type {Point} */ p) => ({ left: p[0] - HALF, right: p[0] + HALF, top: p[1] - HALF - pressed, bottom: p[1] + HALF });
  const between = (/** @type {Point} */ a, /** @type {Point} */ b, spare = 4) => {
    const [x0, y0] = at(a), [x1, y1] = at(b);
    return { left: Math.min(x0, x1) - spare, right: Math.max(x0, x1) + spare, top: Math.min(y0, y1) - spare, bottom: Math.max(y0, y1) + spare };
  };
  const free = [], soft = [];
  for (let wand = chain.forward_stop_deg; wand <= chain.aft_stop_deg; wand += 5) {
    free.push(grip(at(alongWand(drawn, wand, 0.97))));
    soft.push({ ...grip(at(alongWand(drawn, wand, 0.5))) });
  }
  if (!ashore) {
    free.push(grip(at(hullPlace(drawn))), measureBox(drawn, state, on));
    soft.push(between([drawn.crew[0] - 0.25, drawn.crew[1] + 0.55], [drawn.crew[0] + 0.12, drawn.crew[1] - 0.2], 0));
  }
  const deck = Math.max(...drawn.hull_deck.map((/** @type {Point} */ p) => p[1]));
  const bow = drawn.hull_deck[drawn.hull_deck.length - 1][0];
  soft.push(between([0, deck], [bow, 0]));
  for (const strut of [drawn.main, drawn.rudder]) soft.push(between([strut.foot[0] - 0.1, strut.top[1]], [strut.foot[0] + 0.06, strut.foot[1]]));
  const bounds = ashore
    ? { left: 2, right: on.wide - 2, top: 1, bottom: on.high - 1 }
    : { left: 2, right: on.wide - 2, top: on.above, bottom: on.high - on.below - (FLYING - LOWEST) * on.scale };
  const order = [...adjusters].sort((a, b) => partOf(b, drawn, state, on)[0] - partOf(a, drawn, state, on)[0]);
  const wanted = order.map((one) => {
    const [x, y] = partOf(one, drawn, state, on);
    return { name: one.name, x, y, before: 0, after: figures ? ROOM : 0 };
  });
  const origin = at([drawn.main_x_m, 0]);
  const offsets = new Map([...placesFor(wanted, free, soft, bounds)].map(([name, p]) => [name, { x: p.x - origin[0], y: p.y - origin[1] }]));
  kept = { key, offsets };
  return offsets;
}

/** The handles on the boat, with leaders to their parts and what one step more does beside them.
 * @param {any} now drawn, chain, jointsAt @param {any} state @param {any} on
 * @param {{adjusters: any[], ashore: boolean, effects: Map<string, any>}} how */
export function onTheBoat(now, state, on, how) {
  const { drawn } = now;
  const figures = !how.ashore && on.wide >= FIGURES_FROM;
  const offsets = offsetsFor(now, on, how.adjusters, how.ashore, figures);
  const at = on.place(state, [drawn.main_x_m, 0]);
  // All of them together stay under the rows of words, however high the boat is.
  const ys = [...offsets.values()].map((one) => at[1] + one.y);
  const over = on.above - (Math.min(...ys) - HALF);
  const origin = [at[0], at[1] + (how.ashore ? 0 : Math.max(over, 0))];
  const handles = [], marks = [];
  for (const one of how.adjusters) {
    const part = partOf(one, drawn, state, on), offset = offsets.get(one.name) ?? { x: 0, y: 0 };
    const x = origin[0] + offset.x, y = origin[1] + offset.y;
    if (Math.hypot(x - part[0], y - part[1]) > 14) marks.push(line([[x, y], part], "leader"), circle(part, 3.4, "part-dot"));
    const effect = how.effects.get(one.name);
    if (figures && effect) marks.push(figuresAt(effect, x + 20, y));
    handles.push(adjusterHandle(one, drawn, x, y, effect));
  }
  if (!how.ashore) {
    const [x, y] = on.place(state, hullPlace(drawn));
    handles.push({
      name: "hull", x, y, value: Math.round(state.height * 100) / 100, least: HULL_LEAST, greatest: HULL_GREATEST, step: 0.01, kind: "lift", sign: "",
      label: say("hull"), spoken: say("hull_spoken", { height: metres(state.height) }), perPixel: /** @type {Point} */ ([0, 1 / on.scale]),
    });
  }
  const pivot = on.place(state, drawn.wand_pivot), end = on.place(state, alongWand(drawn, state.wand, 0.97));
  handles.push(wandHandle(now, state, end, pivot));
  return { handles, marks: marks.join("") };
}

/** @param {any} effect @param {number} x @param {number} y */
function figuresAt(effect, x, y) {
  const change = effectOf(effect);
  if (!change) return "";
  if (!change.height && !change.trim) return text([x + 4, y + 5], say("no_change"), "effect-figure");
  const both = change.height && change.trim;
  const out = [];
  if (change.height) {
    const line1 = both ? y - 10 : y;
    out.push(effectArrows({ height: change.height, trim: 0 }, x + 9, line1), text([x + 18, line1 + 5], `${Math.abs(change.height)} mm`, "effect-figure"));
  }
  if (change.trim) {
    const line2 = both ? y + 11 : y;
    out.push(effectArrows({ height: 0, trim: change.trim }, x - 8, line2), text([x + 22, line2 + 5], `${Math.abs(change.trim).toFixed(1)}°`, "effect-figure"));
  }
  return out.join("");
}

/** @param {any} one @param {any} drawn @param {number} x @param {number} y @param {any} effect */
function adjusterHandle(one, drawn, x, y, effect) {
  return {
    name: one.name, x, y, value: one.steps, least: one.least, greatest: one.greatest, step: 1, kind: "grip", sign: String(drawn.adjusters.indexOf(one) + 1),
    label: spoken(one.name), spoken: adjusterSpoken(one, effect),
    // The sailor is dragged aft, which is to the left; everything else turns to more upwards or to the right.
    perPixel: /** @type {Point} */ (one.acts_on === "crew" ? [-1 / STEP_PIXELS, 0] : [1 / STEP_PIXELS, 1 / STEP_PIXELS]),
  };
}

/** @param {any} one @param {any} effect */
const adjusterSpoken = (one, effect) => say("adjuster_spoken", { steps: steps(one.steps), does: effect ? effectWords(effect) : "" });

/** @param {any} now @param {any} state @param {Point} at @param {Point} pivot */
function wandHandle(now, state, at, pivot) {
  return {
    name: "wand", x: at[0], y: at[1], value: Math.round(state.wand * 2) / 2, least: Math.ceil(now.chain.forward_stop_deg * 2) / 2, greatest: Math.floor(now.chain.aft_stop_deg * 2) / 2,
    step: 0.5, kind: "swing", sign: "", label: say("wand"), perPixel: /** @type {Point} */ ([0, 0]),
    spoken: state.foil === null ? say("wand_locked", { wand: fixed(state.wand, 0) }) : say("wand_spoken", { wand: fixed(state.wand, 0), foil: signed(state.foil ?? 0, 1) }),
    follow: (/** @type {number} */ px, /** @type {number} */ py) => degrees(Math.atan2(pivot[0] - px, py - pivot[1]) + (state.trim ?? 0)),
  };
}

/** The handles on the enlarged chain: the wand's lever, and every lever, hole and barrel that an adjuster moves.
 * @param {any} now @param {any} state @param {any} made the drawing of the chain @param {number} wide @param {Map<string, any>} effects */
export function onTheChain(now, state, made, wide, effects) {
  const { grips } = made, { high } = made.plan;
  const handles = [];
  const swing = grips.get("swing"), pivot = grips.get("wand pivot");
  if (swing && pivot) handles.push(wandHandle(now, { ...state, trim: 0 }, swing, pivot));
  for (const one of now.drawn.adjusters) {
    const at = grips.get(one.acts_on);
    if (at) handles.push(adjusterHandle(one, now.drawn, at[0], at[1], effects.get(one.name)));
  }
  return apart(handles, wide, high);
}

/** Moves handles of one window off each other. @param {any[]} handles @param {number} wide @param {number} high */
function apart(handles, wide, high) {
  const near = 2 * HALF + 1;
  for (let round = 0; round < 12; round += 1) {
    for (let i = 1; i < handles.length; i += 1) {
      for (let k = 0; k < i; k += 1) {
        const a = handles[i], b = handles[k], dx = a.x - b.x, dy = a.y - b.y;
        if (Math.abs(dx) >= near || Math.abs(dy) >= near) continue;
        if (Math.abs(dx) > Math.abs(dy)) (a.x += ((near - Math.abs(dx)) / 2 + 0.1) * (dx < 0 ? -1 : 1)), (b.x -= ((near - Math.abs(dx)) / 2 + 0.1) * (dx < 0 ? -1 : 1));
        else (a.y += ((near - Math.abs(dy)) / 2 + 0.1) * (dy < 0 ? -1 : 1)), (b.y -= ((near - Math.abs(dy)) / 2 + 0.1) * (dy < 0 ? -1 : 1));
      }
      const one = handles[i];
      one.x = Math.min(Math.max(one.x, HALF), wide - HALF);
      one.y = Math.min(Math.max(one.y, HALF), high - HALF);
    }
  }
  return handles;
}

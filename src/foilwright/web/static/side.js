// The boat to scale in side view, bow to the right: one pure function of what is drawn and how it flies.

import { labelled, width } from "./labels.js";
import { overWater, radians, wandTip } from "./geometry.js";
import { arrow, box, circle, line, shape, text } from "./marks.js";

/** @typedef {[number, number]} Point */

const HEAD = 0.6; // over the centre of the crew [m]
const HIGHEST = 0.64, LOWEST = -0.22; // ride heights that stay in view [m]
const ROW = 20; // of words [px]
const WEIGHT_ARROW = 1.2; // how long the heaviest load is drawn [m]
const NARROW = 300, FOR_HANDLES = 100; // in a drawing narrower than this they want so much room over the boat [px]
const BESIDE = 62, WITH_FIGURES = 146; // room ahead of the wand's pivot for a handle, and for one with its figures [px]
export const FIGURES_FROM = 560; // drawings as wide as this have figures beside their handles [px]

/** From metres to the page: the same for every state, so that nothing jumps. With `alone` the boat stands
 * ashore and is framed by itself. @param {any} drawn @param {number} wide @param {number} most @param {boolean} [alone] */
export function frame(drawn, wide, most, alone = false) {
  const left = Math.min(drawn.rudder.foot[0] - 0.28, 0) - drawn.main_x_m;
  const right = drawn.wand_pivot[0] + 0.04 - drawn.main_x_m;
  const deck = Math.max(...drawn.hull_deck.map((/** @type {Point} */ p) => p[1]), drawn.wand_pivot[1]);
  const foot = Math.min(drawn.main.foot[1], drawn.rudder.foot[1], alone ? drawn.wand_pivot[1] - drawn.wand_length_m : 0);
  const top = alone ? deck + 0.1 : drawn.crew[1] + HEAD + HIGHEST;
  const bottom = foot + (alone ? 0 : LOWEST) - 0.1;
  const rowsAbove = alone ? 0 : Math.ceil(470 / (wide - 16)), rowsBelow = alone ? 0 : Math.ceil(600 / (wide - 16));
  const above = alone ? 54 : rowsAbove * ROW + 8, below = alone ? 26 : rowsBelow * ROW + 8;
  const over = wide < NARROW ? FOR_HANDLES : 0;
  const beside = alone || wide < FIGURES_FROM ? BESIDE : WITH_FIGURES;
  const scale = Math.min((wide - beside - 8) / (right - left), (most - above - below - over) / (top - bottom));
  const high = Math.round(above + over + below + (top - bottom) * scale);
  // Handles with their figures want room ahead of the bow.
  const spare = Math.max(wide - beside - scale * (right - left), 0) * 0.2 + 4;
  const water = above + over + top * scale;
  return {
    scale, water, wide, high, above, below,
    place: (/** @type {any} */ state, /** @type {Point} */ point) => {
      const [x, z] = overWater(point, drawn.main_x_m, state);
      return /** @type {Point} */ ([spare + (x - left) * scale, water - z * scale]);
    },
  };
}

/** The boat: hull, foils, rig, crew, chain, wand; or its outline alone.
 * @param {any} drawn @param {any} chain @param {any} state @param {any} on a frame
 * @param {{outline?: string, ashore?: boolean}} [how] `outline` names the kind of thin line
 * @returns {string[]} in layers: what a swinging wand leaves alone, and what it moves */
export function boat(drawn, chain, state, on, how = {}) {
  const at = (/** @type {Point} */ p) => on.place(state, p);
  const outline = how.outline;
  const kind = (/** @type {string} */ name) => outline ?? name;
  const marks = [];
  if (!outline && !how.ashore) {
    marks.push(line([at(drawn.mast_foot), at(drawn.mast_top)], "faint"));
    marks.push(line([at([drawn.mast_foot[0], drawn.clew[1]]), at(drawn.clew), at(drawn.mast_top)], "faint"));
  }
  marks.push(...strut(drawn.rudder, 0, false, at, kind, !!outline));
  const turning = strut(drawn.main, radians(state.foil ?? 0), drawn.whole_foil, at, kind, !!outline);
  const hull = [...drawn.hull_bottom, ...[...drawn.hull_deck].reverse()].map(at);
  marks.push(shape(hull, kind("hull")));
  if (!outline && !how.ashore) marks.push(...crew(drawn, at, on.scale));
  const swinging = outline ? [] : rods(drawn, chain, state, at);
  const wand = radians(state.wand);
  const end = wandTip(drawn.wand_pivot, drawn.wand_length_m, wand);
  const paddle = wandTip(drawn.wand_pivot, drawn.wand_length_m - drawn.paddle_length_m, wand);
  swinging.push(line([at(drawn.wand_pivot), at(end)], kind("wand")));
  if (!outline) swinging.push(line([at(paddle), at(end)], "paddle"), circle(at(drawn.wand_pivot), 4, "joint"));
  return [turning.join(""), marks.join(""), swinging.join("")];
}

/** @param {any} one @param {number} turned @param {boolean} whole @param {(p: Point) => Point} at
 *  @param {(name: string) => string} kind @param {boolean} outline */
function strut(one, turned, whole, at, kind, outline) {
  const [x, top] = one.top, [, foot] = one.foot;
  const ahead = 0.25 * one.chord_m, behind = 0.75 * one.chord_m;
  const marks = [shape([at([x + ahead, top]), at([x + ahead, foot]), at([x - behind, foot]), at([x - behind, top])], kind("strut"))];
  if (!outline) {
    for (const [sx, sz] of one.stripes) {
      marks.push(shape([at([sx + ahead, sz + 0.01]), at([sx + ahead, sz - 0.01]), at([sx - behind, sz - 0.01]), at([sx - behind, sz + 0.01])], "stripe"));
    }
  }
  const incidence = radians(one.incidence_deg) + (whole ? turned : 0);
  const along = (/** @type {number} */ aft, /** @type {number} */ up, /** @type {number} */ angle) =>
    at([x - aft * Math.cos(angle) - up * Math.sin(angle), foot - aft * Math.sin(angle) + up * Math.cos(angle)]);
  const chord = one.foil_chord_m, thick = 0.07 * chord, hinge = 0.75 * chord - one.flap_share * chord;
  const fixedEnd = one.flap_share > 0 ? hinge : 0.75 * chord, end = one.flap_share > 0 ? 0.55 * thick : 0;
  const foil = /** @type {Point[]} */ ([
    along(-0.25 * chord, 0, incidence), along(-0.1 * chord, thick, incidence), along(fixedEnd, end, incidence),
    along(fixedEnd, -end, incidence), along(-0.1 * chord, -thick, incidence),
  ]);
  marks.push(shape(foil, kind("foil")));
  if (one.flap_share > 0) {
    // The trailing edge goes down with the flap: it turns about its hinge.
    const [hx, hz] = [x - hinge * Math.cos(incidence), foot - hinge * Math.sin(incidence)];
    const angle = incidence + turned, back = one.flap_share * chord;
    const p = (/** @type {number} */ aft, /** @type {number} */ up) =>
      at([hx - aft * Math.cos(angle) - up * Math.sin(angle), hz - aft * Math.sin(angle) + up * Math.cos(angle)]);
    marks.push(shape([p(0, 0.55 * thick), p(back, 0), p(0, -0.55 * thick)], kind("flap")));
  }
  return marks;
}

/** A plain figure about the centre of each sailor, on a rack. @param {any} drawn @param {(p: Point) => Point} at @param {number} scale */
function crew(drawn, at, scale) {
  const marks = [line([at([drawn.crew[0] - 0.75, drawn.crew[1] - 0.22]), at([drawn.crew[0] + 0.7, drawn.crew[1] - 0.22])], "rack")];
  for (let i = 0; i < drawn.crew_heads; i += 1) {
    const x = drawn.crew[0] + (drawn.crew_heads > 1 ? 0.55 * (i - 0.5) : 0), z = drawn.crew[1];
    marks.push(line([at([x - 0.1, z + 0.32]), at([x - 0.05, z - 0.12]), at([x + 0.28, z - 0.05]), at([x + 0.4, z - 0.34])], "sailor"));
    marks.push(circle(at([x - 0.12, z + 0.45]), Math.max(0.1 * scale, 3), "head"));
  }
  return marks;
}

/** Every rod and crank where it is, or the hidden box. @param {any} drawn @param {any} chain @param {any} state @param {(p: Point) => Point} at */
function rods(drawn, chain, state, at) {
  if (chain.hidden) {
    const high = drawn.wand_pivot[1];
    const corners = /** @type {Point[]} */ ([
      [drawn.main.top[0], high + 0.02], [drawn.wand_pivot[0] - 0.15, high + 0.02], [drawn.wand_pivot[0] - 0.15, high - 0.12], [drawn.main.top[0], high - 0.12],
    ]);
    return [shape(corners.map(at), "hidden")];
  }
  const marks = [];
  const joints = state.joints ?? [];
  for (let i = 0; i + 1 < joints.length; i += 1) {
    if (joints[i].out && joints[i + 1].in) marks.push(line([at(joints[i].out), at(joints[i + 1].in)], "rod"));
  }
  for (const joint of joints) {
    for (const end of [joint.in, joint.out]) if (end) marks.push(line([at(joint.pivot), at(end)], "crank"));
    marks.push(circle(at(joint.pivot), 2.4, "joint"));
  }
  return marks;
}

/** The water under the boat, and how high the keel is over it. @param {any} drawn @param {any} state @param {any} on @param {string} words */
export function water(drawn, state, on, words) {
  const x0 = drawn.rudder.foot[0], reach = drawn.main_x_m - x0;
  const keel = on.place(state, [x0 + 0.2 * reach, 0]);
  const under = [box(0, on.water, on.wide, on.high - on.water, "water"), line([[0, on.water], [on.wide, on.water]], "surface")];
  const gap = on.water - keel[1];
  if (Math.abs(gap) < 8) return { under: under.join(""), over: "" };
  const over = [line([keel, [keel[0], on.water]], "measure"), line([[keel[0] - 5, keel[1]], [keel[0] + 5, keel[1]]], "measure"), line([[keel[0] - 5, on.water], [keel[0] + 5, on.water]], "measure")];
  if (gap > 24) over.push(text([keel[0] + 8, (keel[1] + on.water) / 2 + 6], words, "figure"));
  return { under: under.join(""), over: over.join("") };
}

/** Where the height's figure stands, so that no handle is put there. @param {any} drawn @param {any} state @param {any} on */
export function measureBox(drawn, state, on) {
  const keel = on.place(state, [drawn.rudder.foot[0] + 0.2 * (drawn.main_x_m - drawn.rudder.foot[0]), 0]);
  return { left: keel[0] - 8, right: keel[0] + 8 + width("-0.00 m"), top: keel[1], bottom: on.water };
}

const UNDER = ["main foil", "rudder foil", "drag", "buoyancy", "planing"];

const RIG = ["pull", "sail"]; // the pull of a sweep over speed, the sail in a wind

/** The loads: one ink, length and word; the words stand in rows over and under the boat.
 * @param {any[]} arrows @param {any} state @param {any} on @param {(name: string, n: number, up: number | null) => string} words
 * @param {{words: string, x: number, to: Point}[]} more labels that stand in the upper rows too */
export function loads(arrows, state, on, words, more) {
  const marks = /** @type {string[]} */ ([]);
  const above = [...more], below = /** @type {typeof more} */ ([]);
  const c = Math.cos(state.trim), s = Math.sin(state.trim);
  const heaviest = Math.max(1, ...arrows.map((one) => Math.abs(one.up_n)));
  for (const one of arrows) {
    const forward = one.forward_n * c - one.up_n * s, up = one.forward_n * s + one.up_n * c;
    const size = Math.hypot(forward, up), per = (WEIGHT_ARROW / heaviest) * on.scale;
    let from = on.place(state, one.at);
    // Far up in the sail: drawn at the upper edge, its true height told.
    const over = RIG.includes(one.name) && from[1] < on.above + 8 ? (on.water - from[1]) / on.scale : null;
    if (RIG.includes(one.name)) from = [from[0], Math.max(from[1], on.above + 8)];
    const to = /** @type {Point} */ ([from[0] + forward * per, from[1] - up * per]);
    if (size * per >= 4) marks.push(arrow(from, to, "load", true));
    else marks.push(circle(from, 3, "load-head"));
    const label = { words: words(one.name, size, over), x: from[0], to: from };
    if (UNDER.includes(one.name)) below.push({ ...label, to: up < -1 && to[1] > from[1] ? to : from });
    else above.push(RIG.includes(one.name) ? { ...label, x: to[0], to: [(from[0] + to[0]) / 2, from[1]] } : label);
  }
  const upper = labelled(above, { left: 4, right: on.wide - 4, y: 17, down: false });
  const lower = labelled(below, { left: 4, right: on.wide - 4, y: on.high - 8, down: true });
  return { marks: upper.leaders + lower.leaders + marks.join(""), words: upper.words + lower.words };
}

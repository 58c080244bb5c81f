// The boat to scale in side view, bow to the right: one pure function of what is drawn and how it flies.

import { overWater, radians, wandTip } from "./geometry.js";
import { arrow, box, circle, line, shape, text } from "./marks.js";

/** @typedef {[number, number]} Point */

const SKY = 0.62; // over the centre of the crew [m]
const HIGHEST = 0.75, LOWEST = -0.25; // ride heights that stay in view [m]
const NEWTONS = 900; // one metre of arrow [N]

/** From metres to the page: the same for every state, so that nothing jumps.
 * @param {any} drawn @param {number} wide @param {number} high */
export function frame(drawn, wide, high) {
  const left = Math.min(drawn.rudder.foot[0] - 0.35, drawn.clew[0], 0) - drawn.main_x_m;
  const right = drawn.wand_pivot[0] + 0.4 - drawn.main_x_m;
  const top = drawn.crew[1] + SKY + HIGHEST;
  const bottom = Math.min(drawn.main.foot[1], drawn.rudder.foot[1]) + LOWEST - 0.12;
  const scale = Math.min(wide / (right - left), high / (top - bottom));
  const spare = wide - scale * (right - left);
  const water = top * scale + (high - scale * (top - bottom)) / 2;
  return {
    scale,
    water,
    wide,
    high,
    place: (/** @type {any} */ state, /** @type {Point} */ point) => {
      const [x, z] = overWater(point, drawn.main_x_m, state);
      return /** @type {Point} */ ([spare / 2 + (x - left) * scale, water - z * scale]);
    },
  };
}

/** Everything of the boat that does not move against it, and its foils.
 * @param {any} drawn @param {any} chain @param {any} state @param {any} on a frame @param {boolean} outline */
export function boat(drawn, chain, state, on, outline) {
  const at = (/** @type {Point} */ p) => on.place(state, p);
  const kind = (/** @type {string} */ name) => (outline ? "before" : name);
  const marks = [];
  if (!outline) {
    marks.push(line([at(drawn.mast_foot), at(drawn.mast_top)], "faint"));
    marks.push(line([at([drawn.mast_foot[0], drawn.clew[1]]), at(drawn.clew), at(drawn.mast_top)], "faint"));
  }
  marks.push(...strut(drawn.rudder, 0, false, at, kind, outline));
  marks.push(...strut(drawn.main, radians(state.foil ?? 0), drawn.whole_foil, at, kind, outline));
  const hull = [...drawn.hull_bottom, ...[...drawn.hull_deck].reverse()].map(at);
  marks.push(shape(hull, kind("hull")));
  if (!outline) {
    marks.push(...crew(drawn, at, on.scale));
    marks.push(...rods(drawn, chain, state, at));
  }
  const end = wandTip(drawn.wand_pivot, drawn.wand_length_m, radians(state.wand));
  const paddle = wandTip(drawn.wand_pivot, drawn.wand_length_m - drawn.paddle_length_m, radians(state.wand));
  marks.push(line([at(drawn.wand_pivot), at(end)], kind("wand")));
  if (!outline) marks.push(line([at(paddle), at(end)], "paddle"), circle(at(drawn.wand_pivot), 4, "joint"));
  return marks.join("");
}

/** @param {any} one @param {number} turned @param {boolean} whole @param {(p: Point) => Point} at
 *  @param {(name: string) => string} kind @param {boolean} outline */
function strut(one, turned, whole, at, kind, outline) {
  const [x, top] = one.top, [, foot] = one.foot;
  const ahead = 0.25 * one.chord_m, behind = 0.75 * one.chord_m;
  const marks = [shape([at([x + ahead, top]), at([x + ahead, foot]), at([x - behind, foot]), at([x - behind, top])], kind("strut"))];
  if (!outline) {
    for (const [sx, sz] of one.stripes) {
      marks.push(shape([at([sx + ahead, sz + 0.012]), at([sx + ahead, sz - 0.012]), at([sx - behind, sz - 0.012]), at([sx - behind, sz + 0.012])], "stripe"));
    }
  }
  const incidence = radians(one.incidence_deg) + (whole ? turned : 0);
  const along = (/** @type {number} */ aft, /** @type {number} */ up, /** @type {number} */ angle) =>
    at([x - aft * Math.cos(angle) - up * Math.sin(angle), foot - aft * Math.sin(angle) + up * Math.cos(angle)]);
  const chord = one.foil_chord_m, thick = 0.06 * chord, hinge = 0.75 * chord - one.flap_share * chord;
  const fixedEnd = one.flap_share > 0 ? hinge : 0.75 * chord;
  const foil = /** @type {Point[]} */ ([
    along(-0.25 * chord, 0, incidence), along(-0.1 * chord, thick, incidence), along(fixedEnd, 0.55 * thick, incidence),
    along(fixedEnd, -0.55 * thick, incidence), along(-0.1 * chord, -thick, incidence),
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

/** A plain figure about the centre of each sailor. @param {any} drawn @param {(p: Point) => Point} at @param {number} scale */
function crew(drawn, at, scale) {
  const marks = [];
  for (let i = 0; i < drawn.crew_heads; i += 1) {
    const x = drawn.crew[0] + (drawn.crew_heads > 1 ? 0.55 * (i - 0.5) : 0), z = drawn.crew[1];
    marks.push(line([at([x - 0.12, z + 0.33]), at([x - 0.05, z - 0.1]), at([x + 0.3, z - 0.04]), at([x + 0.42, z - 0.34])], "sailor"));
    marks.push(circle(at([x - 0.14, z + 0.47]), Math.max(0.1 * scale, 3), "head"));
  }
  return marks;
}

/** Every crank and rod where it is; or the box that hides them. @param {any} drawn @param {any} chain
 *  @param {any} state @param {(p: Point) => Point} at */
function rods(drawn, chain, state, at) {
  if (chain.hidden) {
    const left = at([drawn.main.top[0], drawn.wand_pivot[1] + 0.03]), right = at([drawn.wand_pivot[0] - 0.15, drawn.wand_pivot[1] - 0.05]);
    return [box(left[0], left[1], right[0] - left[0], Math.max(right[1] - left[1], 4), "hidden")];
  }
  const marks = [];
  const joints = state.joints ?? [];
  for (let i = 0; i + 1 < joints.length; i += 1) {
    if (joints[i].out && joints[i + 1].in) marks.push(line([at(joints[i].out), at(joints[i + 1].in)], "rod"));
  }
  for (const joint of joints) {
    for (const end of [joint.in, joint.out]) if (end) marks.push(line([at(joint.pivot), at(end)], "crank"));
    marks.push(circle(at(joint.pivot), 2.2, "joint"));
  }
  return marks;
}

/** The water, and how high the keel is over it. @param {any} drawn @param {any} state @param {any} on @param {string} words */
export function water(drawn, state, on, words) {
  const keel = on.place(state, [drawn.main_x_m, 0]);
  const x = Math.min(Math.max(keel[0] - 0.55 * on.scale, 24), on.wide - 130);
  const marks = [box(0, on.water, on.wide, on.high - on.water, "water"), line([[0, on.water], [on.wide, on.water]], "surface")];
  const label = /** @type {string[]} */ ([]);
  if (Math.abs(keel[1] - on.water) > 6) {
    label.push(line([[x, keel[1]], [x, on.water]], "measure"), line([[x - 5, keel[1]], [x + 5, keel[1]]], "measure"));
    label.push(text([x + 8, (keel[1] + on.water) / 2 + 6], words, "figure"));
  }
  return { under: marks.join(""), over: label.join("") };
}

/** The loads: one ink, length and word. @param {any[]} arrows @param {any} state @param {any} on @param {(n: number) => string} newtons */
export function loads(arrows, state, on, newtons) {
  const marks = /** @type {string[]} */ ([]), labels = [];
  const c = Math.cos(state.trim), s = Math.sin(state.trim);
  for (const one of arrows) {
    const from = on.place(state, one.at);
    const forward = one.forward_n * c - one.up_n * s, up = one.forward_n * s + one.up_n * c;
    const to = /** @type {Point} */ ([from[0] + (forward / NEWTONS) * on.scale, from[1] - (up / NEWTONS) * on.scale]);
    if (Math.hypot(to[0] - from[0], to[1] - from[1]) < 6) continue;
    marks.push(arrow(from, to));
    const words = `${one.name} ${newtons(Math.hypot(forward, up))}`;
    labels.push({ words, x: to[0], y: to[1] + (up < 0 ? 18 : -8), wide: words.length * 7.6, high: 18 });
  }
  return { marks: marks.join(""), labels };
}

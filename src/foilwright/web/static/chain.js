// The chain enlarged: each turning part in a window of its own, all to one stated scale, the rods cut short;
// or the hidden box where only a measured curve is known.

import { between, placeIn, radians, tip } from "./geometry.js";
import { box, circle, line, shape, text } from "./marks.js";

/** @typedef {[number, number]} Point */

/** Every joint at a wand angle: pivot and the tips of its arms.
 * @param {any} chain @param {number} wandDegrees */
export function joints(chain, wandDegrees) {
  const place = placeIn(chain.wand_deg, wandDegrees);
  return chain.cranks.map((/** @type {any} */ crank) => {
    const turn = radians(between(crank.turn_deg, place) ?? 0);
    return {
      name: crank.name,
      pivot: crank.pivot,
      in: crank.in_arm && tip(crank.pivot, crank.in_arm, turn),
      out: crank.out_arm && tip(crank.pivot, crank.out_arm, turn),
    };
  });
}

/** What the chain does at a wand angle. @param {any} chain @param {number} wandDegrees */
export function reading(chain, wandDegrees) {
  const place = placeIn(chain.wand_deg, wandDegrees);
  const near = place.share < 0.5 ? place.i : place.i + 1;
  return {
    foil: between(chain.foil_deg, place),
    gearing: between(chain.gearing, place),
    slop: between(chain.slop_deg, place),
    edge: between(chain.edge_mm, place),
    stop: chain.stop[near],
    locked: chain.foil_deg[near] === null,
  };
}

/** How many windows fit side by side, and how high the drawing is. @param {any} chain @param {number} wide */
export function layout(chain, wide) {
  if (chain.hidden) return { columns: 1, high: 150, each: wide, tall: 150 };
  const count = chain.cranks.length;
  const columns = Math.min(count, Math.max(1, Math.floor(wide / 150)));
  const tall = 190;
  return { columns, high: Math.ceil(count / columns) * tall, each: wide / columns, tall };
}

/** The largest scale at which every part fits its window at every wand angle [px per metre].
 * @param {any} chain @param {number} each @param {number} tall */
export function scaleOf(chain, each, tall) {
  let longest = 0.01;
  for (const crank of chain.cranks) {
    for (const arm of [crank.in_arm, crank.out_arm]) if (arm) longest = Math.max(longest, arm[0]);
  }
  return Math.min(each / 2 - 26, tall / 2 - 40) / longest;
}

/** The whole drawing. `outline` is the wand angle before a change, or null.
 * @param {any} chain @param {any} drawn @param {number} wandDegrees @param {number | null} outline
 * @param {number} wide @param {any} words */
export function draw(chain, drawn, wandDegrees, outline, wide, words) {
  const plan = layout(chain, wide);
  if (chain.hidden) return { svg: hiddenBox(wide, plan.high, words), plan, scale: 0, centres: [] };
  const scale = scaleOf(chain, plan.each, plan.tall);
  const present = joints(chain, wandDegrees);
  const before = outline === null ? null : joints(chain, outline);
  const marks = [], centres = /** @type {Point[]} */ ([]);
  const last = present.length - 1;
  for (let i = 0; i <= last; i += 1) {
    const place = last - i; // the horn stands aft, so it is drawn on the left
    const left = (place % plan.columns) * plan.each, top = Math.floor(place / plan.columns) * plan.tall;
    const middle = /** @type {Point} */ ([left + plan.each / 2, top + (plan.tall - 30) / 2]);
    centres[i] = middle;
    const at = (/** @type {Point} */ p) => /** @type {Point} */ ([
      middle[0] + (p[0] - present[i].pivot[0]) * scale, middle[1] - (p[1] - present[i].pivot[1]) * scale,
    ]);
    const edge = { left: left + 4, top: top + 4, right: left + plan.each - 4, bottom: top + plan.tall - 34 };
    if (place % plan.columns > 0) marks.push(line([[left, top + 10], [left, top + plan.tall - 40]], "divider"));
    for (const [mine, other, number] of [
      [present[i].in, i > 0 ? present[i - 1].out : null, i],
      [present[i].out, i < last ? present[i + 1].in : null, i + 1],
    ]) {
      if (mine && other) marks.push(...cutRod(at(mine), at(other), edge, number));
    }
    if (before) {
      for (const end of [before[i].in, before[i].out]) if (end) marks.push(line([at(before[i].pivot), at(end)], "before"));
    }
    if (i === 0) {
      const a = radians(wandDegrees);
      const down = /** @type {Point} */ ([middle[0] - Math.sin(a) * 400, middle[1] + Math.cos(a) * 400]);
      marks.push(line([middle, inside(middle, down, edge)], "wand"));
    }
    if (i === last) marks.push(foilStub(drawn, reading(chain, wandDegrees).foil ?? 0, middle, scale, edge));
    for (const end of [present[i].in, present[i].out]) {
      if (end) marks.push(line([at(present[i].pivot), at(end)], "arm"), circle(at(end), 4, "joint"));
    }
    marks.push(circle(middle, 6, "pivot"), text([middle[0], top + plan.tall - 12], present[i].name.replaceAll("-", " "), "part-name"));
  }
  return { svg: marks.join(""), plan, scale, centres };
}

/** A line as far as it stays in its window. @param {Point} from @param {Point} to @param {any} edge @returns {Point} */
function inside(from, to, edge) {
  let share = 1;
  const dx = to[0] - from[0], dy = to[1] - from[1];
  if (dx > 0) share = Math.min(share, (edge.right - from[0]) / dx);
  if (dx < 0) share = Math.min(share, (edge.left - from[0]) / dx);
  if (dy > 0) share = Math.min(share, (edge.bottom - from[1]) / dy);
  if (dy < 0) share = Math.min(share, (edge.top - from[1]) / dy);
  share = Math.max(share, 0);
  return [from[0] + share * dx, from[1] + share * dy];
}

/** @param {Point} from @param {Point} to @param {any} edge @param {number} number */
function cutRod(from, to, edge, number) {
  const end = inside(from, to, edge);
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  const ux = (to[0] - from[0]) / length, uy = (to[1] - from[1]) / length;
  const cut = /** @type {Point[]} */ ([[end[0] - uy * 6 - ux * 4, end[1] + ux * 6 - uy * 4], [end[0] + uy * 6, end[1] - ux * 6]]);
  const beside = /** @type {Point} */ ([end[0] - ux * 20 - uy * 13, end[1] - uy * 20 + ux * 13 + 5]);
  return [line([from, end], "rod"), line(cut, "cut"), text(beside, String(number), "rod-number")];
}

/** What the horn turns, cut at the window. @param {any} drawn @param {number} foilDegrees @param {Point} middle */
function foilStub(drawn, foilDegrees, middle, /** @type {number} */ scale, /** @type {any} */ edge) {
  const a = radians(foilDegrees), long = Math.min((drawn.main.flap_share || 0.7) * drawn.main.foil_chord_m * scale, 300);
  const far = /** @type {Point} */ ([middle[0] - long * Math.cos(a), middle[1] + long * Math.sin(a)]);
  const end = inside(middle, far, edge), half = 7;
  return shape([[middle[0], middle[1] - half], end, [middle[0], middle[1] + half]], "flap-stub");
}

/** @param {number} wide @param {number} high @param {any} words */
function hiddenBox(wide, high, words) {
  const x = wide * 0.2, y = high / 2 - 32;
  return (
    line([[12, high / 2], [x, high / 2]], "rod") + line([[wide - x, high / 2], [wide - 12, high / 2]], "rod") +
    box(x, y, wide - 2 * x, 64, "hidden") + text([wide / 2, high / 2 + 5], words.hidden, "part-name") +
    text([12, high / 2 - 12], words.foil, "start-name") + text([wide - 12, high / 2 - 12], words.wand, "end-name")
  );
}

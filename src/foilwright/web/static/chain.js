// The chain enlarged: each turning part in a window of its own, all to one stated scale, the rods cut short;
// or the hidden box where only a measured curve is known.

import { between, placeIn, radians, tip } from "./geometry.js";
import { width, wrapped } from "./labels.js";
import { box, circle, line, shape, text } from "./marks.js";

/** @typedef {[number, number]} Point */

const GRIP = 48, EDGE = 26; // room beyond a tip, with a handle there and without [px]
const CLEAR = 27; // from the middle of a handle to that of a letter [px]
const LEAST_SCALE = 40; // however narrow the page is [px per metre]

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

/** The windows: as many side by side as make the parts largest. Without a height they take what they need.
 * @param {any} chain @param {any} drawn @param {number} wide @param {number | null} most */
export function layout(chain, drawn, wide, most) {
  if (chain.hidden) return { columns: 1, high: Math.min(most ?? 150, 150), each: wide, tall: 150, scale: 0, name: 26 };
  const count = chain.cranks.length, sizes = extents(chain, drawn);
  const fewest = most === null ? Math.min(count, Math.max(1, Math.floor(wide / 165))) : 1;
  let best = { columns: 1, high: most ?? 200, each: wide, tall: most ?? 200, scale: 0, name: 26 };
  for (let columns = fewest; columns <= (most === null ? fewest : count); columns += 1) {
    const rows = Math.ceil(count / columns), each = wide / columns, tall = most === null ? 170 + nameRoom(chain, each) : Math.floor(most / rows);
    const name = nameRoom(chain, each);
    const scale = Math.min(...sizes.map((/** @type {any} */ one) => Math.min((each - one.room[0]) / one.wide, (tall - name - one.room[1]) / one.high)));
    if (most === null || scale > best.scale) best = { columns, high: most ?? rows * tall, each, tall, scale: Math.max(scale, LEAST_SCALE), name };
  }
  // No room beside the boat, as with long names in a large type: then the windows take what they need.
  return best.scale > 0 ? best : layout(chain, drawn, wide, null);
}

/** Room for the longest name under a part [px]. @param {any} chain @param {number} each */
const nameRoom = (chain, each) => 8 + 18 * Math.max(...chain.cranks.map((/** @type {any} */ one) => wrapped(one.name.replaceAll("-", " "), each - 8).length));

const known = /** @type {WeakMap<any, any[]>} */ (new WeakMap());

/** What every part takes over the wand's whole swing, about its pivot, and the room that its handles want.
 * @param {any} chain @param {any} drawn @returns {any[]} */
function extents(chain, drawn) {
  const found = known.get(chain) ?? sought(chain, drawn);
  known.set(chain, found);
  return found;
}

/** @param {any} chain @param {any} drawn */
function sought(chain, drawn) {
  const moved = new Set(drawn.adjusters.map((/** @type {any} */ one) => one.acts_on));
  return chain.cranks.map((/** @type {any} */ crank, /** @type {number} */ i) => {
    let left = 0, right = 0, low = 0, high = 0;
    chain.wand_deg.forEach((/** @type {number} */ wand, /** @type {number} */ k) => {
      if (wand < chain.forward_stop_deg || wand > chain.aft_stop_deg) return;
      for (const arm of [crank.in_arm, crank.out_arm]) {
        if (!arm) continue;
        const a = arm[1] + radians(crank.turn_deg[k]);
        left = Math.min(left, arm[0] * Math.cos(a));
        right = Math.max(right, arm[0] * Math.cos(a));
        low = Math.min(low, arm[0] * Math.sin(a));
        high = Math.max(high, arm[0] * Math.sin(a));
      }
    });
    const grip = moved.has(`crank ${i} in`) || moved.has(`crank ${i} out`);
    // The wand crank and the horn turn little: their wand and foil want half a window beside them.
    const room = i === 0 ? [100, 90] : [(grip ? GRIP : EDGE) * 2 + 12, (grip ? GRIP : EDGE) + EDGE];
    return { wide: right - left + 0.006, high: high - low + 0.006, middle: [(left + right) / 2, (low + high) / 2], room };
  });
}

/** The whole drawing. `outline` is the wand angle before a change, or null; `other` a chain that is laid over it
 * as an outline about every arm.
 * @param {any} chain @param {any} drawn @param {number} wandDegrees @param {number | null} outline
 * @param {number} wide @param {number | null} most @param {any} words @param {any} [old] the chain before @param {any} [other] */
export function draw(chain, drawn, wandDegrees, outline, wide, most, words, old, other) {
  const plan = layout(chain, drawn, wide, most);
  const grips = /** @type {Map<string, Point>} */ (new Map());
  if (chain.hidden) return { svg: hiddenBox(wide, plan.high, words), plan, scale: 0, grips };
  const scale = plan.scale, sizes = extents(chain, drawn);
  const present = joints(chain, wandDegrees);
  const past = old && old.cranks.length === chain.cranks.length ? old : chain;
  const before = outline === null ? null : joints(past, outline);
  const over = other && other.cranks.length === chain.cranks.length ? joints(other, wandDegrees) : null;
  const marks = [], names = /** @type {string[]} */ ([]);
  const last = present.length - 1;
  const moved = new Set(drawn.adjusters.map((/** @type {any} */ one) => one.acts_on));
  for (let i = 0; i <= last; i += 1) {
    // The wand is ahead, so it stands on the right; the way to the foil runs aft and then down.
    const row = Math.floor(i / plan.columns), inRow = Math.min(plan.columns, last + 1 - row * plan.columns);
    const column = inRow - 1 - (i % plan.columns);
    const left = column * plan.each + (plan.columns - inRow) * plan.each, top = row * plan.tall;
    const [aside, above] = i === 0 ? [-0.25 * plan.each / scale, -0.2 * plan.tall / scale] : sizes[i].middle;
    const centre = left + plan.each / 2;
    const middle = /** @type {Point} */ ([centre - aside * scale, top + (plan.tall - plan.name) / 2 + above * scale]);
    const at = (/** @type {Point} */ p) => /** @type {Point} */ ([
      middle[0] + (p[0] - present[i].pivot[0]) * scale, middle[1] - (p[1] - present[i].pivot[1]) * scale,
    ]);
    const name = wrapped(present[i].name.replaceAll("-", " "), plan.each - 8);
    const edge = { left: left + 4, top: top + 6, right: left + plan.each - 4, bottom: top + plan.tall - 8 - 18 * name.length };
    if (column > 0 && i % plan.columns < inRow - 1) marks.push(line([[left, top + 10], [left, top + plan.tall - 10]], "divider"));
    const cuts = /** @type {{end: Point, ux: number, uy: number, number: number}[]} */ ([]), taken = /** @type {Point[]} */ ([]);
    for (const [mine, other, number] of [
      [present[i].in, i > 0 ? present[i - 1].out : null, i],
      [present[i].out, i < last ? present[i + 1].in : null, i + 1],
    ]) {
      if (!mine || !other) continue;
      const cut = cutRod(at(mine), at(other), edge);
      marks.push(...cut.marks);
      cuts.push({ ...cut, number });
      if (number !== i + 1) continue;
      grips.set(`rod ${i}`, cut.middle);
      if (moved.has(`rod ${i}`)) taken.push(cut.middle);
    }
    if (before) {
      for (const end of [before[i].in, before[i].out]) {
        if (end) marks.push(line([middle, [middle[0] + (end[0] - before[i].pivot[0]) * scale, middle[1] - (end[1] - before[i].pivot[1]) * scale]], "before"));
      }
    }
    if (i === 0) {
      const a = radians(wandDegrees);
      const down = /** @type {Point} */ ([middle[0] - Math.sin(a) * 400, middle[1] + Math.cos(a) * 400]);
      const end = inside(middle, down, edge);
      marks.push(line([middle, end], "wand"));
      const long = Math.max(Math.hypot(end[0] - middle[0], end[1] - middle[1]) - 22, 30);
      const swing = /** @type {Point} */ ([middle[0] - Math.sin(a) * long, middle[1] + Math.cos(a) * long]);
      grips.set("swing", swing);
      taken.push(swing);
      grips.set("wand pivot", middle);
    }
    if (i === last) marks.push(foilStub(drawn, reading(chain, wandDegrees).foil ?? 0, middle, scale, edge));
    for (const [side, end] of /** @type {[string, Point | null][]} */ ([["in", present[i].in], ["out", present[i].out]])) {
      if (!end) continue;
      marks.push(line([at(present[i].pivot), at(end)], "arm"), circle(at(end), 4, "joint"));
      const [x, y] = at(end), long = Math.hypot(x - middle[0], y - middle[1]) || 1;
      const grip = /** @type {Point} */ ([x + ((x - middle[0]) / long) * 24, y + ((y - middle[1]) / long) * 24]);
      grips.set(`crank ${i} ${side}`, grip);
      if (moved.has(`crank ${i} ${side}`)) taken.push(grip);
    }
    for (const end of over ? [over[i].in, over[i].out] : []) {
      if (end) marks.push(contour(middle, [middle[0] + (end[0] - over[i].pivot[0]) * scale, middle[1] - (end[1] - over[i].pivot[1]) * scale]));
    }
    if (over && i === last) marks.push(foilStub(drawn, reading(other, wandDegrees).foil ?? 0, middle, scale, edge, "other"));
    for (const cut of cuts) names.push(rodLetter(cut, taken, edge));
    marks.push(circle(middle, 6, "pivot"));
    name.forEach((part, k) => names.push(text([centre, top + plan.tall - 8 - 18 * (name.length - 1 - k)], part, "part-name")));
  }
  return { svg: marks.join("") + names.join(""), plan, scale, grips };
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

/** A rod up to where its window cuts it. @param {Point} from @param {Point} to @param {any} edge */
function cutRod(from, to, edge) {
  const end = inside(from, to, edge);
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  const ux = (to[0] - from[0]) / length, uy = (to[1] - from[1]) / length;
  const cut = /** @type {Point[]} */ ([[end[0] - uy * 6 - ux * 4, end[1] + ux * 6 - uy * 4], [end[0] + uy * 6, end[1] - ux * 6]]);
  const shown = Math.hypot(end[0] - from[0], end[1] - from[1]);
  const middle = /** @type {Point} */ ([end[0] - ux * Math.min(34, shown / 2), end[1] - uy * Math.min(34, shown / 2)]);
  return { marks: [line([from, end], "rod"), line(cut, "cut")], middle, end, ux, uy };
}

/** A rod's letter beside its cut, on either side, clear of the handles there.
 * @param {{end: Point, ux: number, uy: number, number: number}} cut @param {Point[]} taken @param {any} edge */
function rodLetter({ end, ux, uy, number }, taken, edge) {
  let best = end, most = -Infinity;
  for (const aside of [15, -15, 28, -28]) {
    const x = end[0] - ux * 14 - uy * aside, y = end[1] - uy * 14 + ux * aside;
    const within = x > edge.left + 3 && x < edge.right - 3 && y > edge.top + 3 && y < edge.bottom - 3;
    const room = within ? Math.min(CLEAR, ...taken.map((one) => Math.hypot(one[0] - x, one[1] - y))) : -1;
    if (room > most) (best = [x, y]), (most = room);
    if (room >= CLEAR) break;
  }
  return text([best[0], best[1] + 5], String.fromCharCode(64 + number), "rod-number");
}

/** An arm's outline, wide enough to be seen about another arm. @param {Point} from @param {Point} to */
function contour(from, to) {
  const long = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1, half = 7;
  const x = ((to[0] - from[0]) / long) * half, y = ((to[1] - from[1]) / long) * half;
  return shape([[from[0] + y, from[1] - x], [to[0] + x + y, to[1] + y - x], [to[0] + x - y, to[1] + y + x], [from[0] - y, from[1] + x]], "other");
}

/** What the horn turns, cut at the window. @param {any} drawn @param {number} foilDegrees @param {Point} middle
 * @param {number} scale @param {any} edge @param {string} [kind] */
function foilStub(drawn, foilDegrees, middle, scale, edge, kind = "flap-stub") {
  const a = radians(foilDegrees), long = Math.min((drawn.main.flap_share || 0.7) * drawn.main.foil_chord_m * scale, 300);
  const far = /** @type {Point} */ ([middle[0] - long * Math.cos(a), middle[1] + long * Math.sin(a)]);
  const end = inside(middle, far, edge), half = 9;
  return shape([[middle[0], middle[1] - half], end, [middle[0], middle[1] + half]], kind);
}

/** @param {number} wide @param {number} high @param {any} words */
function hiddenBox(wide, high, words) {
  const lines = wrapped(words.hidden, wide * 0.5 - 16);
  const half = wide * 0.25, y = high / 2, tall = 20 * lines.length + 24;
  return (
    line([[8, y], [wide / 2 - half, y]], "rod") + line([[wide / 2 + half, y], [wide - 8, y]], "rod") +
    box(wide / 2 - half, y - tall / 2, 2 * half, tall, "hidden") +
    lines.map((part, i) => text([wide / 2, y + 6 + 20 * (i - (lines.length - 1) / 2)], part, "part-name")).join("") +
    text([8, y - 10], words.foil, "start-name") + (width(words.wand) < wide / 4 ? text([wide - 8, y - 10], words.wand, "end-name") : "")
  );
}

// The boat from astern, to scale: hull, rack, sailor, struts, foils, water. Windward is on the right.

import { box, circle, line, shape, text } from "./marks.js";

/** @typedef {[number, number]} Point */

/** @param {any} drawn @param {any} state @param {number} wide @param {number} high @param {any} words */
export function draw(drawn, state, wide, high, words) {
  const reach = Math.max(drawn.crew_out_m + 0.35, drawn.main.span_m / 2 + 0.15);
  const top = drawn.crew[1] + 1.4, bottom = drawn.main.foot[1] - 0.35;
  const scale = Math.min(wide / (2 * reach), high / (top - bottom));
  const surface = high - (high - (top - bottom) * scale) / 2 + bottom * scale;
  const lean = state.heel ?? 0;
  const c = Math.cos(lean), s = Math.sin(lean);
  const at = (/** @type {number} */ out, /** @type {number} */ up) =>
    /** @type {Point} */ ([wide / 2 + (out * c - up * s) * scale, surface - (state.height + up * c + out * s) * scale]);
  const marks = [box(0, surface, wide, high - surface, "water"), line([[0, surface], [wide, surface]], "surface")];
  const half = drawn.main.span_m / 2, back = drawn.rudder.span_m / 2;
  marks.push(line([at(0, drawn.rudder.top[1]), at(0, drawn.rudder.foot[1])], "strut-line"));
  marks.push(line([at(-back, drawn.rudder.foot[1]), at(back, drawn.rudder.foot[1])], "before"));
  marks.push(line([at(0, drawn.main.top[1]), at(0, drawn.main.foot[1])], "strut-line"));
  marks.push(line([at(-half, drawn.main.foot[1]), at(half, drawn.main.foot[1])], "foil-line"));
  const right = drawn.hull_section.map((/** @type {Point} */ p) => at(p[0], p[1]));
  const left = [...drawn.hull_section].reverse().map((/** @type {Point} */ p) => at(-p[0], p[1]));
  marks.push(shape([...left, ...right], "hull"));
  const deck = drawn.hull_section[drawn.hull_section.length - 1];
  marks.push(line([at(deck[0], deck[1]), at(drawn.crew_out_m - 0.25, deck[1] + 0.12)], "rack"));
  marks.push(line([at(-deck[0], deck[1]), at(-drawn.crew_out_m + 0.25, deck[1] + 0.12)], "rack"));
  marks.push(line([at(0, deck[1]), at(0, top + 2)], "faint"));
  const [x, z] = [drawn.crew_out_m, drawn.crew[1]];
  marks.push(line([at(x + 0.18, z + 0.3), at(x, z - 0.12), at(x - 0.4, z - 0.05), at(x - 0.55, z - 0.3)], "sailor"));
  marks.push(circle(at(x + 0.24, z + 0.44), Math.max(0.1 * scale, 3), "head"));
  marks.push(text([wide - 6, 16], words.windward, "end-name"));
  return marks.join("");
}

// The boat from astern: hull, rack, sailor, struts, foils, water. Windward is on the right.

import { box, circle, line, shape, text } from "./marks.js";

/** @typedef {[number, number]} Point */

/** How far it reaches to leeward and to windward of the centreline, and up and down [m]. @param {any} drawn */
export function reach(drawn) {
  return {
    leeward: Math.max(drawn.main.span_m / 2, drawn.rudder.span_m / 2) + 0.12,
    windward: drawn.crew_out_m + 0.42,
    top: drawn.crew[1] + 0.6 + 0.64,
    bottom: drawn.main.foot[1] - 0.22 - 0.1,
  };
}

/** A frame of its own, where it does not stand beside the side view. @param {any} drawn @param {number} wide @param {number} most */
export function frame(drawn, wide, most) {
  const far = reach(drawn);
  const scale = Math.min(wide / (far.leeward + far.windward), most / (far.top - far.bottom));
  return { scale, water: far.top * scale, wide, high: Math.round((far.top - far.bottom) * scale) };
}

/** @param {any} drawn @param {any} state @param {any} on @param {any} words @param {any} [before] the state before */
export function draw(drawn, state, on, words, before) {
  const far = reach(drawn);
  const spare = on.wide - (far.leeward + far.windward) * on.scale;
  const middle = far.leeward * on.scale + spare / 2;
  const to = (/** @type {any} */ one) => (/** @type {number} */ out, /** @type {number} */ up) => {
    const lean = one.heel ?? 0;
    return /** @type {Point} */ ([
      middle + (out * Math.cos(lean) - up * Math.sin(lean)) * on.scale,
      on.water - (one.height + up * Math.cos(lean) + out * Math.sin(lean)) * on.scale,
    ]);
  };
  const at = to(state);
  const marks = [box(0, on.water, on.wide, on.high - on.water, "water"), line([[0, on.water], [on.wide, on.water]], "surface")];
  const half = drawn.main.span_m / 2, back = drawn.rudder.span_m / 2;
  const deck = drawn.hull_section[drawn.hull_section.length - 1];
  const seat = drawn.crew[1] - 0.22;
  marks.push(line([at(0, deck[1]), at(0, drawn.crew[1] + 0.75)], "faint"));
  marks.push(line([at(0, drawn.rudder.top[1]), at(0, drawn.rudder.foot[1])], "strut-line"));
  marks.push(line([at(-back, drawn.rudder.foot[1]), at(back, drawn.rudder.foot[1])], "far-line"));
  marks.push(line([at(0, drawn.main.top[1]), at(0, drawn.main.foot[1])], "strut-line"));
  marks.push(line([at(-half, drawn.main.foot[1]), at(half, drawn.main.foot[1])], "foil-line"));
  const section = (/** @type {typeof at} */ place) => [
    ...[...drawn.hull_section].reverse().map((/** @type {Point} */ p) => place(-p[0], p[1])),
    ...drawn.hull_section.map((/** @type {Point} */ p) => place(p[0], p[1])),
  ];
  if (before) marks.push(shape(section(to(before)), "before"));
  marks.push(shape(section(at), "hull"));
  const out = Math.max(drawn.crew_out_m - 0.3, deck[0]);
  marks.push(line([at(deck[0], deck[1]), at(out, seat)], "rack"), line([at(-deck[0], deck[1]), at(-Math.min(out, far.leeward - 0.06), deck[1] + (seat - deck[1]) * Math.min(1, (far.leeward - 0.06) / out))], "rack"));
  const [x, z] = [drawn.crew_out_m * (state.out ?? 1), drawn.crew[1]]; // in light winds they sit further in
  for (let i = 0; i < Math.min(drawn.crew_heads, 1); i += 1) {
    marks.push(line([at(x + 0.15, z + 0.3), at(x, z - 0.12), at(x - 0.38, z - 0.06), at(x - 0.52, z - 0.3)], "sailor"));
    marks.push(circle(at(x + 0.2, z + 0.43), Math.max(0.1 * on.scale, 3), "head"));
  }
  marks.push(text([on.wide - 6, on.high - 8], words.windward, "end-name"));
  return marks.join("");
}

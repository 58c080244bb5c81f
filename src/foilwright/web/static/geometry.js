// Points of the boat on the page, and reading between the rows that the server sent. No physics.

/** @typedef {[number, number]} Point */
/** @typedef {{height: number, trim: number}} Attitude  metres and radians */

export const radians = (/** @type {number} */ degrees) => (degrees * Math.PI) / 180;
export const degrees = (/** @type {number} */ angle) => (angle * 180) / Math.PI;
export const clamp = (/** @type {number} */ x, /** @type {number} */ low, /** @type {number} */ high) =>
  Math.min(Math.max(x, low), high);

/** A point of the boat above the water: level distance ahead of the main strut, and height.
 * @param {Point} point @param {number} mainX @param {Attitude} state @returns {Point} */
export function overWater(point, mainX, state) {
  const s = Math.sin(state.trim), c = Math.cos(state.trim), x = point[0] - mainX;
  return [x * c - point[1] * s, state.height + x * s + point[1] * c];
}

/** Where a value lies in a rising list: the place before it and the share of the way to the next.
 * @param {number[]} list @param {number} value */
export function placeIn(list, value) {
  let i = 0;
  while (i < list.length - 2 && list[i + 1] <= value) i += 1;
  const span = list[i + 1] - list[i] || 1;
  return { i, share: clamp((value - list[i]) / span, 0, 1) };
}

/** The value of a column at a place; null where a row has none.
 * @param {(number | null)[]} column @param {{i: number, share: number}} place */
export function between(column, place) {
  const a = column[place.i], b = column[place.i + 1];
  if (a === null || a === undefined) return null;
  if (b === null || b === undefined) return place.share < 1e-6 ? a : null;
  return a + place.share * (b - a);
}

/** Tip of a crank's arm when the crank has turned.
 * @param {Point} pivot @param {[number, number]} arm length and direction @param {number} turn @returns {Point} */
export const tip = (pivot, arm, turn) => [
  pivot[0] + arm[0] * Math.cos(arm[1] + turn),
  pivot[1] + arm[0] * Math.sin(arm[1] + turn),
];

/** Where the wand's tip is at a wand angle. @param {Point} pivot @param {number} length @param {number} wand */
export const wandTip = (pivot, length, wand) =>
  /** @type {Point} */ ([pivot[0] - length * Math.sin(wand), pivot[1] - length * Math.cos(wand)]);

/** Wand angle at which the tip touches flat water, upright; the stops hold it.
 * @param {any} drawn @param {any} chain @param {Attitude} state @returns {{wand: number, touching: boolean}} */
export function touchingWand(drawn, chain, state) {
  const pivot = overWater(drawn.wand_pivot, drawn.main_x_m, state)[1];
  const forward = radians(chain.forward_stop_deg), aft = radians(chain.aft_stop_deg);
  if (pivot >= drawn.wand_length_m) return { wand: forward, touching: false };
  const wand = Math.acos(clamp(pivot / drawn.wand_length_m, -1, 1)) + state.trim;
  return { wand: clamp(wand, forward, aft), touching: wand >= forward };
}

// Where the handles stand: on their parts, or as near as the others and the boat leave room, with a thin leader.

/** @typedef {{left: number, top: number, right: number, bottom: number}} Box */
/** @typedef {{name: string, x: number, y: number, before: number, after: number}} Wanted
 *   x, y: the part; before, after: room that its words take left and right of the handle */

export const HALF = 22; // half of a handle [px]

/** @param {Box} a @param {Box} b */
const overlap = (a, b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
/** @param {Box} a @param {Box} b */
const within = (a, b) => a.left >= b.left && a.right <= b.right && a.top >= b.top && a.bottom <= b.bottom;
/** @param {number} x @param {number} y @param {Wanted} one @returns {Box} */
const boxAt = (x, y, one) => ({ left: x - HALF - one.before, right: x + HALF + one.after, top: y - HALF, bottom: y + HALF });

const AWAY = [0, 30, 46, 60, 76, 94, 114, 138, 166, 200, 240, 290];

/** Finds a place for every handle: none lies on another; the `kept` boxes stay free as long as there is room,
 * the `free` ones always. @param {Wanted[]} wanted @param {Box[]} free @param {Box[]} kept @param {Box} bounds */
export function placesFor(wanted, free, kept, bounds) {
  const found = /** @type {Map<string, {x: number, y: number}>} */ (new Map());
  const taken = [...free];
  for (const one of wanted) {
    const put = look(one, [...taken, ...kept], bounds) ?? look(one, taken, bounds) ?? nearest(one, taken, bounds);
    found.set(one.name, put);
    taken.push(boxAt(put.x, put.y, one));
  }
  return found;
}

/** @param {Wanted} one @param {Box[]} taken @param {Box} bounds */
function look(one, taken, bounds) {
  for (const away of AWAY) {
    for (let i = 0; i < (away ? 24 : 1); i += 1) {
      // Upwards first, then to both sides, downwards last.
      const angle = Math.PI / 2 + ((i % 2 ? 1 : -1) * Math.ceil(i / 2) * Math.PI) / 12;
      const x = one.x + away * Math.cos(angle), y = one.y - away * Math.sin(angle);
      const box = boxAt(x, y, one);
      if (within(box, bounds) && !taken.some((other) => overlap(box, other))) return { x, y };
    }
  }
  return null;
}

/** Any free place at all, by a grid. @param {Wanted} one @param {Box[]} taken @param {Box} bounds */
function nearest(one, taken, bounds) {
  let best = { x: one.x, y: one.y }, least = Infinity;
  for (let y = bounds.top + HALF; y <= bounds.bottom - HALF; y += 6) {
    for (let x = bounds.left + HALF + one.before; x <= bounds.right - HALF - one.after; x += 6) {
      const away = Math.hypot(x - one.x, y - one.y);
      if (away < least && !taken.some((other) => overlap(boxAt(x, y, one), other))) (best = { x, y }), (least = away);
    }
  }
  return best;
}

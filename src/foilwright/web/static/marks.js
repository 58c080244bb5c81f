// Marks of a drawing as SVG text: every word that goes in is escaped here.

const SIGNS = /** @type {Record<string, string>} */ ({ "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;" });
export const escaped = (/** @type {unknown} */ words) => String(words).replace(/[&<>"']/g, (sign) => SIGNS[sign]);
const r = (/** @type {number} */ x) => Math.round(x * 10) / 10;

/** @typedef {[number, number]} Point */
export const points = (/** @type {Point[]} */ list) => list.map(([x, y]) => `${r(x)},${r(y)}`).join(" ");

/** @param {Point[]} list @param {string} kind */
export const line = (list, kind) => `<polyline class="${kind}" points="${points(list)}"/>`;
/** @param {Point[]} list @param {string} kind */
export const shape = (list, kind) => `<polygon class="${kind}" points="${points(list)}"/>`;
/** @param {Point} at @param {number} radius @param {string} kind */
export const circle = (at, radius, kind) => `<circle class="${kind}" cx="${r(at[0])}" cy="${r(at[1])}" r="${r(radius)}"/>`;
/** @param {number} x @param {number} y @param {number} wide @param {number} high @param {string} kind */
export const box = (x, y, wide, high, kind) =>
  `<rect class="${kind}" x="${r(x)}" y="${r(y)}" width="${r(Math.max(wide, 0))}" height="${r(Math.max(high, 0))}"/>`;
/** @param {Point} at @param {string} words @param {string} kind */
export const text = (at, words, kind) => `<text class="${kind}" x="${r(at[0])}" y="${r(at[1])}">${escaped(words)}</text>`;

/** A line with a head. With `clear` it stands out from what lies under it.
 * @param {Point} from @param {Point} to @param {string} kind @param {boolean} [clear] */
export function arrow(from, to, kind, clear = false) {
  const dx = to[0] - from[0], dy = to[1] - from[1], length = Math.hypot(dx, dy);
  if (length < 3) return "";
  const ux = dx / length, uy = dy / length, head = Math.min(10, length * 0.6);
  const back = /** @type {Point} */ ([to[0] - ux * head, to[1] - uy * head]);
  const wing = head * 0.45;
  return (
    (clear ? line([from, to], "clear") : "") +
    line([from, back], kind) +
    shape([to, [back[0] - uy * wing, back[1] + ux * wing], [back[0] + uy * wing, back[1] - ux * wing]], `${kind}-head`)
  );
}

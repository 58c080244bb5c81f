// A curve beside the drawing, with the cursor that all of them share.

import { line, text } from "./marks.js";

/** @typedef {[number, number]} Point */

/** @param {number} low @param {number} high @param {number} most */
export function ticks(low, high, most) {
  const rough = (high - low) / most, power = 10 ** Math.floor(Math.log10(rough || 1));
  const step = [1, 2, 5, 10].map((one) => one * power).find((one) => one >= rough) ?? power;
  const found = [];
  for (let x = Math.ceil(low / step - 1e-9) * step; x <= high + 1e-9; x += step) found.push(Math.round(x * 1e6) / 1e6);
  return found;
}

/** @typedef {{xs: number[], ys: (number | null)[], kind?: string, name?: string}} Curve */

/** Draws curves over one axis. `marks` are places on the x axis with words; `bands` are pairs of curves.
 * @param {{wide: number, high: number, title: string, unit: string, xUnit: string, curves: Curve[],
 *   bands?: {xs: number[], low: (number|null)[], high: (number|null)[]}[], cursor: number | null, value: string,
 *   marks?: {x: number, words: string}[], range?: [number, number]}} plan */
export function draw(plan) {
  const left = 52, right = 12, top = 34, bottom = 30;
  const xs = plan.curves.flatMap((curve) => curve.xs);
  const ys = [...plan.curves.flatMap((curve) => curve.ys), ...(plan.bands ?? []).flatMap((band) => [...band.low, ...band.high])]
    .filter((y) => y !== null && y !== undefined);
  const x0 = Math.min(...xs), x1 = Math.max(...xs);
  let y0 = plan.range ? plan.range[0] : Math.min(...ys), y1 = plan.range ? plan.range[1] : Math.max(...ys);
  if (!(y1 > y0)) [y0, y1] = [y0 - 1, y0 + 1];
  const spare = plan.range ? 0 : 0.06 * (y1 - y0);
  [y0, y1] = [y0 - spare, y1 + spare];
  const px = (/** @type {number} */ x) => left + ((x - x0) / (x1 - x0 || 1)) * (plan.wide - left - right);
  const py = (/** @type {number} */ y) => plan.high - bottom - ((y - y0) / (y1 - y0)) * (plan.high - top - bottom);
  const out = [text([4, 20], plan.title, "chart-title"), text([plan.wide - right, 20], plan.value, "chart-value")];
  for (const y of ticks(y0, y1, 4)) {
    out.push(line([[left, py(y)], [plan.wide - right, py(y)]], "grid-line"), text([left - 6, py(y) + 5], format(y), "tick-y"));
  }
  for (const x of ticks(x0, x1, Math.max(3, Math.floor(plan.wide / 90)))) {
    out.push(text([px(x), plan.high - 8], `${format(x)}${plan.xUnit}`, "tick-x"));
  }
  for (const band of plan.bands ?? []) {
    const upper = /** @type {Point[]} */ ([]), lower = /** @type {Point[]} */ ([]);
    band.xs.forEach((x, i) => {
      const low = band.low[i], high = band.high[i];
      if (low !== null && high !== null) (upper.push([px(x), py(high)]), lower.push([px(x), py(low)]));
    });
    if (upper.length) out.push(`<polygon class="band" points="${[...upper, ...lower.reverse()].map((p) => p.map((v) => v.toFixed(1)).join(",")).join(" ")}"/>`);
  }
  for (const curve of plan.curves) {
    let piece = /** @type {Point[]} */ ([]);
    const pieces = [piece];
    curve.xs.forEach((x, i) => {
      const y = curve.ys[i];
      if (y === null || y === undefined) pieces.push((piece = []));
      else piece.push([px(x), py(y)]);
    });
    for (const one of pieces) if (one.length > 1) out.push(line(one, curve.kind ?? "curve"));
  }
  for (const mark of plan.marks ?? []) {
    if (mark.x < x0 || mark.x > x1) continue;
    out.push(line([[px(mark.x), top], [px(mark.x), plan.high - bottom]], "stop-line"));
    const end = px(mark.x) > plan.wide / 2;
    out.push(text([px(mark.x) + (end ? -5 : 5), top + 12], mark.words, end ? "stop-name-end" : "stop-name"));
  }
  if (plan.cursor !== null) {
    const x = px(Math.min(Math.max(plan.cursor, x0), x1));
    out.push(line([[x, top], [x, plan.high - bottom]], "cursor"));
  }
  return { svg: out.join(""), toX: (/** @type {number} */ at) => x0 + ((at - left) / (plan.wide - left - right)) * (x1 - x0) };
}

const format = (/** @type {number} */ x) => String(Math.round(x * 1000) / 1000).replace("-", "−");

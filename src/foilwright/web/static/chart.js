// A curve beside the drawing, with the cursor that all of them share. What does not move is drawn once.

import { width, wrapped } from "./labels.js";
import { circle, line, points, text } from "./marks.js";
import { ink } from "./page.js";

/** @typedef {[number, number]} Point */
/** @typedef {{xs: number[], ys: (number | null)[], kind?: string, name?: string}} Curve */
/** @typedef {{title: string, curves: Curve[], xUnit?: string, xStep: number, zero?: boolean,
 *   bands?: {xs: number[], low: (number|null)[], high: (number|null)[]}[], marks?: {x: number, words: string}[]}} Plan */

/** @param {number} low @param {number} high @param {number} most */
export function ticks(low, high, most) {
  const rough = (high - low) / most, power = 10 ** Math.floor(Math.log10(rough || 1));
  const step = [1, 2, 5, 10].map((one) => one * power).find((one) => one >= rough * 0.999) ?? power;
  const found = [];
  for (let x = Math.ceil(low / step - 1e-9) * step; x <= high + 1e-9; x += step) found.push(Math.round(x * 1e6) / 1e6);
  return found;
}

const ROW = 20; // of words [px]
const format = (/** @type {number} */ x) => String(Math.round(x * 1000) / 1000).replace("-", "−");

/** One chart on the page. @param {SVGSVGElement} view @param {(x: number) => void} choose */
export function chartOn(view, choose) {
  const still = document.createElementNS("http://www.w3.org/2000/svg", "g");
  const live = document.createElementNS("http://www.w3.org/2000/svg", "g");
  view.append(still, live);
  let plan = /** @type {Plan | null} */ (null), wide = 0, at = /** @type {any} */ (null);
  let widest = 0; // of the values that stood at the cursor so far [px]
  const bottom = 28, right = 10;

  const follow = (/** @type {PointerEvent} */ event) => at && choose(at.toX(event.clientX - view.getBoundingClientRect().left));
  view.addEventListener("pointerdown", (event) => (view.setPointerCapture(event.pointerId), follow(event)));
  view.addEventListener("pointermove", (event) => event.buttons && follow(event));

  /** @param {Plan} given */
  function lay(given) {
    const names = given.curves.filter((one) => one.name);
    // Title and value share a row while they fit; else the title is broken and the value stands under it.
    const shared = width(given.title) + widest + 16 <= wide;
    const title = shared ? [given.title] : wrapped(given.title, wide - 4);
    // Names stand at the ends of their curves; in a narrow chart they are a list with a piece of each line.
    const widestName = Math.max(0, ...names.map((one) => width(one.name ?? ""))) + 14;
    const listed = names.length > 0 && widestName > wide * 0.36;
    const rows = title.length - (shared ? 1 : 0) + (listed ? names.length : 0);
    const top = 48 + ROW * rows, high = (names.length > 3 ? 250 : 200) + ROW * rows;
    const xs = given.curves.flatMap((one) => one.xs);
    const ys = [...given.curves.flatMap((one) => one.ys), ...(given.bands ?? []).flatMap((one) => [...one.low, ...one.high])].filter((y) => y !== null && y !== undefined);
    const x0 = Math.min(...xs), x1 = Math.max(...xs);
    let [y0, y1] = ys.length ? [Math.min(...ys), Math.max(...ys)] : [0, 1];
    if (given.zero) (y0 = Math.min(0, y0)), (y1 = Math.max(0, y1));
    if (!(y1 > y0)) [y0, y1] = [y0 - 1, y0 + 1];
    const spare = 0.06 * (y1 - y0);
    if (!(given.zero && y0 === 0)) y0 -= spare;
    y1 += spare;
    const yTicks = ticks(y0, y1, 4);
    const left = Math.max(...yTicks.map((y) => width(format(y)))) + 12;
    const room = names.length && !listed ? widestName : right;
    const px = (/** @type {number} */ x) => left + ((x - x0) / (x1 - x0 || 1)) * (wide - left - room);
    const py = (/** @type {number} */ y) => high - bottom - ((y - y0) / (y1 - y0)) * (high - top - bottom);
    return { title, shared, listed, top, high, x0, x1, y0, y1, yTicks, left, room, px, py, toX: (/** @type {number} */ p) => x0 + ((p - left) / (wide - left - room)) * (x1 - x0) };
  }

  function drawStill() {
    if (!plan || !wide) return;
    at = lay(plan);
    view.setAttribute("viewBox", `0 0 ${wide} ${at.high}`);
    view.style.height = `${at.high}px`;
    const { px, py } = at, end = wide - at.room, foot = at.high - bottom;
    const out = at.title.map((/** @type {string} */ words, /** @type {number} */ i) => text([2, 20 + ROW * i], words, "chart-title"));
    for (const y of at.yTicks) {
      out.push(line([[at.left, py(y)], [end, py(y)]], y === 0 ? "zero-line" : "grid-line"), text([at.left - 6, py(y) + 5], format(y), "tick-y"));
    }
    const unit = plan.xUnit ?? "";
    const every = plan.xStep * Math.max(1, Math.ceil(((width(`00${unit}`) + 14) * (at.x1 - at.x0)) / plan.xStep / (end - at.left)));
    for (let x = Math.ceil(at.x0 / every - 1e-9) * every; x <= at.x1 + 1e-9; x += every) {
      const words = `${format(x)}${unit}`;
      out.push(text([Math.min(px(x), wide - width(words) / 2 - 1), at.high - 6], words, "tick-x"));
    }
    for (const band of plan.bands ?? []) {
      const upper = /** @type {Point[]} */ ([]), lower = /** @type {Point[]} */ ([]);
      band.xs.forEach((x, i) => {
        const low = band.low[i], high = band.high[i];
        if (low !== null && high !== null) (upper.push([px(x), py(high)]), lower.push([px(x), py(low)]));
      });
      if (upper.length) out.push(`<polygon class="band" points="${points([...upper, ...lower.reverse()])}"/>`);
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
    out.push(markWords(plan.marks ?? [], at, end, foot), at.listed ? nameList(plan.curves, at) : curveNames(plan.curves, at, end, foot));
    ink(still, out.join(""));
  }

  /** Where something happens: a line, its words over the plot, never on one another. */
  function markWords(/** @type {{x: number, words: string}[]} */ marks, /** @type {any} */ on, /** @type {number} */ end, /** @type {number} */ foot) {
    const out = [];
    let edge = -Infinity;
    for (const mark of [...marks].sort((a, b) => a.x - b.x)) {
      if (mark.x < on.x0 - 1e-9 || mark.x > on.x1 + 1e-9) continue;
      const x = on.px(mark.x), half = width(mark.words) / 2;
      out.push(line([[x, on.top - 4], [x, foot]], "stop-line"));
      const middle = Math.min(Math.max(x, half + 2, edge + half + 10), wide - half - 2);
      if (middle - half < edge) continue; // no room: the line alone, its words stand under the chart
      edge = middle + half;
      out.push(text([middle, on.top - 7], mark.words, "stop-name"));
    }
    return out.join("");
  }

  /** Every curve's name in a row of its own under the title, beside a piece of its line. */
  function nameList(/** @type {Curve[]} */ curves, /** @type {any} */ on) {
    const named = curves.filter((one) => one.name), first = on.top - 28 - ROW * (named.length - 1);
    return named.map((one, i) => line([[4, first + ROW * i - 5], [40, first + ROW * i - 5]], one.kind ?? "curve") + text([48, first + ROW * i], one.name ?? "", "curve-name")).join("");
  }

  /** Every curve's name at its end, spread apart. */
  function curveNames(/** @type {Curve[]} */ curves, /** @type {any} */ on, /** @type {number} */ end, /** @type {number} */ foot) {
    const named = curves.filter((one) => one.name).map((one) => {
      const i = one.ys.findLastIndex((/** @type {number | null} */ y) => y !== null && y !== undefined);
      return { name: one.name ?? "", from: i < 0 ? foot : on.py(one.ys[i]), x: i < 0 ? end : on.px(one.xs[i]), y: 0 };
    });
    named.sort((a, b) => a.from - b.from);
    let edge = on.top - 8;
    for (const one of named) (one.y = Math.max(one.from, edge + 19)), (edge = one.y);
    edge = foot - 5;
    for (const one of [...named].reverse()) (one.y = Math.min(one.y, edge)), (edge = one.y - 19);
    return named.map((one) => line([[one.x, one.from], [end + 5, one.y]], "leader") + text([end + 8, one.y + 5], one.name, "curve-name")).join("");
  }

  /** @param {number} x @param {string} value */
  function cursor(x, value) {
    if (!at) return;
    if (width(value, true) > widest) {
      const shared = at.shared;
      widest = width(value, true);
      if (shared && plan && width(plan.title) + widest + 16 > wide) drawStill();
    }
    const place = at.px(Math.min(Math.max(x, at.x0), at.x1)), foot = at.high - bottom;
    ink(live, line([[place, at.top], [place, foot]], "cursor") + circle([place, foot], 4, "cursor-foot") + text([wide - 4, 20 + ROW * (at.shared ? 0 : at.title.length)], value, "chart-value"));
  }

  return {
    /** @param {Plan} given */
    data(given) {
      plan = given;
      drawStill();
    },
    cursor,
    /** @param {number} now */
    resize(now) {
      if (Math.abs(now - wide) < 1) return;
      wide = now;
      drawStill();
    },
  };
}

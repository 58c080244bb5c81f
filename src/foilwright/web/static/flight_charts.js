// Everything over boat speed or over the wind, beside the drawing: one cursor through all charts.

import { chartOn } from "./chart.js";
import { find } from "./page.js";
import { bow, fixed, metres, newtons, say, signed } from "./words.js";

const NAMES = ["speed", "height", "bow", "wand", "foil", "lift", "drag"];
const X_STEP = 4;

/** @typedef {{swept: any, drawn: any}} Flown */

/** @param {(x: number) => void} choose @param {Record<string, number>} wide */
export function flightCharts(choose, wide) {
  const charts = Object.fromEntries(NAMES.map((name) => [name, chartOn(find(`chart-${name}`), choose)]));
  let drawn = /** @type {any[]} */ ([]);

  const column = (/** @type {any[]} */ rows, /** @type {(row: any) => number | null} */ of) => rows.map((row) => (row && row.state ? of(row) : null));

  /** @param {Flown} now @param {any} before @param {any} other */
  function data(now, before, other) {
    const same = drawn.length === 3 && drawn[0] === now.swept && drawn[1] === before?.swept && drawn[2] === other?.swept;
    if (same || !now.swept) return;
    drawn = [now.swept, before?.swept, other?.swept];
    const rows = now.swept.counted, xs = now.swept.xs, off = now.swept.off;
    const inWind = "kept" in now.swept;
    const marks = off ? [{ x: off, words: say("takes_off") }] : [];
    const thin = [[before?.swept, "curve-before"], [other?.swept, "curve-other"]].filter(([swept]) => swept && swept !== now.swept);
    /** @param {string} name @param {string} title @param {(row: any) => number | null} of @param {boolean} [zero] */
    const one = (name, title, of, zero = false) =>
      charts[name].data({
        title, xStep: X_STEP, marks, zero,
        curves: [...thin.map(([swept, kind]) => ({ xs: swept.xs, ys: column(swept.counted, of), kind })), { xs, ys: column(rows, of), kind: "curve" }],
      });
    if (inWind) one("speed", say("chart_speed"), (row) => row.boat_speed_kn);
    one("height", say("chart_height"), (row) => row.ride_height_m);
    one("bow", say("chart_bow"), (row) => row.trim_deg);
    one("wand", say("chart_wand"), (row) => row.wand_deg);
    one("foil", say(now.drawn.whole_foil ? "chart_foil" : "chart_flap"), (row) => row.foil_deg);
    const many = (/** @type {[string, (row: any) => number | null][]} */ parts) =>
      parts.map(([name, of], i) => ({ xs, ys: column(rows, of), kind: `curve part-${i}`, name }));
    const inTheWind = /** @type {[string, (row: any) => number | null][]} */ (inWind ? [[say("sail_lift"), (/** @type {any} */ row) => row.sail_lift_n], [say("strut_lift"), (/** @type {any} */ row) => row.strut_lift_n]] : []);
    charts.lift.data({
      title: say("chart_lift"), xStep: X_STEP, marks, zero: true,
      curves: many([[say("main_foil"), (row) => row.main_lift_n], [say("rudder_foil"), (row) => row.rudder_lift_n], [say("hull_lift"), (row) => row.buoyancy_n], ...inTheWind]),
    });
    charts.drag.data({
      title: say("chart_drag"), xStep: X_STEP, marks, zero: true,
      curves: many(GROUPS.map((group) => [say(`drag_${group}`), (row) => groupDrag(row, group)])),
    });
  }

  /** @param {number} speed @param {any} row */
  function cursor(speed, row) {
    const value = (/** @type {any} */ x, /** @type {(x: number) => string} */ form) => (row && row.state && x !== null && x !== undefined ? form(x) : "–");
    if (drawn[0] && "kept" in drawn[0]) charts.speed.cursor(speed, value(row?.boat_speed_kn, (v) => `${fixed(v, 1)} kn`));
    charts.height.cursor(speed, value(row?.ride_height_m, metres));
    charts.bow.cursor(speed, value(row?.trim_deg, bow));
    charts.wand.cursor(speed, value(row?.wand_deg, (v) => `${fixed(v, 0)}°`));
    charts.foil.cursor(speed, value(row?.foil_deg, (v) => `${signed(v, 1)}°`));
    charts.lift.cursor(speed, value(row?.main_lift_n, (v) => say("main_share", { percent: fixed((100 * v) / (carried(row) || 1), 0) })));
    charts.drag.cursor(speed, value(row?.drag_n, newtons));
  }

  return {
    data,
    cursor,
    resize() {
      for (const name of NAMES) charts[name].resize(wide[`chart-${name}`]);
    },
    ids: NAMES.map((name) => `chart-${name}`),
  };
}

/** All that holds the boat up. @param {any} row */
const carried = (row) => row.main_lift_n + row.rudder_lift_n + row.buoyancy_n + (row.sail_lift_n ?? 0) + (row.strut_lift_n ?? 0);

const GROUPS = ["foils", "struts", "hull", "wand", "air"];

/** @param {any} row @param {string} group */
export function groupDrag(row, group) {
  let sum = 0;
  for (const [name, n] of Object.entries(row.drag_by_part_n ?? {})) if (groupOf(name) === group) sum += Number(n);
  return sum;
}

/** @param {string} name */
const groupOf = (name) =>
  name.endsWith(" air") ? "air" : name.endsWith("foil") ? "foils" : name.endsWith("strut") ? "struts" : name === "wand" ? "wand" : "hull";

let toldOf = /** @type {any} */ (undefined);

/** Who carries the weight and what holds the boat back at this speed, as lines of words. @param {any} row */
export function tellParts(row) {
  if (row === toldOf) return;
  toldOf = row;
  const list = (/** @type {string} */ id, /** @type {[string, number][]} */ parts) => {
    // Of the weight a foil that pulls down makes the others carry more than all.
    const total = Math.abs(parts.reduce((sum, [, n]) => sum + n, 0)) || 1;
    find(id).replaceChildren(
      ...parts.filter(([, n]) => Math.abs(n) >= 0.5).map(([name, n]) => {
        const item = document.createElement("li");
        const words = Object.assign(document.createElement("span"), { textContent: name });
        const number = Object.assign(document.createElement("span"), { className: "figure", textContent: say("share", { n: newtons(n), percent: fixed((100 * n) / total, 0) }) });
        item.append(words, number);
        return item;
      }),
    );
  };
  const known = row && row.state;
  list("lifts", known ? [[say("main_foil"), row.main_lift_n], [say("rudder_foil"), row.rudder_lift_n], [say("hull_lift"), row.buoyancy_n], [say("sail_lift"), row.sail_lift_n ?? 0], [say("strut_lift"), row.strut_lift_n ?? 0]] : []);
  const drags = known ? Object.entries(row.drag_by_part_n ?? {}).map(([name, n]) => /** @type {[string, number]} */ ([name, Number(n)])) : [];
  list("drags", drags.sort((a, b) => b[1] - a[1]));
}

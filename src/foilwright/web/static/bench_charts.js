// Over the wand's swing: foil angle with its band of lost motion, gearing, lost motion; stops and locks where they happen.

import { reading } from "./chain.js";
import { chartOn } from "./chart.js";
import { find } from "./page.js";
import { fixed, say, signed } from "./words.js";

const NAMES = ["curve", "gearing", "slop"];
const X_STEP = 15;

/** @param {(wand: number) => void} choose @param {Record<string, number>} wide */
export function benchCharts(choose, wide) {
  const charts = Object.fromEntries(NAMES.map((name) => [name, chartOn(find(`chart-${name}`), (x) => choose(Math.round(x * 2) / 2))]));
  let drawn = /** @type {any[]} */ ([]);

  return {
    /** @param {any} chain @param {any} before @param {any} fitted what a sheet makes of the chain @param {boolean} whole */
    data(chain, before, fitted, whole) {
      if (drawn[0] === chain && drawn[1] === before && drawn[2] === fitted) return;
      drawn = [chain, before, fitted];
      const keep = (/** @type {any[]} */ list, of = chain) => list.filter((_, i) => of.wand_deg[i] >= of.forward_stop_deg - 1e-6 && of.wand_deg[i] <= of.aft_stop_deg + 1e-6);
      const xs = keep(chain.wand_deg), foil = keep(chain.foil_deg), slop = keep(chain.slop_deg);
      const marks = stopMarks(xs, keep(chain.stop));
      for (const angle of chain.locks_at_deg) marks.push({ x: angle, words: say("at_lock") });
      const half = (/** @type {number} */ sign) => foil.map((f, i) => (f === null ? null : f + sign * 0.5 * (slop[i] ?? 0)));
      const thin = [[before, "curve-before"], [fitted, "curve-other"]].filter(([one]) => one && one !== chain);
      const old = (/** @type {string} */ key) => thin.map(([one, kind]) => ({ xs: keep(one.wand_deg, one), ys: keep(one[key], one), kind }));
      const common = { xUnit: "°", xStep: X_STEP, marks };
      charts.curve.data({ ...common, title: say(whole ? "chart_foil" : "chart_flap"), bands: [{ xs, low: half(-1), high: half(1) }], curves: [...old("foil_deg"), { xs, ys: foil, kind: "curve" }] });
      charts.gearing.data({ ...common, title: say("chart_gearing"), zero: true, curves: [...old("gearing"), { xs, ys: keep(chain.gearing), kind: "curve" }] });
      charts.slop.data({ ...common, title: say("chart_slop"), zero: true, curves: [...old("slop_deg"), { xs, ys: slop, kind: "curve" }] });
      find("locks").textContent = [
        ...marks.filter((one) => one.words !== say("at_lock")).map((one) => one.long ?? ""),
        chain.locks_at_deg.length ? say("locks", { angles: chain.locks_at_deg.map((/** @type {number} */ a) => `${fixed(a, 0)}°`).join(", ") }) : say("locks_none"),
      ].join(" ");
    },
    /** @param {number} wand @param {any} chain */
    cursor(wand, chain) {
      const here = reading(chain, wand);
      charts.curve.cursor(wand, here.foil === null ? "–" : `${signed(here.foil, 1)}°`);
      charts.gearing.cursor(wand, here.gearing === null ? "–" : fixed(here.gearing, 2));
      charts.slop.cursor(wand, here.slop === null ? "–" : `${fixed(here.slop, 2)}°`);
    },
    resize() {
      for (const name of NAMES) charts[name].resize(wide[`chart-${name}`]);
    },
  };
}

/** Where a stop begins or ends to hold. @param {number[]} xs @param {string[]} stops
 * @returns {{x: number, words: string, long?: string}[]} */
function stopMarks(xs, stops) {
  const marks = [];
  for (let i = 1; i < xs.length; i += 1) {
    if (stops[i] === stops[i - 1]) continue;
    const held = stops[i] || stops[i - 1];
    marks.push({ x: stops[i] ? xs[i] : xs[i - 1], words: say("at_stop"), long: say(stops[i] ? "stop_from" : "stop_until", { wand: fixed(stops[i] ? xs[i] : xs[i - 1], 0), stop: say(`stop_${held.replaceAll(" ", "_")}`) }) });
  }
  return marks;
}

// Sweeping the wind: all winds at once where the server's physics is compiled, else one by one, the nearest first.

import { ask } from "./answers.js";
import { GREATEST, LEAST } from "./choice.js";

const WINDS = `${LEAST}:${GREATEST}:1`;
const LOOKS_AGAIN = 4000; // for the compiled physics [ms]
/** Stands for a state that is not worked out yet. */
export const PENDING = Object.freeze({ pending: true, state: null });

const turns = /** @type {Map<string, number>} */ (new Map());
/** A newer question of a kind ends the older. @param {string} kind */
export const newTurn = (kind) => {
  const mine = (turns.get(kind) ?? 0) + 1;
  turns.set(kind, mine);
  return () => turns.get(kind) === mine;
};

const round = (/** @type {number} */ kn) => Math.round(kn * 1e4) / 1e4;

/** The counting row of every wind, pending where it is to come. @param {Map<number, any>} byWind @param {any} answer */
function swept(byWind, answer) {
  const xs = [...byWind.keys()].sort((a, b) => a - b);
  const rows = xs.map((kn) => byWind.get(kn) ?? { counted: PENDING, all: [] });
  return {
    xs, counted: rows.map((one) => one.counted), rows: rows.flatMap((one) => one.all),
    known: answer.compiled, off: answer.take_off_told_kn, kept: answer.keeps_flying_told_kn,
  };
}

/** Puts the winds of an answer in. @param {Map<number, any>} byWind @param {any} answer */
function take(byWind, answer) {
  answer.winds_kn.forEach((/** @type {number} */ kn, /** @type {number} */ i) => {
    const place = answer.counts[i];
    byWind.set(round(kn), { counted: place === null ? null : answer.rows[place], all: answer.rows.filter((/** @type {any} */ row) => row.told_kn === kn) });
  });
  for (const kn of answer.later_kn) if (!byWind.has(round(kn))) byWind.set(round(kn), null);
}

/** Sweeps the wind for one boat; `grown` sees every step. @param {string} kind @param {URLSearchParams} words
 * @param {() => number} at the wind under the cursor @param {(swept: any, left: number) => void} grown */
export async function sweepWind(kind, words, at, grown) {
  const mine = newTurn(kind);
  const byWind = /** @type {Map<number, any>} */ (new Map());
  const asking = async (/** @type {string} */ wind) => {
    const answer = await ask(kind, `/ask/wind?${words}&wind=${wind}`);
    if (!answer || !mine()) return null;
    take(byWind, answer);
    return answer;
  };
  let answer = await asking(WINDS);
  while (answer) {
    const left = [...byWind].filter(([, one]) => !one).map(([kn]) => kn);
    grown(swept(byWind, answer), left.length);
    if (answer.compiled && !left.length) return;
    if (left.length) {
      const next = left.reduce((best, kn) => (Math.abs(kn - at()) < Math.abs(best - at()) ? kn : best));
      answer = await asking(String(next));
      if (answer?.compiled) answer = await asking(WINDS);
    } else {
      do {
        await new Promise((done) => setTimeout(done, LOOKS_AGAIN));
        if (!mine()) return;
      } while (!(await ask(`${kind}-ready`, "/ask/wind-ready"))?.compiled);
      answer = await asking(WINDS);
    }
  }
}

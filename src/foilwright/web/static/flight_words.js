// What Flight says in sentences: how it flies, the nearest limit, what was guessed.

import { about, choice, find } from "./page.js";
import { bow, fixed, known, metres, say, signed, texts } from "./words.js";

const GUESSES = 12, LEAST_MM = 1;

/** @param {any} row @param {any} state @param {any} held @param {any} swept */
export function tellState(row, state, held, swept) {
  const speed = fixed(choice.speed, 1).replace(/\.0$/, "");
  const put = (/** @type {string} */ id, /** @type {string} */ words) => void (find(id).textContent !== words && (find(id).textContent = words));
  const off = swept?.take_off_speed_kn;
  put("off", swept ? (off ? say("take_off", { speed: fixed(off, 1) }) : say("no_take_off")) : "");
  if (held) {
    const what = held.height !== undefined ? "held_hull" : "held_wand";
    put("sentence", say(what, { height: metres(state.height), wand: fixed(state.wand, 0), foil: state.foil === null ? "–" : signed(state.foil, 1) }));
    put("limit", say("let_go"));
    return;
  }
  if (!row || !row.state) {
    const told = row?.sentence || swept?.rows.find((/** @type {any} */ one) => Math.abs(one.boat_speed_kn - choice.speed) < 0.26 && !one.state)?.sentence;
    put("sentence", told ? say("no_state_because", { speed, why: told }) : say("no_state", { speed }));
    put("limit", "");
    return;
  }
  put("sentence", say(`state_${row.state}`, { speed, height: metres(row.ride_height_m), bow: bow(row.trim_deg) }));
  const key = row.nearest_limit, margin = key ? row.margins[key] : null;
  put("limit", margin === null || margin === undefined ? row.sentence ?? "" : say("nearest", { words: say(`margin_${key}`, { value: fixed(margin, /_(mm|percent|n)$/.test(key) ? 0 : 1) }) }));
}

/** @param {any} row */
export const spokenSpeed = (row) =>
  say("speed_spoken", { speed: fixed(choice.speed, 1), state: row?.state ? say(`short_${row.state}`, { height: metres(row.ride_height_m), bow: bow(row.trim_deg) }) : say("short_none") });

/** What was not measured, and what each guess costs. */
export async function tellAssumed() {
  const answer = await about("assumed", "/ask/assumed");
  if (!answer) return;
  const told = answer.assumed.filter((/** @type {any} */ one) => one.ride_height_change_mm !== null && Math.abs(one.ride_height_change_mm) >= LEAST_MM);
  find("assumed").replaceChildren(...told.slice(0, GUESSES).map((/** @type {any} */ one) => Object.assign(document.createElement("li"), { textContent: guess(one) })));
  find("assumed-none").hidden = told.length > 0;
  const more = told.length - GUESSES;
  find("assumed-more").hidden = more <= 0;
  find("assumed-more").textContent = more > 0 ? say("guesses_more", { count: more }) : "";
}

/** @param {any} one */
function guess(one) {
  const [part, ...rest] = one.name.split(".");
  const key = part === "chain" && rest.length > 1 ? `chain.${rest[rest.length - 1]}` : one.name;
  const words = texts.guesses?.[key] ?? { words: one.name.replaceAll(/[._-]/g, " "), as: "" };
  const rod = part === "chain" && rest[0] === "rods" ? say("of_rod", { rod: rest[1].replaceAll("-", " ") }) : "";
  const [factor, unit, places] = words.as === "percent" ? [100, "%", 0] : words.as === "mm" ? [1000, "mm", 0] : [1, known(`unit_${one.unit}`) ? say(`unit_${one.unit}`) : one.unit, Math.abs(one.value) >= 20 ? 0 : 2];
  const form = (/** @type {number} */ x) => fixed(x * factor, places).replace(/(\.\d*?)0+$/, "$1").replace(/\.$/, "");
  return say("guess", { name: words.words + rod, value: form(one.value), low: form(one.low), high: form(one.high), unit: unit ? ` ${unit}` : "", mm: fixed(Math.abs(one.ride_height_change_mm), 0) }).replace(" °", "°");
}

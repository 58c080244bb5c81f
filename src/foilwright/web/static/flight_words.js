// What Flight says in sentences: how it flies, the nearest limit, what was guessed.

import { about, choice, find } from "./page.js";
import { bow, fixed, known, metres, say, signed, texts, typed } from "./words.js";

const GUESSES = 12, LEAST_MM = 1;

const inWind = () => choice.sweep === "wind";
const short = (/** @type {number} */ x) => fixed(x, 1).replace(/\.0$/, "");
/** Puts words where they are not yet. @param {string} id @param {string} words */
const put = (id, words) => void (find(id).textContent !== words && (find(id).textContent = words));

/** What the boat needs to fly. @param {any} swept */
function needed(swept) {
  if (!swept) return "";
  if (!inWind()) return swept.off ? say("take_off", { speed: fixed(swept.off, 1) }) : say("no_take_off");
  if (!swept.known) return say("wind_needed_later");
  const kept = swept.kept && fixed(swept.kept, 1);
  return swept.off ? say("wind_needed", { off: fixed(swept.off, 1), kept }) : say(kept ? "wind_kept" : "wind_never", { kept });
}

/** @param {number} heel degrees, to leeward positive */
const heeled = (heel) => (Math.abs(heel) < 0.5 ? say("heel_none") : say(heel < 0 ? "heel_windward" : "heel_leeward", { angle: fixed(Math.abs(heel), 0) }));

/** @param {any} row */
const inShort = (row) => (row?.state ? say(`short_${row.state}`, { height: metres(row.ride_height_m), bow: bow(row.trim_deg) }) : say("short_none"));

/** The other steady states in the wind of a row. @param {any} row @param {any[]} rows */
function also(row, rows) {
  const others = rows.filter((one) => one.state && one.stable && one.told_kn === row.told_kn && Math.abs(one.boat_speed_kn - row.boat_speed_kn) > 1e-6);
  return others.length ? say("wind_also", { others: others.map((one) => say("wind_another", { state: inShort(one), speed: fixed(one.boat_speed_kn, 1) })).join("; ") }) : "";
}

/** @param {any} row @param {any} state @param {any} held @param {any} swept @param {any[]} around the states in the wind of the row */
export function tellState(row, state, held, swept, around) {
  const wind = short(choice.wind), speed = inWind() ? fixed(row?.boat_speed_kn ?? 0, 1) : short(choice.speed);
  put("off", needed(swept));
  put("also", inWind() && row?.state && !held ? also(row, around) : "");
  if (held) {
    const what = held.height !== undefined ? "held_hull" : "held_wand";
    put("sentence", say(what, { height: metres(state.height), wand: fixed(state.wand, 0), foil: state.foil === null ? "–" : signed(state.foil, 1) }));
    put("limit", say("let_go"));
    return;
  }
  if (row?.pending) {
    put("sentence", inWind() ? say("wind_working", { wind }) : say("working"));
    put("limit", "");
    return;
  }
  if (inWind() && !row?.state) {
    const why = row?.sentence || around[0]?.sentence;
    put("sentence", why ? say("wind_none_because", { wind, why }) : say("wind_none", { wind }));
    put("limit", "");
    return;
  }
  if (!row || !row.state) {
    const told = row?.sentence || swept?.rows.find((/** @type {any} */ one) => Math.abs(one.boat_speed_kn - choice.speed) < 0.26 && !one.state)?.sentence;
    put("sentence", told ? say("no_state_because", { speed, why: told }) : say("no_state", { speed }));
    put("limit", "");
    return;
  }
  const heel = heeled(row.heel_deg ?? 0);
  put("sentence", say(`${inWind() ? "wind" : "state"}_${row.state}`, { wind, heel, speed, height: metres(row.ride_height_m), bow: bow(row.trim_deg) }));
  const key = row.nearest_limit, margin = key ? row.margins[key] : null;
  const outside = inWind() && row.outcome !== "solved" ? ` ${row.sentence}` : "";
  put("limit", margin === null || margin === undefined ? row.sentence ?? "" : say("nearest", { words: say(`margin_${key}`, { value: fixed(margin, /_(mm|percent|n)$/.test(key) ? 0 : 1) }) }) + outside);
}

/** What the slider says. @param {any} row */
export function spokenSweep(row) {
  if (!inWind()) return say("speed_spoken", { speed: fixed(choice.speed, 1), state: inShort(row) });
  const state = row?.state ? say("wind_sailing", { state: inShort(row), speed: fixed(row.boat_speed_kn, 1) }) : row?.pending ? say("working") : inShort(row);
  return say("wind_spoken", { wind: fixed(choice.wind, 1), state });
}

const COURSES = /** @type {[number, string][]} */ ([[60, "close"], [80, "close_reach"], [100, "abeam"], [155, "broad"], [180, "running"]]);

/** What is swept, in words: the angle, the wind both ways, what the effects and the charts are about.
 * @param {any} row */
export function tellSweep(row) {
  const how = choice.measured;
  put("turn-note", say(inWind() ? "turn_note_wind" : "turn_note"));
  put("speed-title", inWind() ? say("charts_title_wind", { where: say(`at_${how}`) }) : say("charts_title"));
  put("charts-note", say(inWind() ? "charts_note_wind" : "charts_note"));
  if (!inWind()) return;
  const angle = Math.abs(typed(choice.angle)), course = COURSES.find(([most]) => angle <= most);
  put("angle-words", course ? say(`angle_${course[1]}`) : "");
  put("wind-both", row?.wind_kn ? say("wind_both", { ten: fixed(row.wind_kn, 0), hand: fixed(row.hand_gauge_kn, 0) }) : "");
}

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

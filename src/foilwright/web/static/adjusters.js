// The list beside the drawing: everything that can be moved with minus, plus and a number, and what one more does.

import { arrow } from "./marks.js";
import { fixed, say, signed, spoken, typed } from "./words.js";

/** @typedef {{name: string, label: string, sign: string, unit: string, value: number, least: number, greatest: number,
 *   step: number, places: number, plus: boolean, does: {words: string, picture: string}, notes: string[]}} Entry */

/** @param {HTMLElement} list @param {(name: string, value: number) => void} change */
export function adjusterList(list, change) {
  const rows = /** @type {Map<string, any>} */ (new Map());

  /** @param {Entry} entry */
  function row(entry) {
    const item = document.createElement("li");
    item.dataset.adjuster = entry.name;
    const name = element("div", "adjuster-name"), unit = element("div", "unit"), does = element("p", "does"), notes = element("div", "notes");
    const fault = element("p", "fault");
    fault.id = `fault-${entry.name}`;
    fault.hidden = true;
    const less = button("−", say("less_of", { name: entry.label })), more = button("+", say("more_of", { name: entry.label }));
    const input = document.createElement("input");
    input.inputMode = "decimal";
    input.autocomplete = "off";
    input.maxLength = 12;
    input.id = `steps-${entry.name}`;
    input.setAttribute("aria-label", say("number_of", { name: entry.label }));
    input.setAttribute("aria-describedby", fault.id);
    const turn = element("div", "turn");
    turn.append(less, input, more);
    const words = element("div", "adjuster-words");
    words.append(name, unit, does);
    item.append(words, turn, notes, fault);
    const kept = { item, name, unit, input, does, notes, fault, entry };
    less.addEventListener("click", () => set(kept.entry.value - kept.entry.step));
    more.addEventListener("click", () => set(kept.entry.value + kept.entry.step));
    input.addEventListener("change", () => set(typed(input.value)));
    /** @param {number} value */
    function set(value) {
      const { least, greatest, places, label, plus } = kept.entry;
      const rounded = Math.round(value * 1e4) / 1e4;
      const wrong = !Number.isFinite(rounded) || rounded < least - 1e-9 || rounded > greatest + 1e-9;
      const form = plus ? signed : fixed;
      told(kept, wrong ? say("number_fault", { name: label, least: form(least, places), greatest: form(greatest, places) }) : "");
      if (!wrong) change(kept.entry.name, rounded);
    }
    list.append(item);
    rows.set(entry.name, kept);
    return kept;
  }

  return {
    /** @param {Entry[]} entries */
    show(entries) {
      const names = new Set(entries.map((one) => one.name));
      for (const [name, { item }] of rows) if (!names.has(name)) (item.remove(), rows.delete(name));
      for (const entry of entries) {
        const kept = rows.get(entry.name) ?? row(entry);
        kept.entry = entry;
        put(kept.name, entry.sign ? `${entry.sign}. ${entry.label}` : entry.label);
        put(kept.unit, entry.unit);
        const shown = (entry.plus ? signed : fixed)(entry.value, Number.isInteger(entry.value) && entry.plus ? 0 : entry.places);
        // What was typed wrong stays until it is mended.
        if (kept.input.getAttribute("aria-invalid") !== "true" || kept.last !== entry.value) {
          if (kept.input.value !== shown && (document.activeElement !== kept.input || kept.last !== entry.value)) kept.input.value = shown;
          if (kept.last !== entry.value) told(kept, "");
        }
        kept.last = entry.value;
        if (kept.picture !== entry.does.picture + entry.does.words) {
          kept.picture = entry.does.picture + entry.does.words;
          kept.does.innerHTML = entry.does.picture;
          kept.does.append(entry.does.words);
        }
        if (kept.notesShown !== entry.notes.join("|")) {
          kept.notesShown = entry.notes.join("|");
          kept.notes.replaceChildren(...entry.notes.map((words) => Object.assign(document.createElement("p"), { textContent: words })));
        }
      }
    },
    /** Tells a fault at a row; whether there is such a row. @param {string} name @param {string} words */
    fault(name, words) {
      const kept = rows.get(name);
      if (kept) told(kept, words);
      return !!kept;
    },
  };
}

/** @param {any} kept @param {string} words */
function told(kept, words) {
  kept.fault.hidden = !words;
  kept.fault.textContent = words;
  if (words) kept.input.setAttribute("aria-invalid", "true");
  else kept.input.removeAttribute("aria-invalid");
}

/** @param {HTMLElement} where @param {string} words */
const put = (where, words) => void (where.textContent !== words && (where.textContent = words));

/** A boat's adjuster as an entry of the list. @param {any} one @param {number} i @param {any} effect */
export function entryOf(one, i, effect) {
  const notes = [];
  if (one.how) notes.push(say("how", { how: one.how }));
  if (one.who || one.when) notes.push(say("who", { who: one.who ?? say("anybody"), when: one.when ? say(`when_${one.when}`) : "" }));
  if (one.mark && one.mark_mm !== null) notes.push(say("mark", { mm: fixed(one.mark_mm, 1).replace(/\.0$/, ""), words: one.mark }));
  return {
    name: one.name, label: spoken(one.name), sign: String(i + 1), unit: say("one_step", { step: one.one_step }), value: one.steps, least: one.least, greatest: one.greatest,
    step: 1, places: 1, plus: true, does: effect ? { words: effectWords(effect), picture: effectPicture(effect) } : { words: "", picture: "" }, notes,
  };
}

/** What one step more does to the height [mm] and the bow [degrees]; null where nothing steady was found. @param {any} effect */
export function effectOf(effect) {
  const height = effect.one_more.ride_height_change_mm ?? effect.ride_height_change_mm;
  const trim = effect.one_more.trim_change_deg ?? effect.trim_change_deg;
  return height === null || trim === null ? null : { height: Math.round(height), trim: Math.round(trim * 10) / 10 };
}

/** What one step more does, in words. @param {any} effect a row of the effects */
export function effectWords(effect) {
  const change = effectOf(effect);
  if (!change) return say("no_effect");
  return say("does", { height: heightChange(change.height), bow: bowChange(change.trim) });
}

/** @param {number} mm */
export const heightChange = (mm) => (mm === 0 ? say("height_same") : say(mm > 0 ? "higher" : "lower", { mm: Math.abs(mm) }));
/** @param {number} trim */
export const bowChange = (trim) => (trim === 0 ? say("bow_same") : say(trim > 0 ? "bow_up" : "bow_down", { angle: Math.abs(trim).toFixed(1) }));

/** The same as two small arrows: the hull up or down, the bow up or down. @param {any} effect */
export function effectPicture(effect) {
  const change = effectOf(effect);
  if (!change) return "";
  return `<svg class="effect-picture" viewBox="0 0 44 22" aria-hidden="true">${effectArrows(change, 10, 11)}</svg> `;
}

/** Two arrows about a place: the hull's change of height, and how the bow moves.
 * @param {{height: number, trim: number}} change @param {number} x @param {number} y */
export function effectArrows(change, x, y) {
  const up = Math.sign(change.height) * Math.min(Math.max(Math.abs(change.height) * 0.25, 5), 9);
  const bow = Math.sign(change.trim) * Math.min(Math.max(Math.abs(change.trim) * 10, 4), 8);
  return (
    (change.height ? arrow([x, y + up], [x, y - up], "effect") : "") +
    (change.trim ? arrow([x + 10, y + bow * 0.6], [x + 28, y - bow], "effect") : "")
  );
}

/** @param {string} tag @param {string} kind */
function element(tag, kind) {
  const one = document.createElement(tag);
  one.className = kind;
  return one;
}

/** @param {string} sign @param {string} label */
function button(sign, label) {
  const one = document.createElement("button");
  one.type = "button";
  one.textContent = sign;
  one.setAttribute("aria-label", label);
  return one;
}

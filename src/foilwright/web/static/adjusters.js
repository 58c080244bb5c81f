// The list of adjusters: every one with minus, plus and a number, and what one step does.

import { say, signed, spoken, typed } from "./words.js";

/** @param {HTMLElement} list @param {(name: string, steps: number) => void} change */
export function adjusterList(list, change) {
  const rows = /** @type {Map<string, {item: HTMLElement, input: HTMLInputElement, does: HTMLElement, mark: HTMLElement, fault: HTMLElement}>} */ (new Map());

  /** @param {any} one @param {number} number */
  function row(one, number) {
    const item = document.createElement("li");
    const name = document.createElement("div");
    name.className = "adjuster-name";
    name.textContent = `${number}. ${spoken(one.name)}`;
    const less = button("−", say("less_of", { name: spoken(one.name) }));
    const more = button("+", say("more_of", { name: spoken(one.name) }));
    const input = document.createElement("input");
    input.inputMode = "decimal";
    input.autocomplete = "off";
    input.setAttribute("aria-label", say("steps_of", { name: spoken(one.name) }));
    input.id = `steps-${one.name}`;
    const fault = document.createElement("p");
    fault.className = "fault";
    fault.id = `fault-${one.name}`;
    fault.hidden = true;
    input.setAttribute("aria-describedby", fault.id);
    const unit = document.createElement("span");
    unit.className = "unit";
    unit.textContent = say("one_step", { step: one.one_step });
    const does = document.createElement("p");
    const mark = document.createElement("p");
    does.className = "does";
    mark.className = "mark";
    const turn = document.createElement("div");
    turn.className = "turn";
    turn.append(less, input, more);
    item.append(name, turn, unit, does, mark, fault);
    less.addEventListener("click", () => set(typed(input.value) - 1));
    more.addEventListener("click", () => set(typed(input.value) + 1));
    input.addEventListener("change", () => set(typed(input.value)));
    /** @param {number} steps */
    function set(steps) {
      const { least, greatest } = JSON.parse(item.dataset.range ?? "{}");
      const wrong = !Number.isFinite(steps) || steps < least || steps > greatest;
      input.setAttribute("aria-invalid", String(wrong));
      fault.hidden = !wrong;
      fault.textContent = wrong ? say("steps_fault", { name: spoken(one.name), least: signed(least), greatest: signed(greatest) }) : "";
      if (!wrong) change(one.name, steps);
    }
    list.append(item);
    const kept = { item, input, does, mark, fault };
    rows.set(one.name, kept);
    return kept;
  }

  return {
    /** @param {any[]} adjusters @param {Map<string, any>} effects */
    show(adjusters, effects) {
      const names = new Set(adjusters.map((one) => one.name));
      for (const [name, { item }] of rows) if (!names.has(name)) (item.remove(), rows.delete(name));
      adjusters.forEach((one, i) => {
        const { item, input, does, mark, fault } = rows.get(one.name) ?? row(one, i + 1);
        item.dataset.range = JSON.stringify({ least: one.least, greatest: one.greatest });
        if (document.activeElement !== input || input.getAttribute("aria-invalid") !== "true") {
          input.value = signed(one.steps, Number.isInteger(one.steps) ? 0 : 1);
          input.removeAttribute("aria-invalid");
          fault.hidden = true;
        }
        const effect = effects.get(one.name);
        does.textContent = effect ? effectWords(effect) : "";
        mark.textContent = one.mark && one.mark_mm !== null ? say("mark", { mm: one.mark_mm, words: one.mark }) : "";
      });
    },
  };
}

/** What one step more does. @param {any} effect a row of the effects */
export function effectWords(effect) {
  const more = effect.one_more;
  const height = more.ride_height_change_mm ?? effect.ride_height_change_mm;
  const trim = more.trim_change_deg ?? effect.trim_change_deg;
  if (height === null || trim === null) return say("no_effect");
  return say("does", { height: say(height >= 0 ? "higher" : "lower", { mm: Math.abs(height).toFixed(0) }), bow: bowChange(trim) });
}

/** @param {number} trim */
const bowChange = (trim) =>
  Math.abs(trim) < 0.05 ? say("bow_same") : say(trim > 0 ? "bow_up" : "bow_down", { angle: Math.abs(trim).toFixed(1) });

/** @param {string} sign @param {string} label */
function button(sign, label) {
  const one = document.createElement("button");
  one.type = "button";
  one.textContent = sign;
  one.setAttribute("aria-label", label);
  return one;
}

// A bench sheet typed on the page: lines of readings as CSV, as the bosun's sheet on paper has them.

import { say, typed } from "./words.js";

const WHATS = ["batten", "batten-zero", "edge"];

/** @param {HTMLElement} body @param {() => void} changed */
export function sheetOf(body, changed) {
  /** @param {{what?: string, wand?: string, travel?: string, reading?: string}} [start] */
  function add(start = {}) {
    const row = document.createElement("tr");
    const number = body.children.length + 1;
    const what = select(WHATS.map((one) => [one, say(`what_${one}`)]), start.what ?? "batten", say("reading_what"));
    const wand = input(start.wand ?? "", say("reading_wand"));
    const travel = select([["back", say("travel_back")], ["forward", say("travel_forward")]], start.travel ?? "back", say("reading_travel"));
    const reading = input(start.reading ?? "", say("reading_value"));
    const drop = document.createElement("button");
    drop.type = "button";
    drop.textContent = "×";
    drop.setAttribute("aria-label", say("remove", { line: number }));
    drop.addEventListener("click", () => (row.remove(), changed()));
    for (const field of [what, wand, travel, reading]) {
      field.addEventListener("input", changed);
      const cell = document.createElement("td");
      cell.append(field);
      row.append(cell);
    }
    const cell = document.createElement("td");
    cell.append(drop);
    row.append(cell);
    body.append(row);
    return { wand, reading };
  }
  return {
    add,
    /** The sheet as CSV for a boat; nothing where no reading was typed. @param {string} boat */
    csv(boat) {
      const lines = ["format,foilwright/bench", "version,1", `boat,"${boat.replaceAll('"', '""')}"`, "", "what,at,way,wand_deg,travel,settings,load_n,reading,note"];
      let some = false;
      for (const row of body.children) {
        const [what, wand, travel, reading] = [...row.querySelectorAll("select, input")].map((one) => /** @type {HTMLInputElement} */ (one).value.trim());
        if (!reading) continue;
        some = true;
        const number = (/** @type {string} */ words) => (Number.isFinite(typed(words)) && words !== "" ? String(typed(words)) : `"${words.replaceAll('"', '""')}"`);
        const swung = what !== "batten-zero";
        lines.push([what, "", "", swung ? number(wand) : "", swung ? travel : "", "", "", number(reading), ""].join(","));
      }
      return some ? lines.join("\n") + "\n" : "";
    },
  };
}

/** @param {string[][]} pairs @param {string} value @param {string} label */
function select(pairs, value, label) {
  const one = document.createElement("select");
  one.append(...pairs.map(([key, words]) => new Option(words, key)));
  one.value = value;
  one.setAttribute("aria-label", label);
  return one;
}

/** @param {string} value @param {string} label */
function input(value, label) {
  const one = document.createElement("input");
  one.inputMode = "decimal";
  one.value = value;
  one.autocomplete = "off";
  one.setAttribute("aria-label", label);
  return one;
}

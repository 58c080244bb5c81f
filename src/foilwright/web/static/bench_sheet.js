// The bench sheet on the page: typed line by line or opened whole, fitted as it grows, outliers named at their lines.

import { Refused, send } from "./answers.js";
import { about, choice, find, madeFrom, tell } from "./page.js";
import { csvOf, groupsOf, lineWords } from "./sheet.js";
import { fixed, known, say, signed } from "./words.js";

const RESTS = 350; // after the last sign typed [ms]
const LARGEST = 200_000; // of a sheet [signs]
const MOST_NAMED = 4;
const LONGEST_IN_MM = 0.3; // what is longer stays in metres [m]
const HEAD = ["batten_length_mm", "rake_arm_mm", "pull_mark_mm", "bow_lift_x_m", "stern_lift_x_m"];

/** @param {(chain: any) => void} drawn takes the chain as the sheet has it, or nothing to draw */
export function benchSheet(drawn) {
  /** @type {Map<string, any>} */ let kinds = new Map();
  /** @type {{line: any, element: HTMLElement, inputs: Record<string, any>, told: HTMLElement, group: string}[]} */ const rows = [];
  let lineOf = /** @type {Map<number, any>} */ (new Map());
  let waiting = 0, focused = /** @type {any} */ (null);
  let kept = ""; // the version on the page and the sheet that it was kept with
  const here = () => `${madeFrom()}\n${text()}`;
  const pasted = find("sheet");
  const draft = `sheet of ${choice.boat}`;

  // The lines ------------------------------------------------------------------------------------------------

  /** @param {any} line @param {string} group @param {boolean} [own] a line that a person added */
  function add(line, group, own = false) {
    const place = groupPlace(group);
    const element = document.createElement("li");
    const words = document.createElement("span");
    words.className = "reading-words";
    const kind = kinds.get(line.what);
    words.textContent = lineWords(line);
    const row = { line, element, inputs: /** @type {Record<string, any>} */ ({}), told: document.createElement("p"), group };
    row.told.className = "fault";
    row.told.hidden = true;
    element.append(words);
    const fields = document.createElement("span");
    fields.className = "reading-fields";
    if (own) fields.append(...ownFields(row, words));
    if (kind?.wand || line.wand !== "" || own) {
      fields.append(labelled(say("reading_wand"), (row.inputs.wand = input(line.wand, say("reading_wand")))));
      row.inputs.travel = select([["back", say("travel_back")], ["forward", say("travel_forward")]], line.travel || "back", say("reading_travel"));
      fields.append(row.inputs.travel);
    }
    row.inputs.reading = input(line.reading ?? "", `${lineWords(line)}: ${say("reading_value")}`);
    row.inputs.reading.classList.add("reading");
    const unit = document.createElement("span");
    unit.textContent = kind ? say(`gauge_${kind.unit}`) : "";
    row.inputs.unit = unit;
    const both = document.createElement("span");
    both.className = "reading-unit";
    both.append(row.inputs.reading, unit);
    fields.append(both);
    if (own) {
      const drop = document.createElement("button");
      drop.type = "button";
      drop.textContent = "×";
      drop.setAttribute("aria-label", say("remove"));
      drop.addEventListener("click", () => leaveOut(row));
      fields.append(drop);
    }
    element.append(fields, row.told);
    for (const field of Object.values(row.inputs)) {
      field.addEventListener("input", () => changed());
      field.addEventListener("focus", () => (focused = row));
    }
    place.list.append(element);
    rows.push(row);
    return row;
  }

  /** Selects of a line that a person added. @param {any} row @param {HTMLElement} words */
  function ownFields(row, words) {
    const what = select([...kinds.keys()].map((one) => [one, say(`what_${one}`)]), row.line.what, say("reading_what"));
    const at = select([], "", say("reading_at")), way = select([["", "–"], ["one", say("way_one")], ["other", say("way_other")]], row.line.way, say("reading_way"));
    const settings = input(row.line.settings, say("reading_settings")), load = input(row.line.load, say("reading_load"));
    const fresh = () => {
      const kind = kinds.get(what.value);
      at.replaceChildren(...kind.places.map((/** @type {string} */ one) => new Option(known(`at_${one}`) ? say(`at_${one}`) : one.replaceAll("-", " "), one)));
      at.hidden = !kind.places.length;
      way.hidden = what.value !== "level";
      load.parentElement?.toggleAttribute("hidden", !kind.load);
      if (row.inputs.unit) row.inputs.unit.textContent = say(`gauge_${kind.unit}`);
      words.textContent = say("own_line");
    };
    Object.assign(row.inputs, { what, at, way, settings, load });
    const fields = [what, at, way, labelled(say("reading_settings"), settings), labelled(say("reading_load"), load)];
    what.addEventListener("change", fresh);
    fresh();
    if (row.line.at) at.value = row.line.at;
    return fields;
  }

  /** @param {string} group */
  function groupPlace(group) {
    let place = find(`group-${group}`);
    if (!place) {
      place = document.createElement("details");
      place.id = `group-${group}`;
      const summary = document.createElement("summary"), note = document.createElement("p"), list = document.createElement("ol");
      note.className = "note";
      note.textContent = say(`note_${group}`);
      list.className = "readings";
      place.append(summary, note, list);
      find("readings").append(place);
    }
    return { place, list: place.querySelector("ol"), summary: place.querySelector("summary") };
  }

  function counts() {
    for (const group of new Set(rows.map((one) => one.group))) {
      const mine = rows.filter((one) => one.group === group), read = mine.filter((one) => one.inputs.reading.value.trim()).length;
      groupPlace(group).summary.textContent = say("group_count", { name: say(`group_${group}`), read, all: mine.length });
    }
  }

  /** @param {any} row */
  function leaveOut(row) {
    const at = rows.indexOf(row);
    rows.splice(at, 1);
    row.element.hidden = true;
    offerBack(say("line_out"), () => (rows.splice(at, 0, row), (row.element.hidden = false), changed()));
    changed();
  }

  /** @param {string} words @param {() => void} back */
  function offerBack(words, back) {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = say("undo");
    button.addEventListener("click", () => (back(), find("sheet-said").replaceChildren()));
    find("sheet-said").replaceChildren(words, " ", button);
  }

  /** @param {any} row @returns {any} */
  function lineNow(row) {
    const told = (/** @type {string} */ name) => row.inputs[name]?.value?.trim() ?? row.line[name] ?? "";
    return { what: told("what"), at: row.inputs.at?.hidden ? "" : told("at"), way: row.inputs.way?.hidden ? "" : told("way"), wand: told("wand"), travel: told("travel"), settings: told("settings"), load: told("load"), note: row.line.note, reading: told("reading") };
  }

  function text() {
    if (pasted.value.trim()) return (lineOf = new Map()), pasted.value;
    const head = /** @type {[string, string][]} */ (HEAD.map((name) => [name, find(`head-${name}`).value]));
    const made = csvOf(choice.boat, head, rows.map((row) => ({ row, line: lineNow(row) })), kinds);
    lineOf = made.rows;
    return made.text;
  }

  // Fitting ---------------------------------------------------------------------------------------------------

  function changed() {
    counts();
    keepDraft();
    clearTimeout(waiting);
    waiting = setTimeout(fit, RESTS);
  }

  async function fit() {
    const words = text();
    clear();
    if (!words) return drawn(null), said(say("fit_none"));
    said(say("fit_works"));
    const set = Object.entries(choice.settings).map(([name, steps]) => `${name}=${steps}`);
    try {
      const answer = await send("fit", "/ask/bench-fit", { boat: choice.boat, sheet: words, version: madeFrom(), set });
      if (answer) show(answer);
    } catch (wrong) {
      if (!(wrong instanceof Refused)) return tell(wrong);
      drawn(null);
      const line = /line (\d+)/.exec(wrong.fault.where);
      const row = line && lineOf.get(Number(line[1]));
      const { came, allowed, mend } = wrong.fault;
      said(say(row ? "fit_line_waits" : "fit_waits"));
      const place = row ? row.told : find("fit-fault");
      place.hidden = false;
      place.textContent = row ? say("field_fault", { came, allowed, mend }) : wrong.message;
    }
    return undefined;
  }

  const said = (/** @type {string} */ words) => void (find("fit-words").textContent = words);

  function clear() {
    find("fit-fault").hidden = true;
    for (const row of rows) row.told.hidden = true;
    find("fitted").hidden = true;
    find("fit-more").replaceChildren();
    find("outliers").replaceChildren();
  }

  /** @param {any} answer */
  function show(answer) {
    const named = (/** @type {string} */ name) => answer.words[name] ?? name;
    said(answer.rms_deg === null ? say("fit_some", { readings: answer.readings }) : say("fit_rms", { rms: fixed(answer.rms_deg, 2), slop: fixed(answer.slop_deg, 2), readings: answer.readings }));
    find("fitted").hidden = false;
    find("fitted").tBodies[0].replaceChildren(...answer.fitted.filter((/** @type {any} */ one) => !answer.not_learned.includes(one.name)).map((/** @type {any} */ one) => fittedRow(one, named(one.name))));
    find("outliers").replaceChildren(
      ...answer.outliers.map((/** @type {any} */ one) => {
        const row = lineOf.get(one.line);
        const words = say("outlier", { line: row ? lineWords(lineNow(row)) : say("outlier_line", { line: one.line }), reading: shown(one.reading, one.unit), expected: shown(one.expected, one.unit) });
        if (row) (row.told.hidden = false), (row.told.textContent = words);
        return Object.assign(document.createElement("li"), { textContent: words });
      }),
    );
    const more = answer.warnings.map((/** @type {string} */ told) => told.replace(/^([\w.-]+):/, (/** @type {string} */ _, /** @type {string} */ name) => `${named(name)}:`));
    if (answer.not_learned.length) more.push(say(answer.not_learned.length > MOST_NAMED ? "not_learned_more" : "not_learned", { names: answer.not_learned.slice(0, MOST_NAMED).map(named).join("; "), more: answer.not_learned.length - MOST_NAMED }));
    for (const pair of answer.together.slice(0, 3)) more.push(say("together", { names: pair.names.map(named).join(say("and")) }));
    if (!answer.settled) more.push(say("not_settled"));
    const isKept = here() === kept;
    drawn(isKept ? null : answer.chain);
    if (!isKept) more.push(say("fit_drawn"));
    find("fit-more").replaceChildren(...more.map((/** @type {string} */ words) => Object.assign(document.createElement("li"), { textContent: words })));
  }

  // Whole sheets ----------------------------------------------------------------------------------------------

  pasted.addEventListener("input", changed);
  find("sheet-file").addEventListener("change", async () => {
    const file = find("sheet-file").files[0];
    if (!file) return;
    const old = pasted.value;
    find("sheet-file").value = "";
    if (file.size > LARGEST) {
      find("fit-fault").hidden = false;
      find("fit-fault").textContent = say("sheet_large", { most: LARGEST });
      return;
    }
    pasted.value = await file.text();
    offerBack(say("sheet_opened", { name: file.name }), () => ((pasted.value = old), changed()));
    changed();
  });
  find("sheet-clear").addEventListener("click", () => {
    const old = pasted.value;
    if (!old) return;
    pasted.value = "";
    offerBack(say("sheet_cleared"), () => ((pasted.value = old), changed()));
    changed();
  });
  find("add-line").addEventListener("click", () => {
    const row = add({ what: "batten", at: "", way: "", wand: "", travel: "back", settings: "", load: "", note: "", reading: "" }, "own", true);
    groupPlace("own").place.open = true;
    counts();
    row.inputs.what.focus();
  });
  for (const name of HEAD) find(`head-${name}`).addEventListener("input", changed);

  // What was typed stays through a reload --------------------------------------------------------------------

  function keepDraft() {
    try {
      const own = rows.filter((row) => row.group === "own").map(lineNow);
      const typed = rows.filter((row) => row.group !== "own").map((row) => [row.inputs.wand?.value ?? "", row.inputs.travel?.value ?? "", row.inputs.reading.value]);
      sessionStorage.setItem(draft, JSON.stringify({ typed, own, pasted: pasted.value, kept, head: HEAD.map((name) => find(`head-${name}`).value) }));
    } catch {
      // A browser that keeps nothing: the page works without.
    }
  }

  function takeDraft() {
    const old = JSON.parse(sessionStorage.getItem(draft) ?? "null");
    if (!old || old.typed.length !== rows.length) return;
    old.typed.forEach((/** @type {string[]} */ [wand, travel, reading], /** @type {number} */ i) => {
      const { inputs } = rows[i];
      if (inputs.wand) (inputs.wand.value = wand), (inputs.travel.value = travel);
      inputs.reading.value = reading;
      if (reading) groupPlace(rows[i].group).place.open = true;
    });
    for (const line of old.own) add(line, "own", true);
    pasted.value = old.pasted;
    kept = old.kept ?? "";
    HEAD.forEach((name, i) => (find(`head-${name}`).value = old.head[i] ?? ""));
    if (text()) changed();
  }

  return {
    text,
    /** Fits once more where the boat moved under the sheet. */
    again() {
      if (!text() || here() === kept) return;
      clearTimeout(waiting);
      waiting = setTimeout(fit, RESTS);
    },
    /** The boat on the page is kept with this sheet: nothing of it is still to come. Or that was taken back.
     * @param {boolean} isSo */
    kept(isSo) {
      kept = isSo ? here() : "";
      keepDraft();
      if (isSo) drawn(null);
    },
    /** An angle from the phone into the field that was last used. @param {{wand: number, level: number}} angle */
    take(angle) {
      if (!focused) return void (find("sheet-said").textContent = say("gauge_where"));
      const level = lineNow(focused).what === "level";
      const field = level ? focused.inputs.reading : focused.inputs.wand ?? focused.inputs.reading;
      field.value = (level ? angle.level : angle.wand).toFixed(1);
      changed();
      return undefined;
    },
    async begin() {
      const answer = await about("sheet", "/ask/sheet");
      if (!answer) return;
      kinds = new Map(answer.kinds.map((/** @type {any} */ one) => [one.what, one]));
      const groups = groupsOf(answer.lines);
      answer.lines.forEach((/** @type {any} */ one, /** @type {number} */ i) =>
        add({ what: one.what, at: one.at, way: one.way, wand: one.wand_deg === null ? "" : String(one.wand_deg), travel: one.travel, settings: one.settings, load: one.load_n === null ? "" : String(one.load_n), note: one.note, reading: "" }, groups[i]));
      find("group-batten")?.setAttribute("open", "");
      find("head-batten_length_mm").value = String(answer.batten_mm);
      takeDraft();
      counts();
    },
  };
}

/** @param {any} one @param {string} name */
function fittedRow(one, name) {
  const row = document.createElement("tr");
  // Lengths of parts in mm; as many decimals as how sure it is has two signs.
  const small = one.unit === "m" && Math.abs(one.after) < LONGEST_IN_MM, factor = small ? 1000 : 1;
  const unit = small ? "mm" : known(`unit_${one.unit}`) ? say(`unit_${one.unit}`) : one.unit;
  const error = one.standard_error * factor;
  const places = error > 0 ? Math.min(Math.max(1 - Math.floor(Math.log10(error)), 0), 5) : 2;
  const cells = [unit ? say("fit_number", { name, unit }) : name, fixed(one.before * factor, places), fixed(one.after * factor, places), fixed(error, places)];
  row.append(...cells.map((words, i) => Object.assign(document.createElement(i ? "td" : "th"), { textContent: words })));
  return row;
}

/** @param {number} x @param {string} unit */
const shown = (x, unit) => `${signed(x, 1)} ${known(`gauge_${unit}`) ? say(`gauge_${unit}`) : unit}`;

/** @param {string} words @param {HTMLElement} field */
function labelled(words, field) {
  const label = document.createElement("label");
  label.append(`${words} `, field);
  return label;
}

/** @param {string[][]} pairs @param {string} value @param {string} label */
function select(pairs, value, label) {
  const one = document.createElement("select");
  one.append(...pairs.map(([key, words]) => new Option(words, key)));
  if (value) one.value = value;
  one.setAttribute("aria-label", label);
  return one;
}

/** @param {string} value @param {string} label */
function input(value, label) {
  const one = document.createElement("input");
  one.inputMode = "decimal";
  one.value = value;
  one.maxLength = 60;
  one.autocomplete = "off";
  one.setAttribute("aria-label", label);
  return one;
}

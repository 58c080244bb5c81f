// What both pages share: the boat that is chosen, one frame at a time, faults told in words where they belong.

import { ask, Refused } from "./answers.js";
import { query, readChoice, sweepWords, writeChoice } from "./choice.js";
import { say, texts } from "./words.js";

export const names = /** @type {string[]} */ (JSON.parse(document.getElementById("boats")?.textContent ?? "[]"));
export const choice = readChoice(names);
export const find = (/** @type {string} */ id) => /** @type {any} */ (document.getElementById(id));

/** What the server calls a field, and the field on the page. */
const FIELDS = /** @type {Record<string, string>} */ ({ sailor: "sailor", speed: "speed-number", wind: "wind-number", angle: "angle-number", measured: "measured", by: "by", wand: "wand-number", sheet: "sheet" });

let tellAdjuster = (/** @type {string} */ _name, /** @type {string} */ _words) => false;
/** Lets faults of adjusters be told in their own rows. @param {(name: string, words: string) => boolean} tell */
export const adjustersTell = (tell) => void (tellAdjuster = tell);

/** The last fault in full, for where it has to be told again. */
export const last = { fault: "", where: "" };

/** Tells a fault at the field that is wrong, else where everybody looks for it; nothing that was typed is
 * taken away. Without a fault all places are cleared. @param {unknown} fault */
export function tell(fault) {
  const place = find("fault");
  place.hidden = true;
  place.textContent = "";
  for (const id of Object.values(FIELDS)) fieldFault(id, "");
  if (!fault) return;
  if (fault instanceof Refused) {
    const { where, came, allowed, mend } = fault.fault;
    Object.assign(last, { fault: fault.message, where });
    const words = say("field_fault", { came, allowed, mend });
    const [first, second] = where.split(/[ .:]/);
    if ((first === "set" || first === "settings") && second && tellAdjuster(second, words)) return;
    if (FIELDS[first] && fieldFault(FIELDS[first], words)) return;
    place.hidden = false;
    place.textContent = fault.message;
    return;
  }
  place.hidden = false;
  place.textContent = say("broken");
  throw fault;
}

/** A sentence under a field; whether there is such a place. @param {string} id @param {string} words */
export function fieldFault(id, words) {
  const field = find(id), place = find(`${id.replace("-number", "")}-fault`);
  if (!field || !place) return false;
  place.hidden = !words;
  place.textContent = words;
  if (words) field.setAttribute("aria-invalid", "true");
  else field.removeAttribute("aria-invalid");
  return true;
}

let opened = /** @type {number | null} */ (null);
/** The version on the page, 0 for the example: a change is made from it, whatever others saved meanwhile. */
export const madeFrom = () => choice.version ?? opened ?? 0;
/** The next answer says anew which version is the newest. */
export const openNewest = () => (opened = choice.version = null);

/** Asks for something about the chosen boat. @param {string} kind @param {string} path @param {Record<string, string>} [more] */
export async function about(kind, path, more = {}) {
  const words = query(choice);
  if (opened !== null) words.set("version", String(madeFrom()));
  for (const [name, value] of Object.entries(more)) words.set(name, value);
  try {
    const answer = await ask(kind, `${path}?${words}`);
    if (answer && kind !== "effects" && kind !== "assumed") tell(null);
    const drawn = answer?.drawing ?? answer;
    if (drawn && "version_id" in drawn) opened = drawn.version_id;
    return answer;
  } catch (fault) {
    tell(fault);
    return null;
  }
}

let waiting = false;
/** Draws at the next frame, however often it is asked to. @param {() => void} draw */
export function nextFrame(draw) {
  if (waiting) return;
  waiting = true;
  requestAnimationFrame(() => {
    waiting = false;
    draw();
  });
}

/** Gives a drawing the size it is shown at, so that its words are as large as all others.
 * @param {SVGSVGElement} svg @param {number} wide @param {number} high */
export function sized(svg, wide, high) {
  const size = `0 0 ${wide} ${high}`;
  if (svg.getAttribute("viewBox") === size) return;
  svg.setAttribute("viewBox", size);
  svg.style.height = `${high}px`;
}

const inked = /** @type {WeakMap<Element, string>} */ (new WeakMap());
/** Puts marks into a drawing; the same marks again cost nothing. @param {Element} place @param {string} marks */
export function ink(place, marks) {
  if (inked.get(place) === marks) return;
  inked.set(place, marks);
  place.innerHTML = marks;
}

/** The same for a drawing in layers, lowest first: only those that changed are drawn anew.
 * @param {Element} place @param {string[]} layers */
export function inkLayers(place, layers) {
  while (place.children.length > layers.length) place.lastElementChild?.remove();
  layers.forEach((marks, i) => ink(place.children[i] ?? place.appendChild(document.createElementNS("http://www.w3.org/2000/svg", "g")), marks));
}

/** How wide the places of the drawings are, measured only when they change.
 * @param {string[]} ids @param {() => void} changed @returns {Record<string, number>} */
export function widths(ids, changed) {
  const found = /** @type {Record<string, number>} */ ({});
  const look = () => ids.forEach((id) => (found[id] = Math.floor(find(id).clientWidth) || 320));
  look();
  const watch = new ResizeObserver(() => (look(), changed()));
  for (const id of ids) watch.observe(find(id));
  window.addEventListener("resize", () => (look(), changed()));
  return found;
}

/** Whether drawings stand side by side: the same limit as in the style. */
export const wideScreen = () => window.matchMedia("(min-width: 1100px)").matches;

/** The boats and the versions of this one. @param {any} boats the answer of /boats */
export function fillBoats(boats) {
  const select = find("boat");
  select.value = choice.boat;
  const here = boats.boats.find((/** @type {any} */ one) => one.name === choice.boat);
  const side = find("versions");
  side.replaceChildren();
  for (const one of here?.versions ?? []) {
    const item = document.createElement("option");
    item.value = String(one.version_id);
    item.textContent = say("version", { made_by: one.made_by, made_at: local(one.made_at) });
    side.append(item);
  }
  if (here?.example) {
    const item = document.createElement("option");
    item.value = "0";
    item.textContent = say("example");
    side.append(item);
  }
  const newest = here?.versions.at(-1)?.version_id ?? 0;
  side.value = String(choice.version ?? newest);
  return here;
}

find("boat").addEventListener("change", () => {
  location.search = new URLSearchParams({ boat: find("boat").value, ...sweepWords(choice) }).toString();
});
find("versions").addEventListener("change", () => openVersion(Number(find("versions").value)));

/** Opens a version of this boat as it was kept. @param {number} version */
export function openVersion(version) {
  choice.version = version;
  choice.settings = {};
  writeChoice(choice, true);
  location.reload();
}

export const local = (/** @type {string} */ at) => new Date(at).toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" });

for (const key of ["server", "silent", "running", "again"]) document.body.dataset[key] = texts[key] ?? "";

// An address that says another choice is another choice: back and forward load it.
window.addEventListener("popstate", () => location.reload());

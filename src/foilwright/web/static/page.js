// What both pages share: the boat that is chosen, its drawing, one frame at a time, faults told in words.

import { ask, Refused } from "./answers.js";
import { query, readChoice, writeChoice } from "./choice.js";
import { say, texts } from "./words.js";

export const names = /** @type {string[]} */ (JSON.parse(document.getElementById("boats")?.textContent ?? "[]"));
export const choice = readChoice(names);
export const find = (/** @type {string} */ id) => /** @type {any} */ (document.getElementById(id));

/** Tells a fault where everybody looks for it; nothing takes it away. @param {unknown} fault */
export function tell(fault) {
  const place = find("fault");
  place.hidden = !fault;
  place.textContent = fault instanceof Refused ? fault.message : fault ? say("broken") : "";
  if (fault && !(fault instanceof Refused)) throw fault;
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
    if (answer) tell(null);
    if (answer && "version_id" in answer) opened = answer.version_id;
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

/** The size of a drawing in pixels of the page, so that its words are as large as all others.
 * @param {SVGSVGElement} svg @param {number} high */
export function sized(svg, high) {
  const wide = svg.clientWidth || svg.parentElement?.clientWidth || 320;
  svg.setAttribute("viewBox", `0 0 ${wide} ${high}`);
  svg.style.height = `${high}px`;
  return wide;
}

/** The usual mass of the crew where none was typed. @param {any} boats the answer of /boats */
export function fillBoats(boats) {
  const select = find("boat");
  select.value = choice.boat;
  select.addEventListener("change", () => {
    location.search = new URLSearchParams({ boat: select.value, speed: String(choice.speed) }).toString();
  });
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
    item.value = "";
    item.textContent = say("example");
    if (!here.versions.length) side.append(item);
  }
  const newest = here?.versions.at(-1)?.version_id ?? "";
  side.value = String(choice.version ?? newest);
  side.addEventListener("change", () => {
    choice.version = Number(side.value) || null;
    choice.settings = {};
    writeChoice(choice);
    location.reload();
  });
  find("beside").hidden = (here?.versions.length ?? 0) < 2;
}

export const local = (/** @type {string} */ at) => new Date(at).toLocaleString(document.documentElement.lang, { dateStyle: "medium", timeStyle: "short" });

for (const [name, key] of [["server", "server"], ["silent", "silent"], ["running", "running"], ["again", "again"]]) {
  document.body.dataset[name] = texts[key] ?? "";
}

// A bench sheet typed on the page: the lines of the boat's own sheet in the order that saves time, as CSV.

import { known, say, typed } from "./words.js";

/** @typedef {{what: string, at: string, way: string, wand: string, travel: string, settings: string, load: string, note: string, reading: string}} Reading */

/** In which part of the measurement a line belongs. @param {any[]} lines @returns {string[]} */
export function groupsOf(lines) {
  const plain = lines.map((one) => {
    if (one.what === "batten-zero") return null;
    if (one.what === "level") return one.at === "reference" ? undefined : "level";
    return one.what.endsWith("-stop") ? "stops" : one.what;
  });
  const found = /** @type {string[]} */ ([]);
  for (let i = 0; i < plain.length; i += 1) {
    const next = plain.slice(i).find((one) => typeof one === "string");
    if (typeof plain[i] === "string") found.push(/** @type {string} */ (plain[i]));
    else if (plain[i] === null) found.push(found[i - 1] ?? next ?? "batten");
    else found.push(found[i - 1] === "level" ? "level" : next ?? "level");
  }
  return found;
}

/** What a line is about, in words. @param {Reading} line */
export function lineWords(line) {
  const parts = [say(`what_${line.what}`)];
  if (line.at) parts.push(known(`at_${line.at}`) ? say(`at_${line.at}`) : line.at.replaceAll("-", " "));
  if (line.way) parts.push(say(`way_${line.way}`));
  if (line.load) parts.push(say("with_load", { load: line.load }));
  if (line.settings) parts.push(say("with_settings", { settings: line.settings.replaceAll("-", " ").replace("= ", "=\u2212").replaceAll("=", " ") }));
  return parts.join(", ");
}

const quoted = (/** @type {string} */ words) => (/[",\n\r]/.test(words) ? `"${words.replaceAll('"', '""').replaceAll(/[\n\r]+/g, " ")}"` : words);
const number = (/** @type {string} */ words) => (Number.isFinite(typed(words)) ? String(typed(words)) : quoted(words));

/** The sheet as CSV, and which line of it each reading is.
 * @param {string} boat @param {[string, string][]} head @param {{row: any, line: Reading}[]} readings @param {Map<string, any>} kinds */
export function csvOf(boat, head, readings, kinds) {
  const lines = ["format,foilwright/bench", "version,1", `boat,${quoted(boat)}`];
  for (const [name, words] of head) if (words.trim()) lines.push(`${name},${number(words.trim())}`);
  lines.push("", "what,at,way,wand_deg,travel,settings,load_n,reading,note");
  const rows = /** @type {Map<number, any>} */ (new Map());
  for (const { row, line } of readings) {
    if (!line.reading.trim()) continue;
    const swung = kinds.get(line.what)?.wand || line.wand;
    lines.push([line.what, line.at, line.way, swung ? number(line.wand) : "", swung ? line.travel : "", quoted(line.settings), line.load ? number(line.load) : "", number(line.reading.trim()), quoted(line.note)].join(","));
    rows.set(lines.length, row);
  }
  return { text: rows.size ? `${lines.join("\n")}\n` : "", rows };
}

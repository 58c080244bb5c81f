// Words and numbers for people. The words come from the page; here they only get their numbers.

const island = document.getElementById("texts");
/** @type {Record<string, any>} */
export const texts = island ? JSON.parse(island.textContent ?? "{}") : {};

const UNITS = /(\d) (?=(?:kn|mm|m|kg|N|%)(?![\w²]))/g;

/** @param {string} key @param {Record<string, unknown>} [values] */
export function say(key, values = {}) {
  const form = texts[key] ?? key;
  // A number and its unit stay in one line.
  return String(form).replace(/\{(\w+)\}/g, (_, name) => String(values[name] ?? "")).replace(UNITS, "$1\u00a0");
}
export const known = (/** @type {string} */ key) => key in texts;

const minus = (/** @type {string} */ words) => words.replace("-", "−");
export const fixed = (/** @type {number} */ x, /** @type {number} */ places) => {
  const words = x.toFixed(places);
  return minus(Number(words) === 0 ? (0).toFixed(places) : words);
};
export const signed = (/** @type {number} */ x, /** @type {number} */ places = 0) =>
  Number(x.toFixed(places)) > 0 ? `+${fixed(x, places)}` : fixed(x, places);
export const steps = (/** @type {number} */ x) => signed(x, Number.isInteger(x) ? 0 : 1);
export const metres = (/** @type {number} */ x) => `${fixed(x, 2)} m`;
export const newtons = (/** @type {number} */ n) => `${fixed(n, 0)} N`;

/** "bow up 1.2°" @param {number} trim degrees */
export const bow = (trim) =>
  Math.abs(trim) < 0.05 ? say("bow_level") : say(trim > 0 ? "bow_up" : "bow_down", { angle: Math.abs(trim).toFixed(1) });

/** A number as a person types it: a decimal comma is as good as a point; nothing is no number. @param {string} words */
export function typed(words) {
  const plain = words.trim().replace(",", ".").replace("−", "-").replace(/^\+/, "");
  return plain === "" ? NaN : Number(plain);
}

export const spoken = (/** @type {string} */ name) => name.replaceAll("-", " ");

// What is chosen: boat, version, sailor, settings, speed or wind, wand. The address always says all of it.

/** @typedef {{boat: string, version: number | null, sailor: string, settings: Record<string, number>,
 *   speed: number, wand: number | null, sweep: "speed" | "wind", wind: number, angle: string, measured: string}} Choice */

export const LEAST = 4, GREATEST = 24; // boat speeds and winds that are swept [kn]
export const USUAL = { angle: "90", measured: "forecast" };

/** Reads the choice from the address. @param {string[]} names @returns {Choice} */
export function readChoice(names) {
  const query = new URLSearchParams(location.search);
  const boat = query.get("boat"), version = query.get("version"), wand = query.get("wand");
  const settings = /** @type {Record<string, number>} */ ({});
  for (const one of query.getAll("set")) {
    const [name, steps] = one.split("=");
    if (name && steps && Number.isFinite(Number(steps))) settings[name] = Number(steps);
  }
  const knots = (/** @type {string} */ name) => {
    const found = Number(query.get(name) ?? 12);
    return Number.isFinite(found) ? Math.min(Math.max(found, LEAST), GREATEST) : 12;
  };
  return {
    boat: boat && names.includes(boat) ? boat : (names.includes("Marram") ? "Marram" : names[0]),
    version: version && /^\d+$/.test(version) ? Number(version) : null,
    sailor: query.get("sailor") ?? "",
    settings,
    speed: knots("speed"),
    wand: wand === null || wand === "" || !Number.isFinite(Number(wand)) ? null : Number(wand),
    sweep: query.get("sweep") === "wind" ? "wind" : "speed",
    wind: knots("wind"),
    angle: query.get("angle") ?? USUAL.angle,
    measured: query.get("measured") ?? USUAL.measured,
  };
}

/** The query that asks for a choice. @param {Choice} choice */
export function query(choice) {
  const words = new URLSearchParams({ boat: choice.boat });
  if (choice.version !== null) words.set("version", String(choice.version));
  if (choice.sailor) words.set("sailor", choice.sailor);
  for (const [name, steps] of Object.entries(choice.settings)) words.append("set", `${name}=${steps}`);
  return words;
}

/** What is swept, as the address says it. @param {Choice} choice */
export function sweepWords(choice) {
  const words = /** @type {Record<string, string>} */ ({ speed: String(Math.round(choice.speed * 10) / 10) });
  if (choice.sweep !== "wind") return words;
  return { ...words, sweep: "wind", wind: String(Math.round(choice.wind * 10) / 10), angle: choice.angle, measured: choice.measured };
}

const SELDOM = 400; // browsers refuse addresses that change too often [ms]
let written = 0, later = 0;

/** Puts the choice into the address, for sharing and for reloading. Turning a part replaces the address,
 * so that "back" leads to the page before; `step` makes a step of its own.
 * @param {Choice} choice @param {boolean} [step] */
export function writeChoice(choice, step = false) {
  const words = query(choice);
  for (const [name, value] of Object.entries(sweepWords(choice))) words.set(name, value);
  if (choice.wand !== null) words.set("wand", String(Math.round(choice.wand * 10) / 10));
  for (const link of document.querySelectorAll("nav a")) {
    /** @type {HTMLAnchorElement} */ (link).href = `${new URL(/** @type {HTMLAnchorElement} */ (link).href).pathname}?${words}`;
  }
  clearTimeout(later);
  const wait = written + SELDOM - performance.now();
  if (!step && wait > 0) return void (later = setTimeout(() => writeChoice(choice), wait));
  written = performance.now();
  const address = `${location.pathname}?${words}`;
  if (step) history.pushState(null, "", address);
  else history.replaceState(null, "", address);
  return undefined;
}

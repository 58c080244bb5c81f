// What is chosen: boat, version, sailor, settings, speed, wand. The address always says all of it.

/** @typedef {{boat: string, version: number | null, sailor: string, settings: Record<string, number>,
 *   speed: number, wand: number | null}} Choice */

/** Reads the choice from the address. @param {string[]} names @returns {Choice} */
export function readChoice(names) {
  const query = new URLSearchParams(location.search);
  const boat = query.get("boat"), version = query.get("version"), wand = query.get("wand");
  const settings = /** @type {Record<string, number>} */ ({});
  for (const one of query.getAll("set")) {
    const [name, steps] = one.split("=");
    if (name && steps && Number.isFinite(Number(steps))) settings[name] = Number(steps);
  }
  const speed = Number(query.get("speed") ?? 12);
  return {
    boat: boat && names.includes(boat) ? boat : (names.includes("Marram") ? "Marram" : names[0]),
    version: version && /^\d+$/.test(version) ? Number(version) : null,
    sailor: query.get("sailor") ?? "",
    settings,
    speed: Number.isFinite(speed) ? Math.min(Math.max(speed, 4), 24) : 12,
    wand: wand === null || wand === "" || !Number.isFinite(Number(wand)) ? null : Number(wand),
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

const SELDOM = 400; // browsers refuse addresses that change too often [ms]
let written = 0, later = 0;

/** Puts the choice into the address, for sharing and for reloading. Turning a part replaces the address,
 * so that "back" leads to the page before; `step` makes a step of its own.
 * @param {Choice} choice @param {boolean} [step] */
export function writeChoice(choice, step = false) {
  const words = query(choice);
  words.set("speed", String(Math.round(choice.speed * 10) / 10));
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

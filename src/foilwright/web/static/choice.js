// What is chosen: boat, version, sailor, settings, speed, wand. The address always says all of it.

/** @typedef {{boat: string, version: number | null, sailor: string, settings: Record<string, number>,
 *   speed: number, wand: number | null}} Choice */

/** Reads the choice from the address. @param {string[]} names @returns {Choice} */
export function readChoice(names) {
  const query = new URLSearchParams(location.search);
  const boat = query.get("boat");
  const settings = /** @type {Record<string, number>} */ ({});
  for (const one of query.getAll("set")) {
    const [name, steps] = one.split("=");
    if (name && Number.isFinite(Number(steps))) settings[name] = Number(steps);
  }
  const speed = Number(query.get("speed") ?? 12), wand = query.get("wand");
  return {
    boat: boat && names.includes(boat) ? boat : (names.includes("Marram") ? "Marram" : names[0]),
    version: Number(query.get("version")) || null,
    sailor: query.get("sailor") ?? "",
    settings,
    speed: Number.isFinite(speed) ? Math.min(Math.max(speed, 4), 24) : 12,
    wand: wand === null || !Number.isFinite(Number(wand)) ? null : Number(wand),
  };
}

/** The query that asks for a choice. @param {Choice} choice */
export function query(choice) {
  const words = new URLSearchParams({ boat: choice.boat });
  if (choice.version) words.set("version", String(choice.version));
  if (choice.sailor) words.set("sailor", choice.sailor);
  for (const [name, steps] of Object.entries(choice.settings)) words.append("set", `${name}=${steps}`);
  return words;
}

/** Puts the choice into the address, for sharing and for reloading. @param {Choice} choice */
export function writeChoice(choice) {
  const words = query(choice);
  words.set("speed", String(choice.speed));
  if (choice.wand !== null) words.set("wand", String(Math.round(choice.wand * 10) / 10));
  history.replaceState(null, "", `${location.pathname}?${words}`);
  for (const link of document.querySelectorAll("nav a")) {
    /** @type {HTMLAnchorElement} */ (link).href = `${new URL(/** @type {HTMLAnchorElement} */ (link).href).pathname}?${words}`;
  }
}

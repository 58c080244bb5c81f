// Another boat, another version or these settings as they are now, laid over the drawing; and which turn there does the same.

import { ask } from "./answers.js";
import { query } from "./choice.js";
import { choice, find, local, madeFrom, tell } from "./page.js";
import { say, signed, spoken } from "./words.js";

/** The answer of a sweep over speeds as the page reads it. @param {any} answer */
export function withSpeeds(answer) {
  const xs = /** @type {number[]} */ ([]);
  for (const row of answer.rows) if (!xs.length || row.boat_speed_kn > xs[xs.length - 1] + 1e-6) xs.push(row.boat_speed_kn);
  const counted = answer.counts.map((/** @type {number | null} */ i) => (i === null ? null : answer.rows[i]));
  return { xs, counted, rows: answer.rows, known: true, off: answer.take_off_speed_kn };
}

/** The boat speed at which steps are compared. @param {any} now */
const speedOf = (now) => String(Math.round(now.speed * 10) / 10);

/** @typedef {(kind: string, words: URLSearchParams, grown: (swept: any) => void) => Promise<void>} Sweep */

/** @param {() => any} present what is on the page: drawn, chain, swept, speed @param {Sweep} sweep @param {(other: any) => void} laid */
export function layingOver(present, sweep, laid) {
  let other = /** @type {any} */ (null);

  find("over").addEventListener("change", async () => {
    const option = find("over").selectedOptions[0];
    const name = option.value, version = option.dataset.version;
    other = null;
    const words = new URLSearchParams({ boat: version ? choice.boat : name });
    if (version) words.set("version", version);
    if (name === "=") {
      const now = query(choice);
      now.set("version", String(madeFrom()));
      const { drawn, chain, swept } = present();
      other = { drawn, chain, swept, words: now, name: say("over_then"), boat: choice.boat };
    } else if (name) {
      try {
        const drawing = await ask("other-drawing", `/ask/drawing?${words}`);
        if (drawing) other = { drawn: drawing.drawn, chain: drawing.chain, swept: null, words, name: option.textContent, boat: version ? choice.boat : name };
        tell(null);
      } catch (fault) {
        find("over").value = "";
        tell(fault);
      }
    }
    laid(other);
    if (other && !(other.swept && other.swept.known)) await again();
    await fill();
  });

  /** Its curves anew: something else is swept. */
  async function again() {
    const mine = other;
    if (!mine) return;
    try {
      await sweep("other-sweep", mine.words, (swept) => {
        if (other === mine) laid(Object.assign(mine, { swept }));
      });
    } catch (fault) {
      find("over").value = "";
      laid((other = null));
      tell(fault);
    }
  }

  async function fill() {
    find("same").hidden = !other;
    if (!other) return;
    const options = (/** @type {any} */ select, /** @type {any[]} */ adjusters) =>
      select.replaceChildren(...adjusters.filter((one) => !one.choice).map((one) => new Option(spoken(one.name), one.name)));
    options(find("same-a"), present().drawn.adjusters);
    options(find("same-b"), other.drawn.adjusters);
    await same();
  }

  async function same() {
    const a = find("same-a").value, b = find("same-b").value;
    if (!a || !b || !other) return;
    find("same-words").textContent = say("working");
    const speed = speedOf(present());
    const words = new URLSearchParams({ boat_a: choice.boat, adjuster_a: a, boat_b: other.boat, adjuster_b: b, speed });
    if (choice.sailor) words.set("sailor_a", choice.sailor);
    try {
      const answer = await ask("same", `/ask/same-as?${words}`);
      if (!answer) return;
      const left = answer.left_over ?? {};
      find("same-words").textContent = answer.steps === null
        ? say("same_none", { speed })
        : [
          say("same_words", { a: spoken(a), steps: signed(answer.steps, 1), b: spoken(b), boat: other.name, speed }),
          Math.abs(left.ride_height_change_mm ?? 0) < 1 && Math.abs(left.trim_change_deg ?? 0) < 0.05 ? say("left_nothing") : say("left_over", { height: signed(left.ride_height_change_mm ?? 0), bow: signed(left.trim_change_deg ?? 0, 1) }),
          answer.within_range === false ? say("same_beyond") : "",
        ].join(" ");
    } catch (fault) {
      find("same-words").textContent = "";
      tell(fault);
    }
  }
  find("same-a").addEventListener("change", same);
  find("same-b").addEventListener("change", same);

  return {
    same,
    again,
    clear: () => other && (other.swept = null),
    /** The versions of this boat, to lay over. @param {any} boats */
    offer(boats) {
      const here = boats?.boats.find((/** @type {any} */ one) => one.name === choice.boat);
      for (const old of find("over").querySelectorAll("[data-version]")) old.remove();
      for (const one of here?.versions ?? []) {
        const item = new Option(say("over_version", { version: say("version", { made_by: one.made_by, made_at: local(one.made_at) }) }), `version ${one.version_id}`);
        item.dataset.version = String(one.version_id);
        find("over").append(item);
      }
    },
  };
}

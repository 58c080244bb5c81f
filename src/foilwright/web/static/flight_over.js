// Another boat, another version or these settings as they are now, laid over the drawing; and which turn there does the same.

import { ask } from "./answers.js";
import { choice, find, local, tell } from "./page.js";
import { say, signed, spoken } from "./words.js";

/** Rows of an answer with the speeds beside them. @param {any} answer */
export function withSpeeds(answer) {
  const speeds = /** @type {number[]} */ ([]);
  for (const row of answer.rows) if (!speeds.length || row.boat_speed_kn > speeds[speeds.length - 1] + 1e-6) speeds.push(row.boat_speed_kn);
  return { ...answer, speeds };
}

/** @param {() => any} present what is on the page: drawn, chain, swept @param {(other: any) => void} laid */
export function layingOver(present, laid) {
  let other = /** @type {any} */ (null);

  find("over").addEventListener("change", async () => {
    const option = find("over").selectedOptions[0];
    const name = option.value, version = option.dataset.version;
    other = null;
    if (name === "=") other = { ...present(), name: say("over_then"), boat: choice.boat };
    else if (name) {
      const words = new URLSearchParams({ boat: version ? choice.boat : name });
      if (version) words.set("version", version);
      try {
        const [drawing, sweep] = await Promise.all([ask("other-drawing", `/ask/drawing?${words}`), ask("other-sweep", `/ask/sweep?${words}`)]);
        if (drawing && sweep) other = { drawn: drawing.drawn, chain: drawing.chain, swept: withSpeeds(sweep), name: option.textContent, boat: version ? choice.boat : name };
        tell(null);
      } catch (fault) {
        find("over").value = "";
        tell(fault);
      }
    }
    laid(other);
    await fill();
  });

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
    const words = new URLSearchParams({ boat_a: choice.boat, adjuster_a: a, boat_b: other.boat, adjuster_b: b, speed: String(choice.speed) });
    if (choice.sailor) words.set("sailor_a", choice.sailor);
    try {
      const answer = await ask("same", `/ask/same-as?${words}`);
      if (!answer) return;
      const left = answer.left_over ?? {};
      find("same-words").textContent = answer.steps === null
        ? say("same_none", { speed: signed(choice.speed, 1).replace("+", "") })
        : [
          say("same_words", { a: spoken(a), steps: signed(answer.steps, 1), b: spoken(b), boat: other.name, speed: String(choice.speed) }),
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

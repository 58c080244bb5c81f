// Keeping: a new version, what was changed when and by whom, undo, two versions side by side.

import { ask, send } from "./answers.js";
import { writeChoice } from "./choice.js";
import { choice, fillBoats, find, local, madeFrom, openNewest, openVersion, tell } from "./page.js";
import { say } from "./words.js";

const SHOWN = 12;

/** @param {{what: string, body: () => Record<string, unknown> | null, after: (undone: boolean) => Promise<void>}} how
 *   what: the last word of the address; body: what is kept, or nothing to keep; after: the page as it is kept, or as it is
 *   after something was taken back or brought back */
export function keeping(how) {
  find("save").addEventListener("submit", async (/** @type {Event} */ event) => {
    event.preventDefault();
    const body = how.body();
    if (!body) return void (find("saved").textContent = say("nothing_to_keep"));
    try {
      const address = `/boats/${encodeURIComponent(choice.boat)}/${how.what}`;
      const saved = await send("save", address, { ...body, made_from: madeFrom(), by: find("by").value });
      if (!saved) return;
      choice.version = saved.version_id;
      choice.settings = {};
      writeChoice(choice, true);
      find("saved").textContent = say(saved.beside.length ? "saved_beside" : "saved", { others: saved.beside.map((/** @type {any} */ one) => one.made_by).join(", ") });
      offerUndo(saved.trail_id, "undo");
      await how.after(false);
      tell(null);
      await refreshed();
    } catch (fault) {
      tell(fault);
    }
  });

  find("undo").addEventListener("click", () => undo(Number(find("undo").dataset.entry), find("undo").dataset.again === "yes"));

  /** @param {number} entry @param {boolean} again */
  async function undo(entry, again) {
    try {
      const answer = await send("undo", "/boats/undo", { trail_id: entry, by: find("by").value });
      if (!answer) return;
      find("saved").textContent = say(again ? "redone" : "undone");
      offerUndo(answer.trail_id, again ? "undo" : "redo");
      openNewest();
      await how.after(!again);
      await refreshed();
    } catch (fault) {
      tell(fault);
    }
  }

  /** @param {number} entry @param {"undo" | "redo"} kind */
  function offerUndo(entry, kind) {
    const button = find("undo");
    button.hidden = false;
    button.textContent = say(kind);
    button.dataset.entry = String(entry);
    button.dataset.again = kind === "redo" ? "yes" : "no";
  }

  /** Lists, versions side by side and the trail as they are now. */
  async function refreshed() {
    const boats = await ask("boats", "/boats");
    if (!boats) return;
    const here = fillBoats(boats);
    await beside(here?.versions ?? []);
    await trail();
  }

  async function trail() {
    const answer = await ask("trail", "/boats/trail");
    if (!answer) return;
    const mine = answer.entries.filter((/** @type {any} */ one) => one.name === choice.boat || String(one.name ?? "").startsWith(`${choice.boat}, `));
    const undone = new Set(mine.map((/** @type {any} */ one) => one.undoes));
    find("trail").replaceChildren(
      ...mine.slice(0, SHOWN).map((/** @type {any} */ one) => {
        const item = document.createElement("li");
        const words = document.createElement("span");
        words.textContent = say("trail_line", { at: local(one.at), by: one.by, what: say(`trail_${one.verb}_${one.kind}`) });
        item.append(words);
        if (one.kind === "boat" && one.verb === "save" && !undone.has(one.trail_id) && one.by !== say("by_examples")) {
          const button = document.createElement("button");
          button.type = "button";
          button.textContent = say("undo");
          button.setAttribute("aria-label", say("undo_of", { at: local(one.at), by: one.by }));
          button.addEventListener("click", () => undo(one.trail_id, false));
          item.append(button);
        }
        return item;
      }),
    );
    find("trail-none").hidden = mine.length > 0;
  }

  return { refreshed };
}

/** Versions made from the same one: what differs, and a way to look at each. @param {any[]} versions */
async function beside(versions) {
  const place = find("beside");
  place.hidden = versions.length < 2;
  if (versions.length < 2) return;
  const here = versions.find((one) => one.version_id === choice.version) ?? versions[versions.length - 1];
  const other = [...versions].reverse().find((one) => one !== here);
  const answer = await ask("compared", `/boats/${encodeURIComponent(choice.boat)}/compared?first=${here.version_id}&second=${other.version_id}`);
  if (!answer) return;
  const table = find("beside-table");
  const heads = [say("differs"), ...[here, other].map((one) => say("version", { made_by: one.made_by, made_at: local(one.made_at) }))];
  table.tHead.rows[0].replaceChildren(...heads.map((words) => cell("th", words)));
  table.tBodies[0].replaceChildren(
    ...answer.differences.map((/** @type {any} */ one) => {
      const row = document.createElement("tr");
      row.append(cell("th", one.meaning), cell("td", shown(one.first, one.unit)), cell("td", shown(one.second, one.unit)));
      return row;
    }),
  );
  find("beside-same").hidden = answer.differences.length > 0;
  find("beside-look").replaceChildren(
    ...versions.map((one) => {
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = say(one === here ? "look_here" : "look_at", { made_by: one.made_by, made_at: local(one.made_at) });
      button.disabled = one === here;
      button.addEventListener("click", () => openVersion(one.version_id));
      return button;
    }),
  );
}

/** @param {unknown} value @param {string} unit */
const shown = (value, unit) =>
  value === null ? say("not_said") : typeof value === "number" ? `${String(Number(value.toPrecision(4))).replace("-", "−")} ${unit}`.trim() : String(value);

/** @param {"th" | "td"} tag @param {string} words */
function cell(tag, words) {
  const one = document.createElement(tag);
  one.textContent = words;
  if (tag === "th") one.scope = "row";
  return one;
}

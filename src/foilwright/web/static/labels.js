// Words in a drawing that never lie on one another: measured, then set side by side in rows with thin leaders.

import { line, text } from "./marks.js";

/** @typedef {{words: string, x: number, to: [number, number], wide?: number, row?: number}} Label
 *   x is where it would stand best, `to` the place it is about */

const pen = document.createElement("canvas").getContext("2d");
const known = /** @type {Map<string, number>} */ (new Map());
document.fonts?.ready.then(() => known.clear());

/** How wide words are drawn [px]. @param {string} words @param {boolean} [bold] */
export function width(words, bold = false) {
  const key = (bold ? "b" : "n") + words;
  let found = known.get(key);
  if (found === undefined && pen) {
    pen.font = `${bold ? 700 : 400} 16px Hyperlegible, system-ui, sans-serif`;
    found = pen.measureText(words).width;
    if (known.size > 2000) known.clear();
    known.set(key, found);
  }
  return found ?? words.length * 9;
}

/** Words broken into lines that fit, long words cut with a hyphen. @param {string} words @param {number} wide */
export function wrapped(words, wide) {
  const lines = /** @type {string[]} */ ([]);
  let here = "";
  for (let word of words.split(" ")) {
    while (width(word) > wide && word.length > 3) {
      let cut = word.length - 1;
      while (cut > 2 && width(`${word.slice(0, cut)}-`) > wide) cut -= 1;
      if (here) (lines.push(here), (here = ""));
      lines.push(`${word.slice(0, cut)}-`);
      word = word.slice(cut);
    }
    const both = here ? `${here} ${word}` : word;
    if (width(both) <= wide) here = both;
    else (lines.push(here), (here = word));
  }
  if (here) lines.push(here);
  return lines;
}

/** Sets labels side by side so that together they stand as near to their places as can be.
 * @param {Label[]} row in order @param {number} left @param {number} right @param {number} r */
function inOneRow(row, left, right, r) {
  const heaps = /** @type {{labels: Label[], wide: number, at: number}[]} */ ([]);
  for (const one of row) {
    one.row = r;
    const wide = one.wide ?? 0;
    heaps.push({ labels: [one], wide, at: Math.min(Math.max(one.x - wide / 2, left), right - wide) });
    // Where two heaps meet they become one, about the middle of what its labels ask for.
    for (let n = heaps.length; n > 1 && heaps[n - 2].at + heaps[n - 2].wide > heaps[n - 1].at; n = heaps.length) {
      const labels = [...heaps[n - 2].labels, ...heaps[n - 1].labels];
      let before = 0, asked = 0;
      for (const label of labels) (asked += label.x - (label.wide ?? 0) / 2 - before), (before += label.wide ?? 0);
      heaps.splice(n - 2, 2, { labels, wide: before, at: Math.min(Math.max(asked / labels.length, left), right - before) });
    }
  }
  for (const heap of heaps) {
    let edge = heap.at;
    for (const label of heap.labels) (label.x = edge + (label.wide ?? 0) / 2), (edge += label.wide ?? 0);
  }
}

/** Puts labels into rows, each as near to its place as the others let it. Gives the rows used.
 * @param {Label[]} labels @param {number} left @param {number} right */
export function inRows(labels, left, right) {
  const sorted = [...labels].sort((a, b) => a.x - b.x);
  for (const one of sorted) one.wide = Math.min(width(one.words) + 12, right - left);
  for (let count = 1; count <= sorted.length; count += 1) {
    const rows = Array.from({ length: count }, () => /** @type {Label[]} */ ([]));
    sorted.forEach((one, i) => rows[i % count].push(one));
    const fits = rows.every((row) => row.reduce((sum, one) => sum + (one.wide ?? 0), 0) <= right - left);
    if (!fits && count < sorted.length) continue;
    rows.forEach((row, r) => inOneRow(row, left, right, r));
    return count;
  }
  return 0;
}

/** Rows of labels with leaders, above or below what they are about.
 * @param {Label[]} labels @param {{left: number, right: number, y: number, down: boolean}} where
 *   y: baseline of the outermost row; further rows lie inwards */
export function labelled(labels, where) {
  inRows(labels, where.left, where.right);
  const leaders = [], words = [];
  for (const one of labels) {
    const y = where.y + (where.down ? -1 : 1) * 20 * (one.row ?? 0);
    const half = (one.wide ?? 0) / 2 - 6;
    const from = Math.min(Math.max(one.to[0], one.x - half), one.x + half);
    leaders.push(line([[from, where.down ? y - 15 : y + 5], one.to], "leader"));
    words.push(text([one.x, y], one.words, "load-name"));
  }
  return { leaders: leaders.join(""), words: words.join("") };
}

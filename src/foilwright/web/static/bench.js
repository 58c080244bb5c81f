// Bench: swing the wand through the chain, move adjusters, type what was read, see what it says.

import { ask } from "./answers.js";
import { adjusterList, entryOf } from "./adjusters.js";
import { benchCharts } from "./bench_charts.js";
import { benchSheet } from "./bench_sheet.js";
import * as chainDrawing from "./chain.js";
import { writeChoice } from "./choice.js";
import { gauge } from "./gauge.js";
import { handlesOn } from "./handles.js";
import { keeping } from "./kept.js";
import { onTheBoat, onTheChain } from "./on_the_boat.js";
import { about, adjustersTell, choice, fieldFault, find, ink, inkLayers, last, nextFrame, sized, tell, wideScreen, widths } from "./page.js";
import * as side from "./side.js";
import { fixed, say, signed, typed } from "./words.js";

/** @type {any} */ let now = null;
/** @type {any} */ let fitted = null; // the chain as the sheet has it, until it is kept
/** @type {any[]} */ const past = []; // what was before each change, newest last
const svg = find("side"), chainSvg = find("chain");
const wide = widths(["stage-side", "stage-chain", "chart-curve", "chart-gearing", "chart-slop"], () => nextFrame(draw));
const charts = benchCharts((wand) => setWand(wand), wide);

const wandNow = () => Math.min(Math.max(choice.wand ?? 45, now.chain.forward_stop_deg), now.chain.aft_stop_deg);
const before = () => past[past.length - 1] ?? null;
/** On Bench nobody is aboard: where the sailor sits is no matter of the chain. */
const adjusters = () => now.drawn.adjusters.filter((/** @type {any} */ one) => one.acts_on !== "crew");

/** The boat standing ashore with its wand held. */
function standing(wand = wandNow()) {
  return { height: 0, trim: 0, wand, foil: chainDrawing.reading(now.chain, wand).foil, joints: chainDrawing.joints(now.chain, wand) };
}

function draw() {
  if (!now) return;
  const state = standing();
  const most = wideScreen() ? Math.min(Math.max(window.innerHeight - 400, 320), 560) : Math.max(window.innerHeight * 0.6, 300);
  const on = side.frame(now.drawn, wide["stage-side"], most, true);
  sized(svg, on.wide, on.high);
  const parts = [], old = before();
  if (old) parts.push(...side.boat(old.now.drawn, old.now.chain, old.state, on, { outline: "before" }));
  parts.push(...side.boat(now.drawn, now.chain, state, on, { ashore: true }));
  const grip = onTheBoat({ ...now, jointsAt: (/** @type {number} */ wand) => chainDrawing.joints(now.chain, wand) }, state, on, { adjusters: adjusters(), ashore: true, effects: new Map() });
  inkLayers(svg, [...parts, grip.marks]);
  grips.show(grip.handles);
  drawChain(state, on);
  charts.resize();
  charts.data(now.chain, old?.now.chain, fitted, now.drawn.whole_foil);
  charts.cursor(state.wand, now.chain);
  tellState(state);
  list.show(adjusters().map((/** @type {any} */ one) => entryOf(one, now.drawn.adjusters.indexOf(one), null)));
  const words = [old ? say("legend_before") : "", fitted ? legendFitted(state) : ""].filter(Boolean).join(" ");
  if (find("legend").textContent !== words) find("legend").textContent = words;
  find("legend").hidden = !words;
  find("put-back").disabled = !past.length;
}

/** @param {any} state @param {any} on */
function drawChain(state, on) {
  const place = wide["stage-chain"], old = before();
  const made = chainDrawing.draw(now.chain, now.drawn, state.wand, old ? old.state.wand : null, place, wideScreen() ? Math.max(on.high - 60, window.innerHeight - 470) : null, { hidden: say("hidden"), foil: say("foil"), wand: say("wand") }, old?.now.chain, fitted);
  sized(chainSvg, place, made.plan.high);
  ink(chainSvg, made.svg);
  find("chain-scale").textContent = made.scale ? say("chain_scale", { times: fixed(made.scale / on.scale, 0) }) : say("chain_hidden");
  chainGrips.show(onTheChain(now, state, made, place, new Map()));
}

/** What the sheet changes with the wand where it is. @param {any} state */
function legendFitted(state) {
  const angle = (/** @type {number | null} */ foil) => (foil === null ? say("locked_short") : `${signed(foil, 1)}°`);
  return say("legend_fitted", {
    wand: fixed(state.wand, 1).replace(/\.0$/, ""), part: say(now.drawn.whole_foil ? "whole" : "flap"),
    fitted: angle(chainDrawing.reading(fitted, state.wand).foil), now: angle(state.foil),
  });
}

/** @param {any} state */
function tellState(state) {
  const here = chainDrawing.reading(now.chain, state.wand);
  const put = (/** @type {string} */ id, /** @type {string} */ words) => void (find(id).textContent !== words && (find(id).textContent = words));
  const wand = fixed(state.wand, 1).replace(/\.0$/, "");
  if (here.locked || here.foil === null) {
    put("sentence", say("locked", { wand }));
    put("more", "");
    put("stopped", "");
  } else {
    put("sentence", say("ashore", { wand, part: say(now.drawn.whole_foil ? "whole" : "flap"), foil: signed(here.foil, 1), edge: edge(here.edge ?? 0) }));
    put("more", say("more", { gearing: fixed(here.gearing ?? 0, 2), slop: fixed(here.slop ?? 0, 2) }));
    put("stopped", here.stop ? say("stopped", { stop: say(`stop_${here.stop.replaceAll(" ", "_")}`) }) : "");
  }
  const check = now.swing_check;
  put("swing", say("swing", { back: edge(check.back_mm), forward: edge(check.forward_mm) }));
  const slider = find("wand");
  slider.min = String(Math.ceil(now.chain.forward_stop_deg * 2) / 2);
  slider.max = String(Math.floor(now.chain.aft_stop_deg * 2) / 2);
  slider.value = String(state.wand);
  slider.setAttribute("aria-valuetext", here.foil === null ? say("wand_locked", { wand: fixed(state.wand, 0) }) : say("wand_spoken", { wand: fixed(state.wand, 0), foil: signed(here.foil, 1) }));
  if (find("wand-number").getAttribute("aria-invalid") !== "true") find("wand-number").value = fixed(state.wand, 1);
}

/** @param {number} mm */
const edge = (mm) => (Math.abs(mm) < 0.05 ? say("edge_level") : say(mm > 0 ? "edge_down" : "edge_up", { mm: fixed(Math.abs(mm), 1) }));

// Moving ---------------------------------------------------------------------------------------------------

/** Keeps how it is now, to be drawn thin and to go back to. */
function remember() {
  past.push({ now, state: standing(), wand: choice.wand, settings: Object.fromEntries(now.drawn.adjusters.map((/** @type {any} */ one) => [one.name, one.steps])) });
  if (past.length > 50) past.shift();
}

async function turned() {
  const drawing = await about("drawing", "/ask/drawing");
  if (!drawing) return;
  now = drawing;
  draw();
  writeChoice(choice);
  sheet.again();
}

/** @param {string} name @param {number} steps @param {boolean} first */
function setAdjuster(name, steps, first) {
  if (first) remember();
  choice.settings[name] = steps;
  now = { ...now, drawn: { ...now.drawn, adjusters: now.drawn.adjusters.map((/** @type {any} */ one) => (one.name === name ? { ...one, steps } : one)) } };
  turned();
}

/** @param {number} wand */
function setWand(wand) {
  choice.wand = Math.min(Math.max(wand, now.chain.forward_stop_deg), now.chain.aft_stop_deg);
  fieldFault("wand-number", "");
  draw(); // moves come once a frame: drawn at once they are seen in the same frame
}

/** One change back. */
function putBack() {
  const old = past.pop();
  if (!old) return;
  choice.settings = { ...old.settings };
  choice.wand = old.wand;
  turned();
}

const list = adjusterList(find("adjusters"), (name, steps) => setAdjuster(name, steps, true));
adjustersTell(list.fault);
const moves = {
  /** @param {string} name @param {number} value @param {boolean} first */
  move(name, value, first) {
    if (name !== "wand") return setAdjuster(name, value, first);
    if (first) remember();
    return setWand(value);
  },
  end: () => writeChoice(choice),
  back: putBack,
};
const grips = handlesOn(find("handles"), moves), chainGrips = handlesOn(find("chain-handles"), moves);

find("wand").addEventListener("input", () => setWand(Number(find("wand").value)));
find("wand").addEventListener("change", () => writeChoice(choice));
for (const [id, by] of /** @type {[string, number][]} */ ([["wand-less", -1], ["wand-more", 1]])) {
  find(id).addEventListener("click", () => (remember(), setWand(Math.round((wandNow() + by) * 2) / 2), writeChoice(choice)));
}
find("wand-number").addEventListener("change", () => {
  const wand = typed(find("wand-number").value);
  const { forward_stop_deg: least, aft_stop_deg: most } = now.chain;
  if (!(Number.isFinite(wand) && wand >= least && wand <= most)) return fieldFault("wand-number", say("wand_fault", { least: fixed(least, 0), most: fixed(most, 0) }));
  remember();
  setWand(wand);
  return writeChoice(choice);
});
find("put-back").addEventListener("click", putBack);
document.addEventListener("keydown", (event) => {
  if ((event.ctrlKey || event.metaKey) && event.key === "z" && !/** @type {Element} */ (event.target).closest("input, textarea")) (event.preventDefault(), putBack());
});
find("how").addEventListener("click", () => {
  const shown = find("adjusters").classList.toggle("with-notes");
  find("how").setAttribute("aria-expanded", String(shown));
});

const sheet = benchSheet((chain) => ((fitted = chain), nextFrame(draw)));
gauge((wand) => setWand(Math.round(wand * 2) / 2), sheet.take);
const keeper = keeping({
  what: "measured",
  body: () => (sheet.text() ? { sheet: sheet.text() } : null),
  after: async (undone) => {
    remember();
    sheet.kept(!undone);
    choice.settings = {};
    await turned();
  },
});

async function begin() {
  let drawing = await about("drawing", "/ask/drawing");
  if (!drawing) {
    // An address with something wrong in it: the sentence stays, the boat is shown as it is kept.
    find("address-fault").textContent = last.fault;
    Object.assign(choice, { settings: {}, version: null, sailor: "" });
    drawing = await about("drawing", "/ask/drawing");
    find("address-fault").hidden = false;
    if (!drawing) return;
  }
  now = drawing;
  draw();
  document.fonts?.ready.then(() => nextFrame(draw));
  document.body.dataset.ready = "yes";
  await keeper.refreshed();
  await sheet.begin();
  document.body.dataset.full = "yes";
}

begin().catch(tell);

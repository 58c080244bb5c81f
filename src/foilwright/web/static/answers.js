// Asking the server. Of several questions of one kind only the last one's answer counts.

import { say } from "./words.js";

/** A sentence about wrong input, or about a server that does not answer. */
export class Refused extends Error {
  /** @param {{where: string, came: string, allowed: string, mend: string}} fault */
  constructor(fault) {
    super(say("fault", fault));
    this.fault = fault;
  }
}

const running = /** @type {Map<string, AbortController>} */ (new Map());

/** @param {string} kind @param {string} address @param {RequestInit} [how] */
async function once(kind, address, how = {}) {
  running.get(kind)?.abort();
  const control = new AbortController();
  running.set(kind, control);
  const answer = await fetch(address, { ...how, signal: control.signal });
  const told = await answer.json();
  if (!answer.ok) throw new Refused(told.error);
  return told;
}

/** Asks, and hands back nothing where a newer question of the same kind came in between.
 * @param {string} kind @param {string} address @param {RequestInit} [how] */
export async function ask(kind, address, how) {
  try {
    return await once(kind, address, how);
  } catch (fault) {
    if (fault instanceof DOMException && fault.name === "AbortError") return null;
    if (fault instanceof Refused) throw fault;
    throw new Refused({
      where: document.body.dataset.server ?? "the server", came: document.body.dataset.silent ?? "no answer",
      allowed: document.body.dataset.running ?? "a running server", mend: document.body.dataset.again ?? "Start it again.",
    });
  }
}

/** @param {string} kind @param {string} address @param {unknown} body */
export const send = (kind, address, body) =>
  ask(kind, address, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(body) });

// The phone as the gauge: lying along the wand it swings the drawn wand, and its angle goes into the sheet.
// A browser tells a page its tilt only on this machine or over https.

import { find } from "./page.js";
import { fixed, say } from "./words.js";

/** @param {(wand: number) => void} swing @param {(angle: {wand: number, level: number}) => void} take */
export function gauge(swing, take) {
  find("gauge").addEventListener("click", async () => {
    const told = find("gauge-words");
    const kind = /** @type {any} */ (window).DeviceOrientationEvent;
    if (!kind || !window.isSecureContext) return void (told.textContent = say("gauge_not"));
    try {
      if (kind.requestPermission && (await kind.requestPermission()) !== "granted") return void (told.textContent = say("gauge_not"));
    } catch {
      return void (told.textContent = say("gauge_not"));
    }
    let heard = false, angle = { wand: 0, level: 0 };
    const button = document.createElement("button");
    button.type = "button";
    button.addEventListener("click", () => take(angle));
    window.addEventListener("deviceorientation", (event) => {
      if (event.beta === null) return;
      // Long edge along the wand: plumb is 90 degrees of tilt, level is none.
      angle = { wand: 90 - Math.abs(event.beta), level: event.beta };
      button.textContent = say("gauge_take", { wand: fixed(angle.wand, 1), level: fixed(angle.level, 1) });
      swing(angle.wand);
      if (heard) return;
      heard = true;
      told.replaceChildren(say("gauge_on"), " ", button);
    });
    told.textContent = say("gauge_waits");
    setTimeout(() => !heard && (told.textContent = say("gauge_not")), 1500);
    return undefined;
  });
}

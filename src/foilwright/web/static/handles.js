// Handles over a drawing: 44 px each, moved by mouse, finger or arrow keys; a double tap puts back.

/** @typedef {{name: string, label: string, sign: string, x: number, y: number, value: number, least: number, greatest: number,
 *   step: number, spoken: string, perPixel: [number, number], kind: string,
 *   follow?: (x: number, y: number) => number}} Handle
 *   perPixel: change of the value for a pixel to the right and for a pixel up; or `follow` gives the value of a place */

const TAP_MS = 350, TAP_PIXELS = 3;
const KEYS = /** @type {Record<string, number>} */ ({ ArrowUp: 1, ArrowRight: 1, ArrowDown: -1, ArrowLeft: -1, PageUp: 5, PageDown: -5 });

/** @param {HTMLElement} layer @param {{move: (name: string, value: number, first: boolean) => void, end: (name: string) => void, back: (name: string) => void}} on */
export function handlesOn(layer, on) {
  const known = /** @type {Map<string, {element: HTMLElement, handle: Handle, told: string}>} */ (new Map());
  let dragged = /** @type {{name: string, x: number, y: number, value: number, moved: boolean} | null} */ (null);
  let lastTap = { name: "", at: 0 };

  /** @param {string} name @param {number} value @param {boolean} first @returns {boolean} whether it moved */
  function put(name, value, first) {
    const handle = known.get(name)?.handle;
    if (!handle || !Number.isFinite(value)) return false;
    const stepped = Math.round(value / handle.step) * handle.step;
    const held = Math.round(Math.min(Math.max(stepped, handle.least), handle.greatest) * 1e4) / 1e4;
    if (Math.abs(held - handle.value) < 1e-9) return false;
    on.move(name, held, first);
    return true;
  }

  /** @param {PointerEvent} event @param {string} name */
  function down(event, name) {
    const one = known.get(name);
    if (event.button || !one) return;
    one.element.setPointerCapture(event.pointerId);
    one.element.focus({ preventScroll: true });
    event.preventDefault();
    dragged = { name, x: event.clientX, y: event.clientY, value: one.handle.value, moved: false };
  }

  /** @param {PointerEvent} event @param {string} name */
  function move(event, name) {
    const handle = known.get(name)?.handle;
    if (!dragged || dragged.name !== name || !handle) return;
    const dx = event.clientX - dragged.x, dy = dragged.y - event.clientY;
    if (!dragged.moved && Math.hypot(dx, dy) < TAP_PIXELS) return;
    const place = layer.getBoundingClientRect();
    const value = handle.follow
      ? handle.follow(event.clientX - place.left, event.clientY - place.top)
      : dragged.value + dx * handle.perPixel[0] + dy * handle.perPixel[1];
    if (put(name, value, !dragged.moved)) dragged.moved = true;
  }

  /** @param {PointerEvent} event @param {string} name */
  function up(event, name) {
    if (!dragged || dragged.name !== name) return;
    const still = Math.hypot(event.clientX - dragged.x, event.clientY - dragged.y) < TAP_PIXELS;
    const moved = dragged.moved;
    dragged = null;
    if (moved) return on.end(name);
    if (!still || event.type === "pointercancel") return;
    if (lastTap.name === name && event.timeStamp - lastTap.at < TAP_MS) (on.back(name), (lastTap = { name: "", at: 0 }));
    else lastTap = { name, at: event.timeStamp };
  }

  /** @param {KeyboardEvent} event @param {string} name */
  function key(event, name) {
    const handle = known.get(name)?.handle;
    if (!handle || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key in KEYS) put(name, handle.value + KEYS[event.key] * handle.step, true);
    else if (event.key === "Home") put(name, handle.least, true);
    else if (event.key === "End") put(name, handle.greatest, true);
    else if (event.key === "Escape") on.back(name);
    else return;
    event.preventDefault();
    on.end(name);
  }

  /** @param {Handle} handle */
  function make(handle) {
    const element = document.createElement("div");
    element.setAttribute("role", "slider");
    element.tabIndex = 0;
    element.dataset.handle = handle.name;
    element.className = `handle ${handle.kind}`;
    element.addEventListener("pointerdown", (event) => down(event, handle.name));
    element.addEventListener("pointermove", (event) => move(event, handle.name));
    element.addEventListener("pointerup", (event) => up(event, handle.name));
    element.addEventListener("pointercancel", (event) => up(event, handle.name));
    element.addEventListener("keydown", (event) => key(event, handle.name));
    layer.append(element);
    const one = { element, handle, told: "" };
    known.set(handle.name, one);
    return one;
  }

  return {
    /** Puts every handle where its part is now. @param {Handle[]} handles */
    show(handles) {
      const wanted = new Set(handles.map((one) => one.name));
      for (const [name, { element }] of known) if (!wanted.has(name)) (element.remove(), known.delete(name));
      for (const handle of handles) {
        const one = known.get(handle.name) ?? make(handle);
        one.handle = handle;
        const { element } = one;
        element.style.transform = `translate(${Math.round(handle.x - 22)}px, ${Math.round(handle.y - 22)}px)`;
        const told = [handle.sign, handle.label, handle.least, handle.greatest, handle.value, handle.spoken].join("|");
        if (told === one.told) continue;
        one.told = told;
        element.textContent = handle.sign;
        element.setAttribute("aria-label", handle.label);
        element.setAttribute("aria-valuemin", String(handle.least));
        element.setAttribute("aria-valuemax", String(handle.greatest));
        element.setAttribute("aria-valuenow", String(handle.value));
        element.setAttribute("aria-valuetext", handle.spoken);
      }
    },
  };
}

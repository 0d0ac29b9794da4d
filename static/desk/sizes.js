/** Diameter and length of what is driven in, from its size as it stands on the packet: M6 × 35, 4,5 × 60. */

const SIZE = /^M?(\d+(?:[.,]\d+)?)\s*[×x*]\s*(\d+(?:[.,]\d+)?)$/i;
const NAMES = ["diameter_mm", "length_mm"];

/**
 * @param {string} size
 * @returns {string[]} diameter and length; none where the size says something else
 */
export function figuresOf(size) {
  return SIZE.exec(size.trim())?.slice(1) ?? [];
}

/**
 * Fill both in as the size is typed; what somebody typed otherwise stays, as the hole of a plug does.
 * @param {HTMLFormElement} form  of a fixing
 */
export function followSize(form) {
  const [size, sort, thread] = ["size", "sort", "thread_mm"].map((name) => /** @type {HTMLInputElement|null} */ (form.elements.namedItem(name)));
  const inputs = NAMES.map((name) => /** @type {HTMLInputElement|null} */ (form.elements.namedItem(name)));
  if (!size || !sort || !thread || inputs.includes(null)) return;
  const driven = /** @type {HTMLElement} */ (thread.closest("[data-sorts]")).dataset.sorts.split("\n");
  const figures = () => (driven.includes(sort.value) ? figuresOf(size.value) : []);
  let followed = figures();
  const look = () => {
    const now = figures();
    if (!now.length) return; // as while another figure is being typed
    inputs.forEach((input, at) => {
      if (input.value && input.value !== followed[at]) return;
      input.value = now[at];
      input.dispatchEvent(new Event("input", { bubbles: true }));
    });
    followed = now;
  };
  for (const input of [size, sort]) input.addEventListener("input", look);
}

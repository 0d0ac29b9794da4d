/** Whether somebody looked for what is not recorded: nothing recorded is not nothing there. Mirrors fieldbook/findings/looked.py. */

import { calledOf } from "./site.js";
import { dayOf } from "./wording.js";

export const [ZONES, SWINGS, SERVICES, ASBESTOS, LEAD_PAINT] = [
  ...["keep-off zones", "what swings, passes or must be seen", "services in the wall"],
  ...["asbestos", "old lead paint"],
];

/** By whom, how and when something was looked for on a face or in its room; "" where nobody did. */
export function looked(site, face, what) {
  for (const place of [face, site.parent(face)]) {
    for (const [one, by, how, on] of place?.values.looked_for ?? []) {
      if (one === what) return `looked for by ${by} (${how}, ${dayOf(on)})`;
    }
  }
  return "";
}

/** What is missing where nobody looked. */
export function notLooked(registry, face, what) {
  return { item: face, field: "looked_for", words: `a look for ${what} on ${calledOf(registry, face)}` };
}

/**
 * A missing entry in words.
 * @param {import("./registry.js").Registry} registry
 * @param {{item: import("./site.js").Item, field: string, words?: string}} blank
 */
export function blankInWords(registry, { item, field, words = "" }) {
  if (words) return words;
  const { label } = registry.kinds.get(item.kind).byName.get(field);
  const named = /^.\p{Lu}/u.test(label) ? label : `${label.slice(0, 1).toLowerCase()}${label.slice(1)}`;
  return `“${named}” of ${calledOf(registry, item)}`;
}

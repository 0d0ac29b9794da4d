/** Whether somebody looked for what is not recorded: nothing recorded is not nothing there. Mirrors fieldbook/findings/looked.py. */

import { come } from "./moments.js";
import { hazardsIn } from "./named.js";
import { calledOf } from "./site.js";
import { dayOf } from "./wording.js";

export const [ZONES, SWINGS, SERVICES, ASBESTOS, LEAD_PAINT] = [
  ...["keep-off zones", "what swings, passes or must be seen", "services in the wall"],
  ...["asbestos", "old lead paint"],
];

/** By whom, how and when something was looked for on a face or in its room by a day; "" where nobody did. */
export function looked({ site, today }, face, what) {
  const done = looksFor(site, face, what).find(([, , , on]) => come(on, today));
  if (!done) return "";
  const [, by, how, on] = done;
  return `looked for by ${by} (${how}, ${dayOf(on)})`;
}

/** That a look is entered for a day to come, as a sentence to stand behind another; "" where none is. */
export function ahead({ site, today }, face, sought) {
  const looks = sought.flatMap((what) => looksFor(site, face, what));
  const later = looks.find(([, , , on]) => !come(on, today));
  return later ? ` A look for ${later[0]} is dated ${dayOf(later[3])}, a day that has not come.` : "";
}

function looksFor(site, face, what) {
  return [face, site.parent(face)].flatMap((place) => (place?.values.looked_for ?? []).filter(([one]) => one === what));
}

/** Hazard -> where it is entered: for the room of a face, or on the face in the name of a layer, board or timber. */
export function hazardsAt(site, face) {
  const room = site.get(face.values.room);
  const names = [...(face.values.layers ?? []).map(([name]) => name), ...site.of(face, "member").map(({ values }) => values.material)];
  const said = names.flatMap((name) => hazardsIn(name ?? "").map((hazard) => [hazard, face]));
  return new Map([...said, ...(room?.values.hazards ?? []).map((hazard) => [hazard, room])]);
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

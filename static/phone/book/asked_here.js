/** The question at the wall as it is asked: with what is known of what shall touch, and of how well the place is known. */

import { answer } from "./here.js";
import { known } from "./places.js";

const FINE = ["agreed", "nothing against it"];
const NO_RADIUS = "How far it reaches round its middle is not entered: nothing is small enough to touch a point alone.";

/**
 * The answer for a place; nothing is agreed to for what has no size.
 * @param {import("./registry.js").Registry} registry
 * @param {import("./site.js").Site} site
 * @param {import("./site.js").Item} face
 * @param {number[]} at  x and z, mm
 * @param {{radius: number|null, depth?: number|null, missed?: number, today: string}} asked  mm; `missed` is what the
 *   place may be wrong by: all of what lies so near is asked about
 */
export function answerFor(registry, site, face, at, { radius, depth = null, missed = 0, today }) {
  const said = answer(registry, site, face, /** @type {[number, number]} */ (at), { radius: (radius ?? 0) + missed, depth, today });
  if (radius !== null) return said;
  const acts = said.acts.map((act) => (FINE.includes(act.answer) ? { ...act, answer: "not known", why: NO_RADIUS, against: null } : act));
  return { ...said, acts };
}

/** The widest of what touches this face: what is asked about until something else is typed; null where nothing does. */
export function usualRadius(site, face) {
  const wide = site.fixingsOn(face).map(({ values }) => values.contact_radius_mm).filter(known);
  return wide.length ? Math.max(...wide) : null;
}

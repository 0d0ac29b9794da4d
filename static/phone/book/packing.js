/** The packers the wall calls for behind a fitting, beside what is entered. Mirrors fieldbook/findings/packing.py. */

import { packers } from "../../checks/packers.js";
import { Refusal } from "../../checks/refusal.js";
import { proud } from "../../checks/surface.js";
import { known, placeOf } from "./places.js";

/** @typedef {{fixing: import("./site.js").Item, packer: number, difference: number|null}} Packed  mm; null: none entered */

/**
 * What each of these fixings calls for, so that flat work stands plumb; none where that cannot be worked out.
 * @returns {Packed[]}
 */
export function packed(face, fixings) {
  try {
    const points = fixings.map((fixing) => [...placeOf(fixing), proud(face.values.surface ?? [], placeOf(fixing))]);
    return packers(points, "plumb").map((packer, at) => {
      const entered = fixings[at].values.packers_mm;
      return { fixing: fixings[at], packer, difference: known(entered) ? entered - packer : null };
    });
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    return [];
  }
}

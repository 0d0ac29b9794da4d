/** What is asked about at the wall until something else is typed. */

import { known } from "./places.js";

/** The radius of the widest thing that touches a face, mm; null where nothing does. */
export function usualRadius(site, face) {
  const wide = site.fixingsOn(face).map(({ values }) => values.contact_radius_mm).filter(known);
  return wide.length ? Math.max(...wide) : null;
}

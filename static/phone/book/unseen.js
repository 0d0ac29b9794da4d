/** What must be looked for before a hole at a place, as fieldbook/findings/act_here.py has it. */

import { ASBESTOS, LEAD_PAINT, SERVICES, ahead, looked } from "./looked.js";
import { calledOf } from "./site.js";
import { farSide } from "./through.js";
import { joined } from "./wording.js";

/** What nobody looked for that must be looked for before a hole, as the end of a sentence; "" for nothing. */
export function unseenAt(place) {
  const notLooked = (/** @type {any} */ face) => [SERVICES, ASBESTOS, LEAD_PAINT].filter((what) => !looked(place, face, what));
  const unseen = notLooked(place.face);
  if (unseen.length) return `nobody has looked for ${joined(unseen)}.${ahead(place, place.face, unseen)}`;
  const there = farSide(place);
  if (there === null) return "nobody has entered what is on the other side, where it comes out.";
  const beyond = there ? notLooked(there) : [];
  return beyond.length ? `nobody has looked for ${joined(beyond)} on ${calledOf(place.registry, there)}, where it comes out.` : "";
}

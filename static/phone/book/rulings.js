/** What was agreed for a face or an area of it, and which hold is at a place of it: as fieldbook/findings/at_point.py has it. */

import { discDistance } from "../../checks/keep_off.js";
import { known } from "./places.js";
import { dayOf } from "./wording.js";

const AT_HOLD_MM = 5; // what setting out on uneven old walls can be trusted to; common practice, no source

/** The agreement about the face that rules an act at a place: the latest, on one day the no. */
export function rulingAt(place, act) {
  const about = place.site.all("agreement").filter((one) => (one.values.items ?? []).includes(place.face.id) && reaches(place, one, act));
  const rank = ({ id, values }) => [values.on, values.answer === "no" ? 1 : 0, id];
  return about.reduce((latest, one) => (latest === null || later(rank(one), rank(latest)) ? one : latest), null);
}

function later(one, other) {
  const at = one.findIndex((value, place) => value !== other[place]);
  return at >= 0 && one[at] > other[at];
}

function reaches({ registry, at, radius }, { values }, act) {
  const refuses = values.answer === "no";
  if (!(values.acts ?? (refuses ? registry.forbidden : [])).includes(act)) return false;
  if (!known(values.outline)) return true;
  return discDistance(values.outline, at, 0) <= (refuses ? radius : -radius);
}

/** The existing hold that is at a place, the nearest of them; undefined where there is none. */
export function holdHere({ site, face, at: [x, z] }) {
  const away = ({ values }) => Math.hypot(values.x_mm - x, values.z_mm - z);
  const here = site.of(face, "hold").filter((one) => away(one) <= Math.max((one.values.diameter_mm ?? 0) / 2, AT_HOLD_MM));
  return here.sort((one, other) => away(one) - away(other) || (one.id < other.id ? -1 : 1))[0];
}

/** An agreement with who gave it and when. */
export function givenBy({ values }) {
  return `${values.reference}, given by ${values.said_by} on ${dayOf(values.on)}`;
}

/** Who said it of a hold, and when, as the end of a sentence. */
export function saidBy({ values }) {
  if (!values.said_by) return "";
  return `, said by ${values.said_by}${values.said_on ? ` on ${dayOf(values.said_on)}` : ""}`;
}

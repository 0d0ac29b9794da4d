/** The new holes that a yes covers, with those that come out where it is about. Mirrors fieldbook/findings/holes_agreed.py. */

import { figure } from "../../checks/refusal.js";
import { makesHole } from "./acts.js";
import { NotEntered } from "./asking.js";
import { known, placeOf } from "./places.js";
import { AT_HOLD_MM, away, covers, does, holdsOn, namesIt, ofPlace, reaches } from "./rulings.js";
import { stands } from "./site.js";
import { comesOut, otherSide, sameAs } from "./through.js";

const NOWHERE = "It goes right through, and where on the other side is not entered.";

/**
 * A new hole as it is seen on a face; `at` null where that is not entered, `lack` why it is not sure that it is there.
 * @typedef {{fixing: any, face: any, at: [number, number]|null, lack: NotEntered|null}} HoleThere
 */

/**
 * The holes of what stands and is covered by a yes, each once: named, of a fitting named, or where it is about.
 * @returns {HoleThere[]}
 */
export function holesUnder(asked, ruling) {
  const { registry, site } = asked;
  const items = ruling.values.items ?? [];
  const own = (one) => namesIt(ruling, one) || items.includes(one.values.fitting);
  const there = (one) => {
    const face = site.get(one.values.face);
    const inPart = [one.values.hold, one.values.member].some((part) => part && items.includes(part));
    return inPart || (face && ofPlace(site, ruling, face) && covers(ruling, face, one));
  };
  const drilling = does(registry, ruling, "drilling", []);
  const holes = site.all("fixing").filter((one) => stands(one) && makesHole(site, one));
  const near = holes.filter((one) => own(one) || (drilling && there(one)));
  const out = drilling ? holes.flatMap((one) => comingOut(asked, ruling, one)) : [];
  const further = out.filter(({ fixing }) => ![fixing, ...sameAs(site, fixing)].some((one) => near.includes(one)));
  return [...near.map((fixing) => ({ fixing, face: site.get(fixing.values.face), at: placeOf(fixing), lack: null })), ...further];
}

/**
 * How many holes there are where that is more than a yes is to; 0 where it is not.
 * @throws {NotEntered} where one too many may come out there
 */
export function pastAgreed(asked, ruling) {
  const holes = holesUnder(asked, ruling);
  const lacking = holes.flatMap(({ lack }) => (lack ? [lack] : []));
  const sure = holes.length - lacking.length;
  if (sure > ruling.values.holes) return sure;
  if (holes.length > ruling.values.holes) throw lacking[0];
  return 0;
}

/** Why a yes to holes is none to one at a place of a face, to stand behind its reference; "" where it is. */
export function notToHole(place, ruling) {
  const { depth_mm: most, holes } = ruling.values;
  if (!known(most)) return " agrees to a hole, and does not say how deep it may go.";
  if (place.depth !== null && place.depth > most) return ` agrees to ${figure(most)} mm, not to ${figure(place.depth)} mm.`;
  if (!known(holes)) return "";
  const made = holesUnder(place, ruling);
  const here = made.some(({ face, at }) => face.id === place.face.id && at && away(at, place.at) <= AT_HOLD_MM);
  if (made.length < holes || (here && made.length === holes)) return "";
  const unsure = made.some(({ lack }) => lack) ? ", or may come out there" : "";
  return ` agrees to ${holes} new holes, and ${made.length} are planned or made${unsure}.`;
}

/**
 * Where a hole comes out on the other side of its wall, or may, if an agreement is about that.
 * @returns {HoleThere[]}
 */
function comingOut(asked, ruling, fixing) {
  const { site } = asked;
  const other = otherSide(site, site.get(fixing.values.face));
  if (!other || !ofPlace(site, ruling, other.face)) return [];
  const { face, said, x: from } = other;
  const [x, z] = placeOf(fixing);
  const at = /** @type {[number, number]|null} */ (from === null ? null : [from - x, z + other.z]);
  if (at && !reaches(ruling, face, { at, radius: fixing.values.contact_radius_mm })) return [];
  const anywhere = !at && holdsOn(ruling, face) === null;
  try {
    const lack = anywhere ? new NotEntered({ item: said, field: "behind_x_mm" }, { why: NOWHERE }) : null;
    return comesOut(asked, fixing) ? [{ fixing, face, at, lack }] : [];
  } catch (error) {
    if (!(error instanceof NotEntered)) throw error;
    return [{ fixing, face, at, lack: error }];
  }
}

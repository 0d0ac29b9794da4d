/** Where a fixing comes out on the other side of a wall, and what was agreed there. Mirrors fieldbook/findings/coming_out.py. */

import { makesHole } from "./acts.js";
import { NO_AGE, fabricAt, knownTo, ofNoAge } from "./ages.js";
import { NotEntered } from "./asking.js";
import { COMES_OUT } from "./before_hole.js";
import { placeOf } from "./places.js";
import { BY_HOLD, holdHere, latestOfTwo, mayBeUsed, rulingAt, rulingNaming } from "./rulings.js";
import { THROUGH_HOLES, comesOut, otherSide } from "./through.js";

const NOWHERE = "It goes right through, and where on the other side is not entered.";

/**
 * Where a fixing comes out, null where it does not; a yes or no that names one of `things` is to both its ends.
 * @returns {{face: any, barred: any, rulings: Map<any, string[]>, lacking: string[], old: boolean}|null}
 * @throws {NotEntered} where that turns on an entry
 */
export function comingOut(asked, fixing, things) {
  const { registry, site, today } = asked;
  const face = site.get(fixing.values.face);
  const acts = actsOf(asked, fixing);
  if (!acts.length) return null;
  const named = new Map(acts.map((act) => [act, rulingNaming(asked, things, act)]));
  const other = otherSide(site, face);
  if ((!other && acts.every((act) => named.get(act))) || !comesOut(asked, fixing)) return null;
  if (!other) throw new NotEntered({ item: face, field: "behind" }, { why: COMES_OUT });
  if (other.x === null) throw new NotEntered({ item: other.said, field: "behind_x_mm" }, { why: NOWHERE });
  const [x, z] = placeOf(fixing);
  const there = { registry, site, today, face: other.face, at: [other.x - x, z + other.z], radius: fixing.values.contact_radius_mm };
  const [rulings, lacking] = [new Map(), []];
  for (const act of acts) {
    const ruling = latestOfTwo(named.get(act), rulingAt(there, act), today);
    if (ruling) rulings.set(ruling, [...(rulings.get(ruling) ?? []), act]);
    else lacking.push(act);
  }
  const hold = holdHere(/** @type {any} */ (there));
  const barred = hold?.values.may_be_used === "no" ? hold : null;
  return { face: other.face, barred, rulings, lacking, old: lacking.length > 0 && isOld(there) };
}

/** What it does where it comes out: a hole breaks out, and the nut of a bolt bears. A yes to an existing hole is to both its ends. */
function actsOf(asked, fixing) {
  const hold = asked.site.get(fixing.values.hold);
  const bears = THROUGH_HOLES.includes(fixing.values.sort) && !(hold && mayBeUsed(hold, asked.today));
  return [...(bears ? BY_HOLD : []), ...(makesHole(asked.site, fixing) ? ["drilling"] : [])];
}

/** Whether any of what is entered of a face at a place is old. @throws {NotEntered} where that is not entered */
function isOld({ site, face, at, radius }) {
  const deep = knownTo(site, face, at);
  const age = fabricAt(site, face, at, deep, radius);
  if (age) return age === "old";
  const item = ofNoAge(site, face, at, deep, radius);
  throw new NotEntered({ item, field: item.kind === "face" ? "layers" : "age" }, { why: NO_AGE });
}

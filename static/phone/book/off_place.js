/** Whether a fixing lies off what it belongs to. Mirrors fieldbook/findings/off_place.py. */

import { roundedUp } from "../../checks/limits.js";
import { figure } from "../../checks/refusal.js";
import { verdict } from "../../checks/verdict.js";
import * as places from "./places.js";
import { calledOf } from "./site.js";

export const SOURCE = "plane geometry of the places entered";
const AT_HOLD_MM = 5; // what setting out on uneven old walls can be trusted to; common practice, no source
const ONE_PLACE = ["hole", "hook", "bolt"];
const REACHING = ["hook", "strap", "prop", "weight"];

/** A part that reaches beyond the edge of its face. */
export function* beyond(registry, face, part) {
  const whole = places.faceStretch(face);
  const by = Math.max(whole.xFrom - part.xFrom, part.xTo - whole.xTo, whole.zFrom - part.zFrom, part.zTo - whole.zTo);
  const sentence = `It reaches ${figure(roundedUp(by))} mm beyond the edge of ${calledOf(registry, face)}.`;
  if (by > 0) yield { by, sentence, against: face };
}

/** What touches the fabric and may reach round a corner, where something else is to be kept; null within its face. */
export function reachingPast(registry, face, fixing) {
  if (fixing.values.fabric === "another fitting") return null;
  const [past] = beyond(registry, face, places.fixingStretch(fixing));
  if (!past) return null;
  const out = roundedUp(past.by);
  const sentence = `What touches round it may reach ${figure(out)} mm beyond the edge of ${calledOf(registry, face)}. Look at what is there.`;
  return { against: face, verdict: verdict("place", "close", [out, null, null], sentence, SOURCE) };
}

/** That a footprint reaches beyond its face, as a sentence; "" where it lies on it. */
export function pastEdge({ registry, face, at: [x, z], radius }) {
  const whole = places.faceStretch(face);
  const over = radius - Math.min(x - whole.xFrom, whole.xTo - x, z - whole.zFrom, whole.zTo - z);
  return over > 0 ? `It reaches ${figure(roundedUp(over))} mm beyond the edge of ${calledOf(registry, face)}.` : "";
}

/** A fixing that does not lie on the other fitting it is said to be fixed to. */
export function* offTheOther(registry, site, fixing, at) {
  const [other, own] = [site.get(fixing.values.other_fitting), site.get(fixing.values.fitting)];
  const joins = other && own && fixing.values.fabric === "another fitting" && !REACHING.includes(fixing.values.sort);
  if (!joins || other.values.face !== fixing.values.face) return;
  const moves = Math.max(...[own, other].map(({ values }) => values.moves_mm ?? 0));
  const by = awayFrom(places.fittingStretch(other), at, moves) - fixing.values.contact_radius_mm;
  const sentence = `It lies ${figure(roundedUp(by))} mm off ${calledOf(registry, other)}, which it is to be fixed to.`;
  if (by > 0) yield { by, sentence, against: other };
}

/** A fixing that does not lie on the fitting it is said to hold. */
export function* offItsFitting(registry, site, fixing, at) {
  const fitting = site.get(fixing.values.fitting);
  if (fitting?.values.face !== fixing.values.face || REACHING.includes(fixing.values.sort)) return;
  const moves = fitting.values.moves_mm ?? 0; // blank: it stays where it is
  const by = awayFrom(places.fittingStretch(fitting), at, moves) - fixing.values.contact_radius_mm;
  const sentence = `It lies ${figure(roundedUp(by))} mm off ${calledOf(registry, fitting)}, which it is to hold.`;
  if (by > 0) yield { by, sentence, against: fitting };
}

/** How far a place lies off a rectangle that may be moved so far to either side, mm; 0 on it. */
export function awayFrom({ xFrom, xTo, zFrom, zTo }, [x, z], moves = 0) {
  return Math.hypot(Math.max(xFrom - moves - x, x - xTo - moves, 0), Math.max(zFrom - z, z - zTo, 0));
}

/** A fixing that is not where what holds it is. */
export function* offItsHold(registry, site, fixing, [x, z]) {
  const member = site.get(fixing.values.member);
  if (member && member.values.face !== fixing.values.face) {
    yield { by: Infinity, sentence: `${calledOf(registry, member)}, which it is let into, is on another face.`, against: member };
  }
  const hold = site.get(fixing.values.hold);
  if (!hold) return;
  const called = calledOf(registry, hold);
  if (hold.values.face !== fixing.values.face) {
    yield { by: Infinity, sentence: `${called}, which it is to use, is on another face.`, against: hold };
  } else if (ONE_PLACE.includes(hold.values.sort)) {
    const by = Math.hypot(x - hold.values.x_mm, z - hold.values.z_mm);
    const sentence = `It lies ${figure(roundedUp(by))} mm from ${called}, which it is to use.`;
    if (by > AT_HOLD_MM) yield { by, sentence, against: hold };
  }
}

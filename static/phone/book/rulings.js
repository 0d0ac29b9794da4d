/** What was agreed for a thing, a face or an area of it, and which hold is at a place of it: as fieldbook/findings/rulings.py has it. */

import { discDistance } from "../../checks/keep_off.js";
import { figure } from "../../checks/refusal.js";
import { makesHole } from "./acts.js";
import { come } from "./moments.js";
import { fittingStretch, known, outlineOf, placeOf } from "./places.js";
import { stands } from "./site.js";
import { dayOf } from "./wording.js";

const AT_HOLD_MM = 5; // what setting out on uneven old walls can be trusted to; common practice, no source

/** The agreement about the face that rules an act at a place. */
export function rulingAt(place, act) {
  const about = place.site.all("agreement").filter((one) => (one.values.items ?? []).includes(place.face.id) && does(place.registry, one, [act]) && reaches(one, place));
  return latestOf(about, place.today);
}

/** The agreement that rules a thing: about one of these things, or about their face with all these acts. */
export function rulingOn(asked, things, acts) {
  const { site, today } = asked;
  return latestOf(site.all("agreement").filter((one) => namesOne(one, things) || ofTheirFace(asked, one, things, acts)), today);
}

/** The agreement that rules one act of a thing: about one of these things, or about their face. */
export function rulingTo(asked, things, act) {
  const { registry, site, today } = asked;
  const own = (one) => namesOne(one, things) && (one.values.answer === "no" || (one.values.acts ?? registry.forbidden).includes(act));
  return latestOf(site.all("agreement").filter((one) => own(one) || ofTheirFace(asked, one, things, [act])), today);
}

function namesOne({ id, values }, things) {
  const named = values.items ?? [];
  return things.some((thing) => named.includes(thing.id) || (thing.kind === "fixing" && thing.values.agreement === id));
}

function ofTheirFace({ registry }, ruling, things, acts) {
  return (ruling.values.items ?? []).includes(things[0].values.face) && does(registry, ruling, acts) && covers(ruling, things[0]);
}

function covers(ruling, thing) {
  if (!known(ruling.values.outline)) return true;
  if (thing.kind === "fixing") return reaches(ruling, { at: placeOf(thing), radius: thing.values.contact_radius_mm });
  const inside = outlineOf(fittingStretch(thing)).map((at) => reaches(ruling, { at, radius: 0 }));
  return ruling.values.answer === "no" ? inside.some(Boolean) : inside.every(Boolean);
}

/** The agreement that rules: the latest, on one day the no; a yes of a day to come, only where no other is there. */
function latestOf(rulings, today) {
  const no = ({ answer }) => (answer === "no" ? 1 : 0);
  const rank = ({ id, values }) => [no(values) || come(values.on, today) ? 1 : 0, values.on, no(values), id];
  return rulings.reduce((latest, one) => (latest === null || later(rank(one), rank(latest)) ? one : latest), null);
}

function later(one, other) {
  const at = one.findIndex((value, place) => value !== other[place]);
  return at >= 0 && one[at] > other[at];
}

/** Whether what is agreed for a face is about these acts: all of a yes, one of a no; a no without acts is to all. */
function does({ forbidden }, { values }, acts) {
  if (values.answer === "no") return acts.some((act) => (values.acts ?? forbidden).includes(act));
  return acts.every((act) => (values.acts ?? []).includes(act));
}

function reaches({ values }, { at, radius }) {
  if (!known(values.outline)) return true;
  return discDistance(values.outline, at, 0) <= (values.answer === "no" ? radius : -radius);
}

/** Why a yes is none on a day, to stand behind its reference: dated later, ended, or on conditions not met; "" if not. */
export function lapsed({ values }, today) {
  if (!come(values.on, today)) return ", a day that has not come.";
  if (values.until && values.until < today) return `, ended on ${dayOf(values.until)}.`;
  return ["no", "not yet"].includes(values.conditions_met) ? `: its conditions are not met: ${conditionsOf(values)}.` : "";
}

/** That nobody entered whether its conditions are met, to stand behind its reference; "" where that is no question. */
export function unsaid({ values }) {
  const conditional = values.answer === "yes, with conditions" || values.conditions;
  if (known(values.conditions_met) || !conditional) return "";
  return `: whether its conditions are met is not entered: ${conditionsOf(values)}.`;
}

function conditionsOf({ conditions }) {
  return (conditions || "–").replace(/\.+$/, "");
}

/** Why a yes to holes is none to this one, to stand behind its reference; "" where it is. */
export function notToThisHole(place, ruling) {
  const { depth_mm: most, holes } = ruling.values;
  if (!known(most)) return " agrees to a hole, and does not say how deep it may go.";
  if (place.depth !== null && place.depth > most) return ` agrees to ${figure(most)} mm, not to ${figure(place.depth)} mm.`;
  if (!known(holes)) return "";
  const made = holesUnder(place, ruling);
  const here = made.some((one) => one.values.face === place.face.id && away(placeOf(one), place.at) <= AT_HOLD_MM);
  if (made.length < holes || (here && made.length === holes)) return "";
  return ` agrees to ${holes} new holes, and ${made.length} are planned or made.`;
}

/** The fixings that stand, make a hole and are covered by a yes: named, of a fitting named, or in its area. */
export function holesUnder({ registry, site }, ruling) {
  const named = ruling.values.items ?? [];
  const onFace = (one) => named.includes(one.values.face) && does(registry, ruling, ["drilling"]) && covers(ruling, one);
  const own = ({ id, values }) => named.includes(id) || named.includes(values.fitting) || values.agreement === ruling.id;
  return site.all("fixing").filter((one) => (own(one) || onFace(one)) && stands(one) && makesHole(site, one));
}

function away(/** @type {number[]} */ [x, z], /** @type {number[]} */ [otherX, otherZ]) {
  return Math.hypot(x - otherX, z - otherZ);
}

/** The existing hold that is at a place, the nearest of them; undefined where there is none. */
export function holdHere({ site, face, at: [x, z] }) {
  const far = ({ values }) => away([values.x_mm, values.z_mm], [x, z]);
  const here = site.of(face, "hold").filter((one) => far(one) <= Math.max((one.values.diameter_mm ?? 0) / 2, AT_HOLD_MM));
  return here.sort((one, other) => far(one) - far(other) || (one.id < other.id ? -1 : 1))[0];
}

/** An agreement with who gave it and when. */
export function givenBy({ values }) {
  return `${values.reference}, given by ${values.said_by} on ${dayOf(values.on)}`;
}

/** Whether somebody said, on a day that has come where one is told, that an existing hold may be used. */
export function mayBeUsed({ values }, today) {
  return values.may_be_used === "yes" && Boolean(values.said_by) && (!values.said_on || come(values.said_on, today));
}

/** Who said it of a hold, and when, as the end of a sentence. */
export function saidBy({ values }) {
  if (!values.said_by) return "";
  return `, said by ${values.said_by}${values.said_on ? ` on ${dayOf(values.said_on)}` : ""}`;
}

/** What was agreed for a thing, a place or a part of it, and which hold is at a place of it: as fieldbook/findings/rulings.py has it. */

import { areaDistance, discDistance, holdsAllOf } from "../../checks/keep_off.js";
import { isThere } from "./ages.js";
import { come } from "./moments.js";
import { fittingStretch, known, outlineOf, placeOf } from "./places.js";
import { dayOf } from "./wording.js";

export const AT_HOLD_MM = 5; // what setting out on uneven old walls can be trusted to; common practice, no source
export const BY_HOLD = ["contact", "load"]; // to which a yes to an existing hold is a yes

/** The agreement that rules an act at a place: about the place, or a hold, board or timber that is there. */
export function rulingAt(place, act) {
  const { registry, site, face, at, radius } = place;
  const hold = holdHere(place);
  const boards = site.of(face, "member").filter((one) => isThere(one, at, radius));
  const rules = (one) =>
    (ofPlace(site, one, face) && does(registry, one, act, []) && reaches(one, face, place)) ||
    (hold && onPart(registry, one, hold, act)) ||
    boards.some((board) => onPart(registry, one, board, act) && (one.values.answer === "no" || (board.values.behind_mm === 0 && isThere(board, at, -radius))));
  return latestOf(site.all("agreement").filter(rules), place.today);
}

/** The agreement that rules one act of a thing: about one of these things, or about where the first of them is. */
export function rulingTo({ registry, site, today }, things, act) {
  const [thing] = things;
  const face = site.get(thing.values.face);
  const parts = thing.kind === "fixing" ? [site.get(thing.values.hold), site.get(thing.values.member)].filter(Boolean) : [];
  const rules = (one) =>
    (things.some((own) => namesIt(one, own)) && does(registry, one, act, registry.forbidden)) ||
    (face && ofPlace(site, one, face) && does(registry, one, act, []) && covers(one, face, thing)) ||
    parts.some((part) => onPart(registry, one, part, act));
  return latestOf(site.all("agreement").filter(rules), today);
}

/** The agreement that rules one act among those that name one of these things. */
export function rulingNaming({ registry, site, today }, things, act) {
  const about = (one) => things.some((thing) => namesIt(one, thing)) && does(registry, one, act, registry.forbidden);
  return latestOf(site.all("agreement").filter(about), today);
}

/** The one of two that rules, of which either may be lacking. */
export function latestOfTwo(/** @type {any} */ one, /** @type {any} */ other, /** @type {string} */ today) {
  return latestOf([one, other].filter(Boolean), today);
}

/** Of the agreements that name one of these things, the yes that rules, whatever it is about. */
export function yesNaming({ site, today }, things) {
  const named = (one) => one.values.answer !== "no" && things.some((thing) => namesIt(one, thing));
  return latestOf(site.all("agreement").filter(named), today);
}

/** Whether an agreement is about acts at a place, and not about a thing in one state. */
export function isOfPlace(site, ruling, thing) {
  const face = site.get(thing.values.face);
  if (ruling.values.acts?.length && ofPlace(site, ruling, face) && covers(ruling, face, thing)) return true;
  const fitting = thing.kind === "fixing" ? site.get(thing.values.fitting) : null;
  return ![thing, fitting].some((one) => one && namesIt(ruling, one));
}

export function namesIt({ id, values }, thing) {
  return (values.items ?? []).includes(thing.id) || (thing.kind === "fixing" && thing.values.agreement === id);
}

/** Whether an agreement names a face, its room or the site. */
export function ofPlace(site, { values }, face) {
  return [face.id, face.values.room, site.item.id].some((place) => (values.items ?? []).includes(place));
}

/** Whether one is about an act on a hold, board or timber: a yes to a hold without acts is to using it again. */
function onPart(registry, ruling, part, act) {
  return namesIt(ruling, part) && does(registry, ruling, act, part.kind === "hold" ? BY_HOLD : []);
}

/** Whether an agreement is about an act; one that lists none is, of a no, about all, of a yes about those given. */
export function does({ forbidden }, { values }, act, without) {
  return (values.acts?.length ? values.acts : values.answer === "no" ? forbidden : without).includes(act);
}

/** Whether it holds on all of a face; null where it is about an area of that. Of a room no area can be told. */
export function holdsOn({ values }, face) {
  if (!known(values.outline)) return true;
  return values.items.includes(face.id) ? null : values.answer === "no";
}

export function reaches(ruling, face, { at, radius }) {
  const { answer, outline } = ruling.values;
  return holdsOn(ruling, face) ?? discDistance(outline, at, 0) <= (answer === "no" ? radius : -radius);
}

export function covers(ruling, face, thing) {
  if (thing.kind === "fixing") return reaches(ruling, face, { at: placeOf(thing), radius: thing.values.contact_radius_mm });
  const { answer, outline } = ruling.values;
  const footprint = outlineOf(fittingStretch(thing));
  return holdsOn(ruling, face) ?? (answer === "no" ? areaDistance(outline, footprint) <= 0 : holdsAllOf(outline, footprint));
}

/** The agreement that rules: the latest, on one day the no, then the one that grants less; a yes to come, if it is alone. */
function latestOf(rulings, today) {
  const no = ({ answer }) => (answer === "no" ? 1 : 0);
  const conditional = ({ answer, conditions }) => (answer === "yes, with conditions" || conditions ? 1 : 0);
  const rank = ({ id, values }) => {
    const grants = [conditional(values), -(values.depth_mm ?? Infinity), -(values.holes ?? Infinity)];
    return [no(values) || come(values.on, today) ? 1 : 0, values.on, no(values), ...grants, id];
  };
  return rulings.reduce((latest, one) => (latest === null || later(rank(one), rank(latest)) ? one : latest), null);
}

function later(one, other) {
  const at = one.findIndex((value, place) => value !== other[place]);
  return at >= 0 && one[at] > other[at];
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

export function away(/** @type {number[]} */ [x, z], /** @type {number[]} */ [otherX, otherZ]) {
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

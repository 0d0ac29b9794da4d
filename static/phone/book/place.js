/** Whether a thing can be where it is said to be. Mirrors fieldbook/findings/place.py. */

import { stretch } from "../../checks/clearance.js";
import { roundedUp } from "../../checks/limits.js";
import { figure } from "../../checks/refusal.js";
import { notKnown, verdict } from "../../checks/verdict.js";
import { blankInWords } from "./looked.js";
import { SOURCE, awayFrom, beyond, offItsFitting, offItsHold, offTheOther, reachingPast } from "./off_place.js";
import { atOneTime } from "./phase_order.js";
import * as places from "./places.js";
import { metBy } from "./other_walls.js";
import { hungOn } from "./reach.js";
import { calledOf, stands } from "./site.js";
import { joined } from "./wording.js";

const FACE_MM = 0.5; // what two measured edges may differ by and still meet: common practice, no source
const LEAST_SEEN_MM = 10; // a thing smaller both ways was entered in metres: common practice, no source
const BLANK_MM = 20; // what is not entered as wider may ordinarily measure across: common practice, no source
// What a thing may be entered as held by, and how that is said.
const HELD_BY = {
  fitting: [["hangs_on", "hang on"]],
  fixing: [["hold", "use"], ["member", "be let into"], ["other_fitting", "be fixed to"]],
};

/** A fitting's outline held against the edges of its face and the other fittings there. */
export function placeOfFitting({ registry, site }, fitting) {
  const face = site.get(fitting.values.face);
  const part = places.fittingStretch(fitting);
  const met = metBy(registry, site, fitting).filter(({ by, other }) => by > FACE_MM && apart(site, fitting, other));
  const wrong = [...beyond(registry, face, part), ...through(registry, site, fitting, part)];
  for (const { other, by, missing } of met) if (!missing.length) wrong.push({ by, sentence: standsInto(registry, by, other), against: other });
  const open = wrong.length ? null : inMetres(fitting) ?? goneFrom(registry, site, fitting) ?? perhapsMet(registry, site, met);
  return open ?? answerOf(wrong, `It lies on ${calledOf(registry, face)} and through nothing else there.`);
}

/** A thing too small to be one, as it is where metres were typed for millimetres. */
function inMetres({ values: { width_mm: width, height_mm: height } }) {
  if (Math.max(width, height) >= LEAST_SEEN_MM) return null;
  const size = `${figure(width)} × ${figure(height)} mm`;
  return { against: null, verdict: notKnown("place", ["width_mm"], `It is ${size}; enter its size in millimetres.`, SOURCE) };
}

/** A fixing's place held against its face, its fitting, its hold, and what else stands there. */
export function placeOfFixing({ registry, site }, fixing) {
  const half = ["fitted_x_mm", "fitted_z_mm"].filter((name) => !places.known(fixing.values[name]));
  if (half.length === 1) {
    const sentence = `Half a place was measured. Not entered: ${blankInWords(registry, { item: fixing, field: half[0] })}.`;
    return { against: null, verdict: notKnown("place", half, sentence, SOURCE) };
  }
  const face = site.get(fixing.values.face);
  const [x, z] = places.placeOf(fixing);
  const wrong = [
    ...beyond(registry, face, stretch(x, x, z, z)),
    ...offItsFitting(registry, site, fixing, [x, z]),
    ...offTheOther(registry, site, fixing, [x, z]),
    ...offItsHold(registry, site, fixing, [x, z]),
    ...inTheWay(registry, site, fixing, [x, z]),
  ];
  const open = wrong.length ? null : goneFrom(registry, site, fixing) ?? perhapsInTheWay(registry, site, fixing, [x, z]);
  if (!open && !wrong.length) {
    const past = reachingPast(registry, face, fixing);
    if (past) return past;
  }
  return open ?? answerOf(wrong, `It lies on ${calledOf(registry, face)}, on its fitting, and in nothing else’s place.`);
}

/** Where what is to hold a thing was withdrawn or taken down since; null where all of it is there. */
function goneFrom(registry, site, { kind, values }) {
  for (const [name, words] of HELD_BY[kind]) {
    const heldBy = site.get(values[name]);
    if (!places.known(values[name]) || (heldBy && stands(heldBy))) continue;
    const said = heldBy
      ? `${calledOf(registry, heldBy)}, which it is to ${words}, was taken down.`
      : `What it is to ${words} is not in the book any more.`;
    return { against: heldBy ?? null, verdict: notKnown("place", [name], `${said} Enter what takes its place.`, SOURCE) };
  }
  return null;
}

function answerOf(wrong, well) {
  if (!wrong.length) return { against: null, verdict: verdict("place", "within", [null, null, null], well, SOURCE) };
  const worse = (one, other) => one.by > other.by || (one.by === other.by && one.against.id > other.against.id);
  const { by, sentence, against } = wrong.reduce((most, one) => (worse(one, most) ? one : most));
  const out = roundedUp(by);
  return { against, verdict: verdict("place", "over", by === Infinity ? [null, null, null] : [out, 0, -out], sentence, SOURCE) };
}

function* through(registry, site, fitting, part) {
  for (const other of site.of(site.get(fitting.values.face), "fitting")) {
    if (other.id === fitting.id || !stands(other) || !apart(site, fitting, other)) continue;
    const by = overlap(part, places.fittingStretch(other));
    if (by > FACE_MM) yield { by, sentence: standsInto(registry, by, other), against: other };
  }
}

function standsInto(registry, by, other) {
  return `It stands ${figure(roundedUp(by))} mm into the place of ${calledOf(registry, other)}.`;
}

/** Whether two fittings need a place each. */
function apart(site, fitting, other) {
  return !belong(site, fitting, other) && atOneTime(site, fitting, other);
}

/** Where what is not entered decides whether a thing on another wall is in its place; null elsewhere. */
function perhapsMet(registry, site, met) {
  if (!met.length) return null;
  const { other, missing } = met.reduce((most, one) => (one.by > most.by || (one.by === most.by && one.other.id > most.other.id) ? one : most));
  const of = `${calledOf(registry, other)} on ${calledOf(registry, site.get(other.values.face))}`;
  const lacking = joined([...new Set(missing.map((blank) => blankInWords(registry, blank)))]);
  const sentence = `Whether it stands in the place of ${of} is not known. Not entered: ${lacking}.`;
  return { against: other, verdict: notKnown("place", missing.map(({ field }) => field), sentence, SOURCE) };
}

/** Whether one of two fittings hangs on, is fixed to, or covers the other, so that they may lie over each other. */
function belong(site, one, other) {
  const onto = (first, second) =>
    (first.values.covers ?? []).includes(second.id) || hungOn(site, first).some(({ id }) => id === second.id);
  return onto(one, other) || onto(other, one);
}

function overlap(one, other) {
  const across = Math.min(one.xTo, other.xTo) - Math.max(one.xFrom, other.xFrom);
  return Math.min(across, Math.min(one.zTo, other.zTo) - Math.max(one.zFrom, other.zFrom));
}

/** How far other fixings reach into its place, mm, where one of no diameter measures `blankMm` across. */
function* inThePlace(site, fixing, [x, z], blankMm) {
  if (fixing.values.fabric === "another fitting") return;
  const radius = ({ values }) => (values.diameter_mm ?? blankMm) / 2;
  for (const other of site.fixingsOn(site.get(fixing.values.face))) {
    if (other.id === fixing.id || !stands(other) || other.values.fabric === "another fitting" || !atOneTime(site, fixing, other)) continue;
    const [otherX, otherZ] = places.placeOf(other);
    const into = radius(fixing) + radius(other) - Math.hypot(x - otherX, z - otherZ);
    if (into > 0 || (x === otherX && z === otherZ)) yield { by: Math.max(into, 0.1), against: other };
  }
}

/** Where a diameter that is not entered decides whether another fixing is in its place; null elsewhere. */
function perhapsInTheWay(registry, site, fixing, at) {
  const found = [...inThePlace(site, fixing, at, BLANK_MM)];
  if (!found.length) return null;
  const { against } = found.reduce((most, one) => (one.by > most.by || (one.by === most.by && one.against.id > most.against.id) ? one : most));
  const blanks = [fixing, against].filter(({ values }) => !places.known(values.diameter_mm));
  const lacking = blanks.map((item) => blankInWords(registry, { item, field: "diameter_mm" })).join(" and ");
  const sentence = `Whether it is in the place of ${calledOf(registry, against)} is not known. Not entered: ${lacking}.`;
  return { against, verdict: notKnown("place", ["diameter_mm"], sentence, SOURCE) };
}

/** Other fixings in its place, and fittings it would go through. */
function* inTheWay(registry, site, fixing, [x, z]) {
  if (fixing.values.fabric === "another fitting") return;
  const face = site.get(fixing.values.face);
  for (const { by, against } of inThePlace(site, fixing, [x, z], 0)) {
    yield { by, sentence: `It is in the place of ${calledOf(registry, against)}.`, against };
  }
  const own = site.get(fixing.values.fitting);
  for (const other of site.of(face, "fitting")) {
    if (!own || other.id === own.id || !stands(other) || belong(site, own, other) || !atOneTime(site, fixing, other)) continue;
    const part = places.fittingStretch(other);
    const by = overlap(stretch(x - FACE_MM, x + FACE_MM, z - FACE_MM, z + FACE_MM), part);
    const sentence = `It goes through ${calledOf(registry, other)}, which it does not hold.`;
    if (by > FACE_MM && awayFrom(part, [x, z]) === 0) yield { by, sentence, against: other };
  }
}

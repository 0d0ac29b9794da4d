/** Whether what stands out keeps clear of what swings, passes, must be seen, or has heads below. Mirrors fieldbook/findings/clearance.py. */

import { CLEARANCE_SOURCE, clearDepth, clearInWords, held, highest, meets, stretch } from "../../checks/clearance.js";
import { asEntered, roundedDown, roundedUp } from "../../checks/limits.js";
import { figure } from "../../checks/refusal.js";
import { notKnown, verdict } from "../../checks/verdict.js";
import { limitsOf, untold } from "./limits_here.js";
import { SWINGS, ahead, blankInWords, looked } from "./looked.js";
import * as places from "./places.js";
import { fixingReach, inWords, leastOf, movesOf, reachOf } from "./reach.js";
import { calledOf } from "./site.js";

const HEADROOM_MM = 2_300; // the most anybody asks for: common practice, no source
const LEANS_DEG = 15; // a face that leans over so far has heads below it: common practice, no source
const INSIDE = "It lies within its fitting, which is held against what must stay clear.";

/** A fitting's front, at worst, held against the clear depth over the part of the face it covers. */
export function clearanceOfFitting(asked, fitting) {
  const { registry, site } = asked;
  const { xFrom, xTo, zFrom, zTo } = places.fittingStretch(fitting);
  const moves = movesOf(site, fitting);
  const part = stretch(xFrom - moves, xTo + moves, zFrom, zTo);
  return judged(asked, site.get(fitting.values.face), part, reachOf(registry, site, fitting));
}

/** What stands out of a fixing by itself, or beside its fitting; what lies within its fitting is not asked. */
export function clearanceOfFixing(asked, fixing) {
  const { site } = asked;
  const part = places.fixingStretch(fixing);
  const fitting = site.get(fixing.values.fitting);
  const beside = fitting?.values.face !== fixing.values.face || !meets(part, places.fittingStretch(fitting));
  if (!places.known(fixing.values.stands_out_mm) && !beside) {
    return { against: null, verdict: verdict("clearance", "does not apply", [null, null, null], INSIDE, CLEARANCE_SOURCE) };
  }
  return judged(asked, site.get(fixing.values.face), part, fixingReach(site, fixing));
}

/** The clear depth over a part of a face, for something that stands out so far at least. @throws as the desk's does */
export function clearOver(registry, site, face, part, out) {
  const limits = limitsOf(registry, site, face);
  const clear = clearDepth(limits, part);
  if (places.overhead(face) || places.isUpright(face) || out <= (clear.depth ?? Infinity)) return clear;
  const sure = clearDepth(limits.filter(({ id }) => site.get(id).values.sort !== "headroom"), part);
  if (out <= (sure.depth ?? Infinity)) places.refuseHeights(face, `the headroom of ${clear.limitedBy.name}`);
  return sure;
}

function judged(asked, face, part, reach) {
  const { registry, site } = asked;
  const clear = clearOver(registry, site, face, part, reach.low);
  const seen = looked(asked, face, SWINGS);
  const against = (clear.limitedBy && site.get(clear.limitedBy.id)) ?? null;
  const depth = clear.depth ?? Infinity;
  if (reach.low > depth || (reach.high <= depth && seen)) {
    const out = reach.low > depth ? reach.low : reach.high;
    const low = places.overhead(face) && reach.low <= depth ? lowOverhead(registry, site, face, part, out) : null;
    const slope = !low && reach.low <= depth ? belowASlope(registry, site, face, part) : null;
    if (slope) return { against: null, verdict: slope };
    const past = !low && reach.low <= depth ? untold(registry, site, face, part, out) : null;
    if (past) return { against: null, verdict: pastIt(past, out) };
    const over = !low && reach.low <= depth ? overAWay(registry, site, face, part, out) : null;
    if (over) return over;
    return low ? { against: null, verdict: low } : { against, verdict: answerOf(out, reach, clear, against, seen) };
  }
  if (reach.high > depth) return { against, verdict: unsure(registry, reach, clear) };
  return { against, verdict: notLooked(asked, face, reach) };
}

function answerOf(out, reach, clear, against, seen) {
  const who = `What swings, passes or must be seen was ${seen}.`;
  if (out === Infinity) {
    return verdict("clearance", "within", [null, null, null], `Nothing limits the depth here. ${who}`, CLEARANCE_SOURCE);
  }
  const found = held(out, clear);
  const sentence = !against && seen ? `${found.sentence} ${who}` : found.sentence;
  return { ...found, sentence, working: [...reach.steps, ...found.working] };
}

/** Clear or not, as the case may be with what is not entered. */
function unsure(registry, reach, { depth, limitedBy }) {
  const names = reach.missing.map((blank) => blankInWords(registry, blank)).join("; ");
  const limit = asEntered(depth ?? 0);
  const out = leastOf(reach);
  const sentence = `${inWords(reach)}; ${clearInWords(limit, limitedBy?.name ?? "")}. Not entered: ${names}.`;
  const found = notKnown("clearance", reach.missing.map(({ field }) => field), sentence, CLEARANCE_SOURCE);
  return { ...found, figure: out, limit, working: reach.steps };
}

function notLooked(asked, face, { high }) {
  const out = high === Infinity ? null : roundedUp(high);
  const far = out === null ? "" : ` It stands out ${figure(out)} mm.`;
  const sentence = `Nobody has looked for what swings, passes or must be seen in front of ${calledOf(asked.registry, face)}.${far}${ahead(asked, face, [SWINGS])}`;
  return { ...notKnown("clearance", ["looked_for"], sentence, CLEARANCE_SOURCE), figure: out };
}

/** A leaf of another wall of which it is not known whether it comes past. */
function pastIt({ sentence, blanks }, out) {
  const found = notKnown("clearance", blanks.map(({ field }) => field), sentence, CLEARANCE_SOURCE);
  return { ...found, figure: out === Infinity ? null : roundedUp(out) };
}

/** What may be in the way of heads for all that is entered, where something stands out so far; null where nothing is. */
export function headsBelow(registry, site, face, part, out) {
  const low = places.overhead(face) ? lowOverhead(registry, site, face, part, out) : null;
  return low ?? belowASlope(registry, site, face, part) ?? overAWay(registry, site, face, part, out)?.verdict ?? null;
}

/** What stands out of a wall over a way lower than heads need, where no headroom is set; null anywhere else. */
function overAWay(registry, site, face, part, out) {
  const low = part.zFrom - highest(places.floorOf(face), part.xFrom, part.xTo);
  if (places.overhead(face) || !places.isUpright(face) || low >= HEADROOM_MM) return null;
  const limits = limitsOf(registry, site, face);
  const sortOf = (/** @type {any} */ { id }) => site.get(id).values.sort;
  if (headroomOver(site, limits, part)) return null;
  for (const limit of limits.filter((one) => sortOf(one) === "route" && part.zFrom >= one.band.zTo)) {
    const { depth } = clearDepth([{ ...limit, band: stretch(limit.band.xFrom, limit.band.xTo) }], part);
    if (out <= (depth || Infinity)) continue;
    const top = `which is kept free up to z ${figure(limit.band.zTo)} mm`;
    const called = calledOf(registry, face);
    const sentence = `It hangs ${figure(roundedDown(low))} mm above the floor over ${limit.name}, ${top}, and no headroom is set for ${called}. Enter a limit of type “headroom”.`;
    return { against: site.get(limit.id), verdict: notKnown("clearance", [], sentence, CLEARANCE_SOURCE) };
  }
  return null;
}

/** What stands on a face that leans over, where nobody said how much headroom must stay; null anywhere else. */
function belowASlope(registry, site, face, part) {
  const { slope_deg: slope } = face.values;
  if (places.overhead(face) || places.isUpright(face) || (slope || LEANS_DEG) < LEANS_DEG) return null;
  if (headroomOver(site, limitsOf(registry, site, face), part)) return null;
  const called = calledOf(registry, face);
  if (!places.known(slope)) {
    const sentence = `How far ${called} leans over is not entered, so whether heads pass below it is not known.`;
    return notKnown("clearance", ["slope_deg"], sentence, CLEARANCE_SOURCE);
  }
  const sentence = `It stands on a face that leans over by ${figure(slope)}°, and no headroom is set for ${called}. Enter a limit of type “headroom”.`;
  return notKnown("clearance", [], sentence, CLEARANCE_SOURCE);
}

/** Whether a headroom is set over all of a part. */
function headroomOver(site, limits, part) {
  return limits.some(({ id, leaf, band }) => site.get(id).values.sort === "headroom" && !leaf && band.xFrom <= part.xFrom && part.xTo <= band.xTo);
}

/** What hangs over the floor, where nobody said how much headroom must stay; null where that is settled. */
function lowOverhead(registry, site, face, part, out) {
  const own = limitsOf(registry, site, face).filter(({ leaf, projection }) => !leaf && projection);
  if (clearDepth(own, part).limitedBy) return null; // a headroom or a depth was set for it
  const [above, called] = [places.aboveFloor(site, face), calledOf(registry, face)];
  if (above === null) {
    const sentence = `How high ${called} is above the floor is not entered, so the headroom below it is not known.`;
    return notKnown("clearance", ["above_floor_mm"], sentence, CLEARANCE_SOURCE);
  }
  if (above - out >= HEADROOM_MM) return null;
  const left = out === Infinity ? "over the floor" : `${figure(Math.max(above - out, 0))} mm above the floor`;
  const sentence = `It hangs ${left}, and no headroom is set for ${called}. Enter a limit of type “headroom”.`;
  return notKnown("clearance", [], sentence, CLEARANCE_SOURCE);
}

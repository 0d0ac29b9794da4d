/** The clearance limits that hold in front of a face: its own, and those of other walls that come past it. Mirrors fieldbook/findings/limits_here.py. */

import { meets, stretch, widened } from "../../checks/clearance.js";
import { boxesAt } from "../../checks/sweep.js";
import { limitsBelow, untoldBelow } from "./below_ceiling.js";
import { keptFree, onOther } from "./kept_free.js";
import * as places from "./places.js";
import { isWall, lacking, levelOf, nameOf, others, placed, where } from "./walls.js";
import { limitsAcross, untoldAcross } from "./ways.js";

const STEP_DEG = 3;

/** All of them as the check takes them. @returns {import("../../checks/clearance.js").Limit[]} */
export function limitsOf(registry, site, face) {
  const own = site.of(face, "limit").map((limit) => places.limitValue(limit, face, places.aboveFloor(site, face)));
  const past = placed(face) ? comingPast(site, face).filter(({ wall }) => placed(wall)) : [];
  const turned = past.map(({ wall, free }) => onOther(face, wall, free));
  return [...own, ...turned, ...limitsAcross(registry, site, face), ...limitsBelow(site, face)];
}

/**
 * A limit that may bear on a part of a face, with what would tell; null if there is none.
 * @param {any} registry
 * @param {any} site
 * @param {any} face
 * @param {import("../../checks/clearance.js").Stretch} part  mm
 * @param {number} out  mm, how far something stands out there at most
 * @returns {{sentence: string, blanks: any[]}|null}
 */
export function untold(registry, site, face, part, out) {
  return pastCorners(site, face, part, out) ?? untoldAcross(registry, site, face, part, out) ?? untoldBelow(site, face, part, out);
}

/** What may come past from walls that do not both stand in the plan, which are taken to meet at a corner. */
function pastCorners(site, face, part, out) {
  const end = places.faceStretch(face);
  const along = Math.min(part.xFrom - end.xFrom, end.xTo - part.xTo);
  for (const { wall, limit, free } of comingPast(site, face)) {
    const blanks = lacking(face, wall);
    if (!blanks.length || !atItsHeights(face, wall, free, part) || !mayMeet(wall, free, along, out)) continue;
    const passes = limit.values.sort === "leaf" ? "may swing past it" : "may reach to where it stands out";
    return { sentence: `${places.limitName(limit)} of ${nameOf(wall)} ${passes}: ${where(blanks)}`, blanks };
  }
  return null;
}

/** The limits of the room's other walls that may come past a face, each with its wall and as a leaf. */
function comingPast(site, face) {
  if (!isWall(face)) return [];
  const limits = others(site, face).flatMap((wall) => site.of(wall, "limit").map((limit) => ({ wall, limit })));
  return limits.map(({ wall, limit }) => ({ wall, limit, free: keptFree(wall, limit, face) })).filter(({ free }) => free);
}

function atItsHeights(face, wall, { band, margin }, part) {
  const level = levelOf(face, wall);
  return meets(widened(part, margin), stretch(undefined, undefined, band.zFrom + level, band.zTo + level));
}

function mayMeet(wall, { leaf: swung, margin }, along, out) {
  const end = places.faceStretch(wall);
  const steps = Math.max(1, Math.ceil((swung.to - swung.from) / STEP_DEG));
  const points = Array.from({ length: steps + 1 }, (_, step) => boxesAt(swung, step / steps)).flat(2);
  const near = Math.min(Math.min(...points.map(([x]) => x)) - end.xFrom, end.xTo - Math.max(...points.map(([x]) => x))) - margin;
  return near < out && along - margin < Math.max(...points.map(([, y]) => y));
}

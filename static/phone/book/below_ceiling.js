/** What hangs from a ceiling against what must stay free in front of the walls. Mirrors fieldbook/findings/below_ceiling.py. */

import { stretch, swingsBelow } from "../../checks/clearance.js";
import { keptFree, topOf } from "./kept_free.js";
import * as places from "./places.js";
import { lacking, nameOf, others, placed, turned, where } from "./walls.js";

// A way is asked about by the headroom over it; a flat limit is about what stands out of its wall.
const SORTS = ["leaf", "keep in view", "headroom"];

/** Leaves, signs and headroom of the walls, as what may hang down over them. */
export function limitsBelow(site, face) {
  const above = places.aboveFloor(site, face);
  if (above === null || !placed(face)) return [];
  const told = inFrontOfWalls(site, face).filter(({ wall, top }) => top !== null && placed(wall));
  return told.map(({ wall, free, top }) => seenFromBelow(face, wall, free, above - overFloor(wall, top)));
}

/** What may be in the way of something that hangs so far down, with what would tell; null where nothing is. */
export function untoldBelow(site, face, part, out) {
  const above = places.aboveFloor(site, face);
  if (above === null) return null;
  for (const { wall, limit, free, top } of inFrontOfWalls(site, face)) {
    const most = top === null ? places.faceStretch(wall).zTo : top + free.margin;
    if (above - out >= overFloor(wall, most)) continue;
    const name = `${places.limitName(limit)} of ${nameOf(wall)}`;
    const blanks = lacking(face, wall);
    if (blanks.length) return { sentence: `${name} may be below it: ${where(blanks)}`, blanks };
    if (top === null && swingsBelow(seenFromBelow(face, wall, free, 0), part)) {
      const sentence = `${name} swings below it, and up to which z it reaches is not entered.`;
      return { sentence, blanks: [{ item: limit, field: "z_to_mm" }] };
    }
  }
  return null;
}

function inFrontOfWalls(site, face) {
  if (!places.overhead(face)) return [];
  const limits = others(site, face).flatMap((wall) => site.of(wall, "limit").map((limit) => ({ wall, limit })));
  const asked = limits.filter(({ limit }) => SORTS.includes(limit.values.sort));
  const told = asked.map(({ wall, limit }) => ({ wall, limit, free: keptFree(wall, limit) })).filter(({ free }) => free);
  return told.map((one) => ({ ...one, top: topOf(one.wall, one.limit, one.free) }));
}

function overFloor(wall, z) {
  return z - places.floorOf(wall)[0][1];
}

function seenFromBelow(face, wall, free, left) {
  return { ...free, name: `${free.name} of ${nameOf(wall)}`, band: stretch(), leaf: turned(face, wall, free.leaf), projection: left };
}

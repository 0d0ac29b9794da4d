/** The zones that bear on a face: its own, and those of the next walls, unfolded. Mirrors fieldbook/findings/zones_seen.py. */

import * as places from "./places.js";
import { isWall, lacking, levelOf, nameOf, others, placeOn } from "./walls.js";

const CORNER_MM = 50; // two measured ends lie no farther apart where walls meet: common practice, no source
/** @type {WeakMap<object, Map<string, any[]>>} */
const seen = new WeakMap(); // a site that is changed is another one

/**
 * Those of a face, in its axes, made once a site.
 * @returns {{zone: any, missing: any[]}[]} `missing`: the entries on which it rests that it lies there at all
 */
export function zonesOf(site, face) {
  const made = seen.get(site) ?? new Map();
  if (!seen.has(site)) seen.set(site, made);
  if (!made.has(face)) made.set(face, [...own(site, face), ...ofNextWalls(site, face)]);
  return made.get(face) ?? [];
}

function own(site, face) {
  return site.of(face, "zone").map((zone) => ({ zone, missing: [] }));
}

/** Those that come nearer to the end of their wall than their margin, or go beyond it. */
function* ofNextWalls(site, face) {
  if (!isWall(face)) return;
  for (const wall of others(site, face)) {
    const zones = site.of(wall, "zone");
    if (!zones.length) continue;
    const missing = lacking(face, wall);
    const shifts = new Set(missing.length ? atTheirEnds(face, wall) : corners(face, wall));
    for (const zone of zones) for (const shift of shifts) yield* shifted(face, wall, zone, shift, missing);
  }
}

function* shifted(face, wall, zone, shift, missing) {
  const level = levelOf(face, wall);
  const outline = zone.values.outline.map(([x, z]) => [rounded(x + shift), rounded(z + level)]);
  const [{ xFrom, xTo }, margin] = [places.faceStretch(face), zone.values.margin_mm];
  const xs = outline.map(([x]) => x);
  if (Math.min(...xs) - margin >= xTo || Math.max(...xs) + margin <= xFrom) return;
  const mark = `${nameOf(zone)} of ${nameOf(wall)}`;
  yield { zone: { ...zone, values: { ...zone.values, outline, mark } }, missing };
}

/** How far a wall is shifted to lie beside a face, if it is the next on its left, and if it is on its right, mm. */
function* atTheirEnds(face, wall) {
  const [here, there] = [places.faceStretch(face), places.faceStretch(wall)];
  yield here.xFrom - there.xTo;
  yield here.xTo - there.xFrom;
}

/** The same at each corner where two walls meet in the plan: at their ends, or where one ends amid the other. */
function* corners(face, wall) {
  const [here, there] = [places.faceStretch(face), places.faceStretch(wall)];
  for (const end of [here.xFrom, here.xTo]) {
    const [x, out] = placeOn(wall, face, [end, 0]);
    const [before, after] = [x - there.xFrom, there.xTo - x];
    if (meet(out, before, after, end === here.xFrom)) yield rounded(end - x);
  }
  for (const end of [there.xFrom, there.xTo]) {
    const [x, out] = placeOn(face, wall, [end, 0]);
    const [before, after] = [x - here.xFrom, here.xTo - x];
    if (meet(out, before, after, end === there.xFrom)) yield rounded(x - end);
  }
}

function meet(out, before, after, atItsLeft) {
  const beside = atItsLeft ? before : after;
  return Math.abs(out) <= CORNER_MM && beside > CORNER_MM && Math.min(before, after) > -CORNER_MM;
}

/** To a millionth of a millimetre, as the desk has it. */
function rounded(value) {
  return Math.round(value * 1e6) / 1e6;
}

/** The zones that bear on a face: its own, and those of the next walls, unfolded. Mirrors fieldbook/findings/zones_seen.py. */

import * as places from "./places.js";
import { otherSide, thicknessOf } from "./through.js";
import { isWall, lacking, levelOf, nameOf, others, placeOn } from "./walls.js";
import { CORNER_MM, IN_WALL_MM, overTheEdge, rounded, throughTheStone } from "./zones_across.js";

/** @type {WeakMap<object, Map<string, any[]>>} */
const seen = new WeakMap(); // a site that is changed is another one

/**
 * Those of a face, in its axes, made once a site.
 * @returns {{zone: any, missing: any[], own: boolean}[]} `missing`: the entries on which it rests that it lies there at all
 */
export function zonesOf(site, face) {
  const made = seen.get(site) ?? new Map();
  if (!seen.has(site)) seen.set(site, made);
  if (!made.has(face)) made.set(face, [...own(site, face), ...beside(site, face)]);
  return made.get(face) ?? [];
}

function own(site, face) {
  return site.of(face, "zone").map((zone) => ({ zone, missing: [], own: true }));
}

/** Those of other walls: each counts only where it is struck, or nearly. */
function beside(site, face) {
  return [...ofNextWalls(site, face), ...drilledFromBehind(site, face), ...across(site, face)].map((one) => ({ ...one, own: false }));
}

/** Those that go on over the edge of a ceiling, and those that a hole comes to straight through the stone. */
function* across(site, face) {
  for (const { zone, face: other, outline } of overTheEdge(site, face)) yield seenHere(zone, other, outline, []);
  for (const { zone, face: wall, outline, behind: deep } of throughTheStone(site, face)) {
    const { zone: seenThere, missing } = seenHere(zone, wall, outline, []);
    yield { zone: { ...seenThere, values: { ...seenThere.values, forbids: ["drilling"], safe_depth_mm: deep } }, missing };
  }
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
  yield seenHere(zone, wall, outline, missing);
}

/** A zone of another wall in the axes of a face. */
function seenHere(zone, wall, outline, missing) {
  const mark = `${nameOf(zone)} of ${nameOf(wall)}`;
  return { zone: { ...zone, values: { ...zone.values, outline, mark } }, missing };
}

/** The zones of the other side of a wall, in the axes of this; over all its width where x there is not known. */
export function behind(site, face) {
  const other = otherSide(site, face);
  return (other ? site.of(other.face, "zone") : []).map((zone) => {
    if (other.x !== null) {
      const outline = zone.values.outline.map(([x, z]) => [rounded(other.x - x), rounded(z - other.z)]);
      return seenHere(zone, other.face, outline, []);
    }
    const [{ xFrom, xTo }, zs] = [places.faceStretch(face), zone.values.outline.map(([, z]) => z - other.z)];
    const outline = places.outlineOf({ xFrom, xTo, zFrom: Math.min(...zs), zTo: Math.max(...zs) });
    return seenHere(zone, other.face, outline, [{ item: other.said, field: "behind_x_mm" }]);
  });
}

/** Those that forbid drilling: a hole from here keeps off what lies in the wall, or breaks out, before them. */
function drilledFromBehind(site, face) {
  const thick = thicknessOf(site, face);
  return behind(site, face).filter(({ zone }) => zone.values.forbids.includes("drilling")).map(({ zone, missing }) => {
    const safe = thick === null ? null : Math.max(thick - IN_WALL_MM, 0) + zone.values.margin_mm;
    const values = { ...zone.values, forbids: ["drilling"], safe_depth_mm: safe };
    const blanks = thick === null ? [...missing, { item: face, field: "wall_mm" }] : missing;
    return { zone: { ...zone, values }, missing: blanks };
  });
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

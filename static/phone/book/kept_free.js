/**
 * The space that a clearance limit keeps free in front of its wall, as a leaf: what must be seen, a way, headroom and a
 * flat limit are leaves that stand still. Mirrors fieldbook/findings/kept_free.py.
 */

import { highest, stretch } from "../../checks/clearance.js";
import { leaf } from "../../checks/sweep.js";
import * as places from "./places.js";
import { apart, levelOf, nameOf, turned } from "./walls.js";

export const FREE_MM = 1_000; // what stands farther in front of a wall is walked round: common practice, no source
const UNDER_MM = 1e-6; // what ends at the headroom to keep keeps it

/**
 * A limit of a wall as a leaf, in the axes of that wall; null where it keeps nothing free in front of it.
 * @param {any} wall
 * @param {any} limit
 * @param {any} face  whose things have to keep to it; null: what hangs from the ceiling
 * @returns {any}
 */
export function keptFree(wall, limit, face = null) {
  const value = places.limitValue(limit, wall);
  if (value.leaf) return value;
  const between = face ? apart(wall, face) : Infinity;
  const { band, projection: begins } = value;
  const { sort } = limit.values;
  // Of walls that look at each other from nearer by, each has half of what is between them.
  if (sort === "keep in view") return still(value, [band.xFrom, band.xTo], [0, Math.min(FREE_MM, between / 2)]);
  if (begins === null) return null;
  const end = places.faceStretch(wall);
  // What bounds it at a corner, or across from it, may stand out as far as what lies along it may.
  const along = [Math.max(band.xFrom, end.xFrom + begins), Math.min(band.xTo, end.xTo - begins)];
  if (sort === "route") return still(value, along, [begins, limit.values.clear_width_mm]);
  const held = sort === "headroom" ? belowHeadroom(value, end) : value;
  return still(held, along, [begins, Math.min(FREE_MM, between - begins)]);
}

/** Headroom as it is at the highest of the floor; its margin is one of height. */
function belowHeadroom(value, end) {
  const { xFrom, xTo, zFrom, zTo } = value.band;
  const over = highest(value.below, Math.max(xFrom, end.xFrom), Math.min(xTo, end.xTo));
  const band = stretch(xFrom, xTo, zFrom, Math.min(zTo, over + value.margin - UNDER_MM));
  return { ...value, band, margin: 0, below: [] };
}

function still(value, along, out) {
  if (along[0] >= along[1] || out[0] >= out[1] || value.band.zFrom > value.band.zTo) return null;
  return { ...value, leaf: leaf([0, 0], 0, 0, [[...along, ...out]]), projection: null };
}

/** How high what a limit keeps free reaches, mm on its wall; null for a leaf of which nobody entered it. */
export function topOf(wall, limit, free) {
  if (Number.isFinite(free.band.zTo)) return free.band.zTo;
  return limit.values.sort === "leaf" ? null : places.faceStretch(wall).zTo;
}

/** What a limit of one wall keeps free, in the axes of another that stands in the plan as well. */
export function onOther(face, wall, free) {
  const level = levelOf(face, wall);
  const band = stretch(undefined, undefined, free.band.zFrom + level, free.band.zTo + level);
  return { ...free, name: `${free.name} of ${nameOf(wall)}`, band, leaf: turned(face, wall, free.leaf) };
}

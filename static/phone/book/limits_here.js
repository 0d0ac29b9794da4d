/** The clearance limits that hold in front of a face: its own, and those of other walls that come past it. Mirrors fieldbook/findings/limits_here.py. */

import { stretch } from "../../checks/clearance.js";
import { boxesAt, leaf } from "../../checks/sweep.js";
import * as places from "./places.js";
import { joined } from "./wording.js";

const IN_PLAN = ["start_x_mm", "start_y_mm", "bearing_deg"];
const STEP_DEG = 3;
// What stands farther in front of a sign or a call point is walked round: common practice, no source.
const SEEN_FROM_MM = 1_000;

/** All of them as the check takes them. @returns {import("../../checks/clearance.js").Limit[]} */
export function limitsOf(site, face) {
  const own = site.of(face, "limit").map((limit) => places.limitValue(limit, face, places.aboveFloor(site, face)));
  return [...own, ...ofOtherWalls(site, face)];
}

/**
 * A limit of another wall that may come past a part of this one where they do not both stand in the plan, with what would
 * tell; null if there is none. Walls are taken to meet at a corner then.
 * @param {{xFrom: number, xTo: number}} part  mm
 * @param {number} out  mm, how far something stands out there at most
 */
export function unplaced(site, face, part, out) {
  if (!isWall(face)) return null;
  const end = places.faceStretch(face);
  const along = Math.min(part.xFrom - end.xFrom, end.xTo - part.xTo);
  for (const [other, limit, value] of comingPast(site, face)) {
    const blanks = [face, other].flatMap((item) => lackingIn(item).map((field) => ({ item, field })));
    if (!blanks.length || !mayMeet(other, value, along, out)) continue;
    const walls = [...new Set(blanks.map(({ item }) => nameOf(item)))].sort();
    const where = `where ${joined(walls)} ${joined(walls).includes(" ") ? "stand" : "stands"} in the plan of the room is not entered`;
    const passes = limit.values.sort === "leaf" ? "may swing past it" : "may reach to where it stands out";
    return { sentence: `${places.limitName(limit)} of ${nameOf(other)} ${passes}: ${where}.`, blanks };
  }
  return null;
}

function mayMeet(other, { leaf: swung, margin }, along, out) {
  const end = places.faceStretch(other);
  const steps = Math.max(1, Math.ceil((swung.to - swung.from) / STEP_DEG));
  const points = Array.from({ length: steps + 1 }, (_, step) => boxesAt(swung, step / steps)).flat(2);
  const near = Math.min(Math.min(...points.map(([x]) => x)) - end.xFrom, end.xTo - Math.max(...points.map(([x]) => x))) - margin;
  return near < out && along - margin < Math.max(...points.map(([, y]) => y));
}

function ofOtherWalls(site, face) {
  if (!isWall(face) || lackingIn(face).length) return [];
  const placed = comingPast(site, face).filter(([other]) => !lackingIn(other).length);
  return placed.map(([other, , value]) => seenFrom(face, other, value));
}

/** The limits of the room's other walls that may come past a face, each with its wall and as a leaf. */
function comingPast(site, face) {
  const others = site.of(site.get(face.values.room), "face").filter((other) => other.id !== face.id && isWall(other));
  const limits = others.flatMap((other) => site.of(other, "limit").map((limit) => [other, limit, asLeaf(other, limit)]));
  return limits.filter(([, , value]) => value.leaf);
}

/** What must be seen, and the width a way needs, are leaves that stand still. */
function asLeaf(wall, limit) {
  const value = places.limitValue(limit, wall);
  if (value.leaf) return value;
  const box = keptFree(wall, limit, value);
  return { ...value, leaf: box && leaf([0, 0], 0, 0, [box]), projection: null };
}

/** From where to where along a wall and out of it a limit keeps free what stands out of other walls; null: nowhere. */
function keptFree(wall, { values }, { band }) {
  if (values.sort === "keep in view") return boxOf(band.xFrom, band.xTo, 0, SEEN_FROM_MM);
  if (values.sort !== "route") return null;
  // What bounds a way at a corner may stand out as far as what lies along it may.
  const beside = values.available_mm - values.clear_width_mm;
  const end = places.faceStretch(wall);
  return boxOf(Math.max(band.xFrom, end.xFrom + beside), Math.min(band.xTo, end.xTo - beside), beside, values.clear_width_mm);
}

function boxOf(xFrom, xTo, outFrom, outTo) {
  return xFrom < xTo && outFrom < outTo ? [xFrom, xTo, outFrom, outTo] : null;
}

function isWall(face) {
  return places.isUpright(face) && !places.overhead(face);
}

function lackingIn({ values }) {
  return IN_PLAN.filter((name) => !places.known(values[name]));
}

function nameOf({ values }) {
  return values.mark || values.name;
}

/** A leaf of one wall in the axes of another: seen from above, out of a face is a quarter turn clockwise from x. */
function seenFrom(face, own, limit) {
  const [here, there] = [face.values, own.values];
  const [bearing, other] = [radians(there.bearing_deg), radians(here.bearing_deg)];
  const [x, out] = limit.leaf.hinge;
  const east = there.start_x_mm + x * Math.cos(bearing) + out * Math.sin(bearing) - here.start_x_mm;
  const north = there.start_y_mm + x * Math.sin(bearing) - out * Math.cos(bearing) - here.start_y_mm;
  const hinge = [east * Math.cos(other) + north * Math.sin(other), east * Math.sin(other) - north * Math.cos(other)];
  const turned = modulo(here.bearing_deg - there.bearing_deg + 180, 360) - 180;
  const level = places.floorOf(face)[0][1] - places.floorOf(own)[0][1];
  const band = stretch(undefined, undefined, limit.band.zFrom + level, limit.band.zTo + level);
  const swung = leaf(hinge, limit.leaf.from + turned, limit.leaf.to + turned, limit.leaf.boxes);
  return { ...limit, name: `${limit.name} of ${nameOf(own)}`, band, leaf: swung };
}

function radians(degrees) {
  return (degrees * Math.PI) / 180;
}

function modulo(value, by) {
  return ((value % by) + by) % by;
}

/**
 * How proud a face stands at a place between the places where it was measured, and how far out at worst over a part.
 * Mirrors fieldbook/checks/surface.py, with the same sums in the same order.
 */

import { finite } from "./limits.js";
import { Refusal, figure } from "./refusal.js";
import { hull, nearestOn, squared, triangleAt } from "./triangles.js";

// How far beside the readings they still stand for a place: common practice, no source.
const REACH_MM = 150;

/**
 * The proudest reading on a part of a face, or beside it on either hand.
 * @param {[number, number, number][]} readings  x, z, proud, mm
 * @param {import("./clearance.js").Stretch} part
 * @returns {number|null} mm, behind the plane negative; null where the part reaches more than 150 mm beyond the readings
 */
export function worstProud(readings, { xFrom, xTo, zFrom, zTo }) {
  if (!readings.length) return null;
  const spans = [];
  for (const [axis, low, high] of [[0, xFrom, xTo], [1, zFrom, zTo]]) {
    const places = readings.map((reading) => reading[axis]);
    const [least, most] = [Math.min(...places), Math.max(...places)];
    if (low < least - REACH_MM || high > most + REACH_MM) return null;
    const [before, after] = [places.filter((place) => place <= low), places.filter((place) => place >= high)];
    spans.push([before.length ? Math.max(...before) : least, after.length ? Math.min(...after) : most]);
  }
  const corners = hull(averaged(readings).sort((one, other) => one[0] - other[0] || one[1] - other[1]));
  const off = (x, z) => Math.max(...nearestOn(corners, [x, z]).map((at, axis) => Math.abs(at - [x, z][axis])));
  if (Math.max(off(xFrom, zFrom), off(xFrom, zTo), off(xTo, zFrom), off(xTo, zTo)) > REACH_MM) return null;
  const [[left, right], [bottom, top]] = spans;
  const near = readings.filter(([x, z]) => left <= x && x <= right && bottom <= z && z <= top);
  return Math.max(...(near.length ? near : readings).map(([, , proud]) => proud));
}

/**
 * How far the face stands out of its reference plane at a place, by linear interpolation in triangles of Delaunay.
 * @param {number[][]} readings  x, z, proud, mm; those of the same place are averaged
 * @param {number[]} place  x and z, mm
 * @returns {number} mm, behind the plane negative
 * @throws {Refusal} missing, out-of-range
 */
export function proud(readings, place) {
  if (!readings.length) throw new Refusal("missing", "The surface of the face was not measured.", "Enter surface readings of the face.", { field: "surface" });
  const [x, z] = [finite("x_mm", place[0], "mm"), finite("z_mm", place[1], "mm")];
  const measured = averaged(readings);
  const at = measured.find((one) => one[0] === x && one[1] === z);
  if (at) return at[2];
  const corners = hull([...measured].sort((one, other) => one[0] - other[0] || one[1] - other[1]));
  const nearest = nearestOn(corners, [x, z]);
  const off = Math.sqrt(squared(nearest, [x, z]));
  if (off > REACH_MM) {
    const reason = `The surface at x ${figure(x)}, z ${figure(z)} mm lies ${off.toFixed(0)} mm beside what was measured.`;
    throw new Refusal("out-of-range", reason, "Measure it there, and enter it among the surface readings of the face.", { field: "surface", value: off });
  }
  if (corners.length < 3) return onTheLine(measured, corners[0], nearest);
  const [[one, other, third], [first, second, last]] = triangleAt(measured, corners, nearest);
  return first * one[2] + second * other[2] + last * third[2];
}

function averaged(readings) {
  const prouds = new Map();
  for (const row of readings) {
    const [x, z, out] = row.map((number) => finite("readings_mm", number, "mm"));
    const key = `${x} ${z}`;
    prouds.set(key, { x, z, those: [...(prouds.get(key)?.those ?? []), out] });
  }
  return [...prouds.values()].map(({ x, z, those }) => [x, z, those.reduce((sum, out) => sum + out, 0) / those.length]);
}

/** Between readings on one line, or at the one there is. */
function onTheLine(measured, end, place) {
  const along = measured.map((one) => [Math.sqrt(squared(end, one)), one[2]]).sort((one, other) => one[0] - other[0] || one[1] - other[1]);
  const wanted = Math.sqrt(squared(end, place));
  for (const [at, [before, low]] of along.slice(0, -1).entries()) {
    const [after, high] = along[at + 1];
    if (before <= wanted && wanted <= after && after > before) return low + ((high - low) * (wanted - before)) / (after - before);
  }
  return along[along.length - 1][1];
}

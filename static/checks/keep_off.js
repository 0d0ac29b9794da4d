/**
 * Whether what touches a face stays off the parts of it where that is forbidden. Mirrors fieldbook/checks/keep_off.py.
 * The outlines, margins and depths are those agreed with the keeper.
 */

import { finite, roundedDown, within } from "./limits.js";
import { apart, contains, fault, liesIn, shared, toEdge } from "./polygon.js";
import { Refusal, figure } from "./refusal.js";
import { verdict, wordFor } from "./verdict.js";

export const KEEP_OFF_SOURCE = "plane geometry: distance of the footprint's edge to the zone's edge";
export const CLOSE_MM = 5; // what setting out on uneven old walls can be trusted to; common practice, no source
const WIDEST_MM = 100_000;

/**
 * An outline that can be used.
 * @param {import("./polygon.js").Point[]} outline  in order, mm
 * @returns {import("./polygon.js").Point[]}
 * @throws {Refusal} unsuitable-shape, out-of-range
 */
export function usable(outline) {
  outline.forEach((corner) => corner.forEach((value) => finite("zone_mm", value, "mm")));
  const about = { field: "zone_mm", value: outline };
  if (outline.length < 3) {
    throw new Refusal("unsuitable-shape", `The outline has ${outline.length} corners.`, "Give at least three.", about);
  }
  const wrong = fault(outline);
  if (wrong) {
    const remedy = "Give the corners in order, one way round.";
    throw new Refusal("unsuitable-shape", `The outline cannot be used: ${wrong}.`, remedy, about);
  }
  return outline;
}

/**
 * Distance from the edge of a disc to the edge of a zone.
 * @param {import("./polygon.js").Point[]} outline  corners of the zone, mm
 * @param {import("./polygon.js").Point} point  the disc's middle, mm
 * @param {number} radius  mm, 0 to 100 000
 * @returns {number} mm; negative when they overlap
 * @throws {Refusal} out-of-range, unsuitable-shape
 */
export function discDistance(outline, point, radius) {
  within("radius_mm", radius, 0, WIDEST_MM, "mm");
  point.forEach((value) => finite("point_mm", value, "mm"));
  const { distance } = toEdge(usable(outline), point);
  return (contains(outline, point) ? -distance : distance) - radius;
}

/**
 * Distance between the edges of two outlines; when they overlap, less the overlap's lesser extent.
 * @returns {number} mm
 * @throws {Refusal} unsuitable-shape
 */
export function areaDistance(outline, footprint) {
  const overlap = shared(usable(outline), usable(footprint));
  return overlap ? 0 - Math.min(overlap.width, overlap.height) : apart(outline, footprint);
}

/**
 * Whether all of a footprint lies in an area, its edge counted.
 * @returns {boolean}
 * @throws {Refusal} unsuitable-shape
 */
export function holdsAllOf(outline, footprint) {
  return liesIn(usable(footprint), usable(outline));
}

/**
 * Whether a footprint at this distance from a zone keeps its margin.
 * @param {string} zone  how it is called in a sentence
 * @param {number} distance  mm, edge to edge, negative inside
 * @param {number} margin  mm
 * @param {number|null} penetration  mm the fixing goes into the fabric
 * @param {number|null} safeDepth  mm that is harmless there: inside the zone, a fixing that stays shallower by the
 *   margin may stand
 * @returns {import("./verdict.js").Verdict}
 * @throws {Refusal} out-of-range
 */
export function keepOffVerdict(zone, distance, margin, penetration = null, safeDepth = null) {
  finite("distance_mm", distance, "mm");
  within("margin_mm", margin, 0, WIDEST_MM, "mm");
  if (safeDepth !== null && penetration !== null && distance < margin) {
    return depthVerdict(zone, margin, penetration, safeDepth);
  }
  const told = roundedDown(distance);
  const left = roundedDown(told - margin);
  const word = distance < margin ? "over" : wordFor(left, CLOSE_MM);
  const where = told >= 0 ? `${figure(told)} mm from ${zone}` : `${figure(-told)} mm inside ${zone}`;
  const sentence = `Its edge lies ${where}; ${figure(margin)} mm must be kept: ${leftOver(left)}.`;
  return verdict("keep-off", word, [told, margin, left], sentence, KEEP_OFF_SOURCE, [
    ["edge to edge", `${figure(told)} mm`],
    ["margin to keep", `${figure(margin)} mm`],
    ["left", `${figure(left)} mm`],
  ]);
}

function depthVerdict(zone, margin, penetration, safeDepth) {
  within("penetration_mm", penetration, 0, WIDEST_MM, "mm");
  const limit = roundedDown(within("safe_depth_mm", safeDepth, 0, WIDEST_MM, "mm") - margin);
  const left = roundedDown(limit - penetration);
  const sentence =
    `It goes ${figure(penetration)} mm deep in ${zone}, where ${figure(safeDepth)} mm less a margin of ` +
    `${figure(margin)} mm may be penetrated: ${leftOver(left)}.`;
  return verdict("keep-off", wordFor(left, CLOSE_MM), [penetration, limit, left], sentence, KEEP_OFF_SOURCE, [
    ["depth into the wall", `${figure(penetration)} mm`],
    ["greatest depth into the wall", `${figure(safeDepth)} mm`],
    ["margin to keep", `${figure(margin)} mm`],
    ["left", `${figure(left)} mm`],
  ]);
}

function leftOver(left) {
  return left >= 0 ? `${figure(left)} mm are left` : `${figure(-left)} mm too near`;
}

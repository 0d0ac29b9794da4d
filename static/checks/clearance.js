/**
 * How far something may stand out from a face: the clear depth left by what must stay free.
 * Mirrors fieldbook/checks/clearance.py. What a route's width or headroom must be is entered, not assumed.
 */

import { asEntered, roundedDown, roundedUp, within } from "./limits.js";
import { figure } from "./refusal.js";
import { FARTHEST_MM, depthRange } from "./sweep.js";
import { notKnown, verdict, wordFor } from "./verdict.js";

export const CLEARANCE_SOURCE = "plane geometry of the leaf's swing; widths and heights as agreed for this building";
const CLOSE_MM = 5; // what setting out on uneven old walls can be trusted to; common practice, no source
const WIDEST_MARGIN_MM = 5_000;

/**
 * A rectangle of a face, mm: x from left to right, z from low to high. Left out: without end.
 * @typedef {{xFrom: number, xTo: number, zFrom: number, zTo: number}} Stretch
 */

/** @returns {Stretch} */
export function stretch(xFrom = -Infinity, xTo = Infinity, zFrom = -Infinity, zTo = Infinity) {
  return { xFrom, xTo, zFrom, zTo };
}

/**
 * @param {Stretch} part
 * @param {number} margin  mm, all round
 * @returns {Stretch}
 */
export function widened(part, margin) {
  return stretch(part.xFrom - margin, part.xTo + margin, part.zFrom - margin, part.zTo + margin);
}

/** Whether two stretches share a point. */
export function meets(one, other) {
  return one.xFrom <= other.xTo && other.xFrom <= one.xTo && one.zFrom <= other.zTo && other.zFrom <= one.zTo;
}

/**
 * What must stay free in front of one band of a face.
 * @typedef {object} Limit
 * @property {string} [id]  what it stands for in the book
 * @property {string} name  how a sentence calls it
 * @property {Stretch} band  where it holds
 * @property {number} margin  mm, kept free beside what is stated
 * @property {ReturnType<typeof import("./sweep.js").leaf>|null} leaf  for a leaf that swings
 * @property {number|null} projection  mm that may stand out in the band, before the margin; of a leaf: hang down over it
 * @property {number[][]} below  for headroom: (x, z) of the height below which it holds, sorted
 */

/**
 * Depth left free between face and sweep over a stretch, less the margin.
 * @returns {number|null} mm; null where the sweep never comes in front of the face; negative where it would strike it
 * @throws {Refusal} out-of-range
 */
export function leafClearDepth(leaf, xFrom, xTo, margin = 0) {
  within("x_mm", xFrom, -FARTHEST_MM, FARTHEST_MM, "mm");
  within("x_mm", xTo, xFrom, FARTHEST_MM, "mm");
  within("margin_mm", margin, 0, WIDEST_MARGIN_MM, "mm");
  const reached = depthRange(leaf, xFrom, xTo);
  if (reached === null || reached[1] <= 0) return null;
  return Number((reached[0] - margin).toFixed(6)); // a wall turned by a right angle is not a hair's breadth nearer for it
}

/**
 * The least clear depth over a stretch, and what sets it. A leaf's margin is kept on all sides.
 * @param {Limit[]} limits
 * @param {Stretch} part
 * @returns {{depth: number|null, limitedBy: Limit|null}} mm; null: nothing limits it
 * @throws {Refusal} what the limits refuse
 */
export function clearDepth(limits, part) {
  let least = { depth: null, limitedBy: null };
  for (const limit of limits) {
    const depth = depthUnder(limit, part);
    if (depth !== null && (least.depth === null || depth < least.depth)) least = { depth, limitedBy: limit };
  }
  return least;
}

function depthUnder({ leaf, band, margin, projection, below }, part) {
  if (leaf) {
    const around = widened(part, margin);
    if (!meets(around, band)) return null;
    if (projection !== null) return swingsBelow({ leaf, margin }, part) ? projection - margin : null;
    return leafClearDepth(leaf, Math.max(around.xFrom, -FARTHEST_MM), Math.min(around.xTo, FARTHEST_MM), margin);
  }
  if (projection === null || !meets(part, band)) return null;
  if (below.length) {
    // headroom: the margin is one of height
    const height = highest(below, Math.max(part.xFrom, band.xFrom), Math.min(part.xTo, band.xTo));
    return part.zFrom < height + margin ? projection : null;
  }
  return projection - margin;
}

/** Whether a leaf that is told in the plane of a ceiling swings below a stretch of it, with its margin. */
export function swingsBelow({ leaf, margin }, part) {
  const around = widened(part, margin);
  const reached = depthRange(leaf, Math.max(around.xFrom, -FARTHEST_MM), Math.min(around.xTo, FARTHEST_MM));
  return reached !== null && reached[0] <= around.zTo && around.zFrom <= reached[1];
}

/**
 * Greatest z of a profile of (x, z) points over a stretch; level beyond its ends.
 * @returns {number} mm
 */
export function highest(profile, xFrom, xTo) {
  const inside = profile.filter(([x]) => xFrom <= x && x <= xTo).map(([, z]) => z);
  return Math.max(...inside, heightAt(profile, xFrom), heightAt(profile, xTo));
}

/**
 * z of a profile of sorted (x, z) points at x, by linear interpolation; level beyond its ends, at a step that on the left.
 * @returns {number} mm
 */
export function heightAt(profile, x) {
  if (x <= profile[0][0]) return profile[0][1];
  for (let at = 1; at < profile.length; at += 1) {
    const [[x0, z0], [x1, z1]] = [profile[at - 1], profile[at]];
    if (x <= x1) return z0 + ((z1 - z0) * (x - x0)) / (x1 - x0);
  }
  return profile.at(-1)[1];
}

/**
 * Whether something of this projection may stand on a stretch of face.
 * @param {number|null} projection  mm
 * @param {Limit[]} limits
 * @param {Stretch} part
 * @returns {import("./verdict.js").Verdict}
 * @throws {Refusal} what the limits refuse
 */
export function projectionVerdict(projection, limits, part) {
  if (projection === null) {
    return notKnown("clearance", ["projection"], "How far it stands out is not entered.", CLEARANCE_SOURCE);
  }
  return held(projection, clearDepth(limits, part));
}

/** A clear depth (mm, as shown) in words; below zero is what the place lacks even with nothing on it. */
export function clearInWords(depth, name) {
  if (depth > 0) return `${figure(depth)} mm are clear in front of ${name}`;
  return `nothing may stand out in front of ${name}${depth < 0 ? `, where ${figure(-depth)} mm are missing already` : ""}`;
}

/**
 * The verdict on something of this projection where this depth is clear. The word goes by the figures themselves; they
 * are shown rounded towards safety.
 * @param {number} projection  mm
 * @param {{depth: number|null, limitedBy: Limit|null}} clear
 * @returns {import("./verdict.js").Verdict}
 */
export function held(projection, { depth, limitedBy }) {
  const out = roundedUp(projection);
  if (depth === null || limitedBy === null) {
    const sentence = `It stands out ${figure(out)} mm; nothing limits the depth here.`;
    return verdict("clearance", "within", [out, null, null], sentence, CLEARANCE_SOURCE);
  }
  const exact = Number((depth - projection).toFixed(9));
  const [limit, margin] = [asEntered(depth), roundedDown(exact)];
  const left = margin >= 0 ? `${figure(margin)} mm are left` : `${figure(-margin)} mm too much`;
  const sentence = `It stands out ${figure(out)} mm; ${clearInWords(limit, limitedBy.name)}: ${left}.`;
  /** @type {[string, string][]} */
  const working = [
    ["projection", `${figure(out)} mm`],
    [`clear depth, set by ${limitedBy.name}`, `${figure(limit)} mm`],
    ["left", `${figure(margin)} mm`],
  ];
  return verdict("clearance", wordFor(exact, CLOSE_MM), [out, limit, margin], sentence, CLEARANCE_SOURCE, working);
}

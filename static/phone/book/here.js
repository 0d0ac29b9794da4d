/** What may be done at a point of a face, how deep something may stand there, and where the nearest place is that will do. */

import { clearDepth, stretch, widened } from "../../checks/clearance.js";
import { KEEP_OFF_SOURCE, discDistance, keepOffVerdict } from "../../checks/keep_off.js";
import { roundedDown } from "../../checks/limits.js";
import { Refusal, figure } from "../../checks/refusal.js";
import { WORDS, notKnownBecause, verdict } from "../../checks/verdict.js";
import { faceStretch, limitsOf } from "./places.js";
import { calledOf } from "./site.js";

const FREE = "No zone on this face forbids it here. That is no consent: ask the keeper.";
const RING_STEP_MM = 5;
const RINGS = 400; // as far as 2 m
const BEARINGS = 48;

/**
 * What zones and limits say about a round footprint at a point.
 * @param {import("./registry.js").Registry} registry
 * @param {import("./site.js").Site} site
 * @param {import("./site.js").Item} face
 * @param {[number, number]} point  x and z, mm
 * @param {number} radius  mm
 * @returns {{acts: {act: string, verdict: import("../../checks/verdict.js").Verdict, zone: import("./site.js").Item|null}[], clear: number|null, limitedBy: import("../../checks/clearance.js").Limit|null, refusal: Refusal|null}}
 * @throws {Refusal} outside-the-face
 */
export function answer(registry, site, face, point, radius = 0) {
  const off = offTheFace(face, point);
  if (off) throw off;
  const zones = site.of(face, "zone");
  const acts = registry.forbidden.map((act) => ({ act, ...actAt(registry, zones, act, point, radius) }));
  return { acts, ...depthAt(site, face, point, radius) };
}

/** The refusal of a point beyond the edges of a face; null when it is on it. */
export function offTheFace(face, /** @type {number[]} */ [x, z]) {
  const part = faceStretch(face);
  /** @type {[string, number, number, number][]} */
  const axes = [["x_mm", x, part.xFrom, part.xTo], ["z_mm", z, part.zFrom, part.zTo]];
  for (const [name, value, low, high] of axes) {
    if (low <= value && value <= high) continue;
    const reason = `${name[0]} is ${figure(value)} mm; the face reaches from ${figure(low)} to ${figure(high)} mm.`;
    return new Refusal("outside-the-face", reason, "Choose a point on it.", { field: name, value });
  }
  return null;
}

function actAt(registry, zones, act, point, radius) {
  const held = zones
    .filter((zone) => zone.values.forbids.includes(act))
    .map((zone) => ({ zone, verdict: heldAgainst(registry, zone, point, radius) }));
  if (!held.length) {
    return { zone: null, verdict: verdict("keep-off", "within", [null, null, null], FREE, KEEP_OFF_SOURCE) };
  }
  const rank = ({ verdict: { word, margin } }) => WORDS.indexOf(word) * 1e12 + (margin ?? 0);
  return held.reduce((worst, one) => (rank(one) < rank(worst) ? one : worst));
}

function heldAgainst(registry, zone, point, radius) {
  try {
    const distance = discDistance(zone.values.outline, point, radius);
    return keepOffVerdict(calledOf(registry, zone), distance, zone.values.margin_mm);
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    return notKnownBecause("keep-off", error, KEEP_OFF_SOURCE);
  }
}

function depthAt(site, face, [x, z], radius) {
  try {
    const { depth, limitedBy } = clearDepth(limitsOf(site, face), widened(stretch(x, x, z, z), radius));
    return { clear: depth === null ? null : roundedDown(depth), limitedBy, refusal: null };
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    return { clear: null, limitedBy: null, refusal: error };
  }
}

/**
 * The nearest point of the face where no zone forbids an act any more, for the same footprint; null within 2 m.
 * Looked for on rings 5 mm apart, so it is never nearer to a zone than it may be, but up to 5 mm farther off than needed.
 * @returns {{point: number[], distance: number}|null} mm
 */
export function nearestAllowed(registry, site, face, act, point, radius = 0) {
  const zones = site.of(face, "zone").filter((zone) => zone.values.forbids.includes(act));
  const allowed = (at) => !offTheFace(face, at) && !["over", "not known"].includes(actAt(registry, zones, act, at, radius).verdict.word);
  for (let ring = 1; ring <= RINGS; ring += 1) {
    for (let bearing = 0; bearing < BEARINGS; bearing += 1) {
      const angle = (2 * Math.PI * bearing) / BEARINGS;
      const distance = ring * RING_STEP_MM;
      const at = [Math.round(point[0] + distance * Math.cos(angle)), Math.round(point[1] + distance * Math.sin(angle))];
      if (allowed(at)) return { point: at, distance: Math.hypot(at[0] - point[0], at[1] - point[1]) };
    }
  }
  return null;
}

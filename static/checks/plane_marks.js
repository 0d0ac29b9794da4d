/** Marks of a face in a photograph: which of them are refused. Mirrors fieldbook/checks/plane_marks.py. */

import { finite, within } from "./limits.js";
import { Refusal, figure } from "./refusal.js";

const [LEAST, MOST] = [4, 40];
const OFF_LINE = 0.03; // of the whole extent: common practice, no source

/**
 * @typedef {[number, number, number, number, number?]} Pair  across, down px; x, z mm; standard error of these, mm
 */

/**
 * Refuse marks that fix no plane.
 * @param {Pair[]} marks
 * @param {number} markPx  standard error of a mark in the picture, px
 * @throws {Refusal} missing, out-of-range, not-a-number, unsuitable-shape
 */
export function refuseUnsuitable(marks, markPx) {
  if (marks.length < LEAST) {
    const reason = `There are ${marks.length} marks; a face is found from four at least.`;
    throw new Refusal("missing", reason, "Mark more points whose places on the face are known.", { field: "marks" });
  }
  if (marks.length > MOST) {
    const reason = `There are ${marks.length} marks; at most ${MOST} are taken.`;
    throw new Refusal("out-of-range", reason, "Keep those that are known best and lie farthest apart.", { field: "marks", value: marks.length });
  }
  for (const mark of marks) {
    ["across_px", "down_px", "x_mm", "z_mm"].forEach((name, at) => finite(name, mark[at], name.slice(-2)));
    within("off_mm", mark[4] ?? 0, 0, 1000, "mm");
  }
  const picture = marks.map(([across, down]) => [across, down]);
  const face = marks.map(([, , x, z]) => [x, z]);
  refuseTwice(picture, Math.max(1, 2 * markPx), "in the photograph", "px");
  refuseTwice(face, 1, "on the face", "mm");
  const near = [Math.max(OFF_LINE * extent(picture), 3 * markPx), OFF_LINE * extent(face)];
  refuseLine(picture, near[0], "in the photograph");
  refuseLine(face, near[1], "on the face");
  refuseOrder(picture, face, near);
}

const apart = ([a, b], [c, d]) => Math.hypot(a - c, b - d);
const turn = (one, other, third) => (other[0] - one[0]) * (third[1] - one[1]) - (third[0] - one[0]) * (other[1] - one[1]);
const height = (one, other, third) => Math.abs(turn(one, other, third)) / apart(one, other);

function unsuitable(reason, remedy, value = null) {
  return new Refusal("unsuitable-shape", reason, remedy, { field: "marks", value });
}

function* pairsOf(points) {
  for (let one = 0; one < points.length; one += 1) {
    for (let other = one + 1; other < points.length; other += 1) yield [one, other];
  }
}

function refuseTwice(points, least, where, unit) {
  for (const [one, other] of pairsOf(points)) {
    const between = apart(points[one], points[other]);
    if (between >= least) continue;
    const reason = `Marks ${one + 1} and ${other + 1} are the same point ${where}: ${figure(Number(between.toFixed(1)))} ${unit} apart.`;
    throw unsuitable(reason, "Take one of them out, or correct it.", between);
  }
}

function extent(points) {
  return Math.max(...[...pairsOf(points)].map(([one, other]) => apart(points[one], points[other])));
}

/** All marks, or all but one, near one line leave the face free to turn about it. */
function refuseLine(points, tolerance, where) {
  for (const [one, other] of pairsOf(points)) {
    const off = points.filter((third) => height(points[one], points[other], third) > tolerance);
    if (off.length > 1) continue;
    const which = off.length ? "All marks but one" : "All marks";
    throw unsuitable(`${which} lie nearly on one line ${where}.`, "Mark points that spread over the face both ways: the corners of something wide and high.");
  }
}

/** A camera in front of a face keeps which way round its points lie. */
function refuseOrder(picture, face, near) {
  const ways = new Set();
  for (const [one, other] of pairsOf(picture)) {
    for (let third = other + 1; third < picture.length; third += 1) {
      const [seen, known] = [picture, face].map((points) => [points[one], points[other], points[third]]);
      if (flat(seen, near[0]) || flat(known, near[1])) continue;
      ways.add(turn(seen[0], seen[1], seen[2]) > 0 === turn(known[0], known[1], known[2]) > 0); // z runs up, and the picture's y down
    }
  }
  if (!ways.has(true)) return;
  if (ways.size === 1) {
    throw unsuitable("The marks go the other way round in the photograph than on the face.", "Look whether left and right were exchanged, or the photograph is mirrored.");
  }
  throw unsuitable(
    "The marks are given in crossing order: they do not go round alike in the photograph and on the face.",
    "Look whether two of them were given each other’s places.",
  );
}

/** @param {number[][]} corners @param {number} tolerance */
function flat([one, other, third], tolerance) {
  return Math.min(height(one, other, third), height(one, third, other), height(other, third, one)) <= tolerance;
}

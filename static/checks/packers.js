/**
 * Packers behind each fixing, so that flat work stands plumb or flat on a wall that is neither.
 * Mirrors fieldbook/checks/packers.py: the work's back is a plane that touches or clears every point measured, least
 * in the sum of packers and, among such, in the thickest. It does not cover high spots between the points.
 */

import { box } from "./box.js";
import { within } from "./limits.js";
import { ceiling, common, compare, minus, plus, ratio, size, toNumber, written } from "./ratio.js";
import { Refusal } from "./refusal.js";
import { gaps } from "./support.js";

export const PACKERS_SOURCE = "Plane of least total gap in front of the measured points, by linear programming in whole numbers";
export const PLANES = ["plumb", "free"];
const POINTS_HIGH = 2000;
const PLACE_HIGH_MM = 100_000;
const PACKER_HIGH_MM = 500;

/**
 * How thick the packer behind each point has to be.
 * @param {number[][]} points  (x, z, proud) of each, mm
 * @param {string} plane  "plumb": upright, but may turn as seen from above; "free": may lean as well
 * @param {number} least  thinnest packer wanted anywhere, mm
 * @returns {number[]} mm, none below least and at least one equal to it
 * @throws {Refusal} out-of-range, not-a-choice
 */
export function packers(points, plane, least = 0) {
  return exact(points, plane, written(acceptLeast(least))).map(toNumber);
}

/**
 * The packers made of pieces from the box, and how far they leave the work off the plane.
 * @param {number[][]} points
 * @param {string} plane
 * @param {number[]} stock  thicknesses in the box, mm; each may be used again and again
 * @param {number} least
 * @returns {{stacks: number[][], off: number}} pieces behind each point, mm, thickest first; the largest difference
 * @throws {Refusal} out-of-range, not-a-choice
 */
export function fromBox(points, plane, stock, least = 0) {
  const atLeast = written(acceptLeast(least));
  const floor = box(stock, atLeast).thinnest(atLeast);
  const wanted = exact(points, plane, floor);
  const thickest = wanted.reduce((one, other) => (compare(one, other) < 0 ? other : one));
  within("packers_mm", toNumber(thickest), 0, PACKER_HIGH_MM, "mm");
  const pieces = box(stock, ratio(ceiling(thickest)));
  const stacks = wanted.map((packer) => pieces.nearest(packer, floor));
  const off = stacks.map((stack, at) => size(minus(stack.reduce(plus, ratio(0n)), wanted[at])));
  return { stacks: stacks.map((stack) => stack.map(toNumber)), off: Math.max(...off.map(toNumber)) };
}

function acceptLeast(least) {
  return within("least_mm", least, 0, PACKER_HIGH_MM, "mm");
}

function exact(points, plane, least) {
  if (!PLANES.includes(plane)) {
    const remedy = `Choose one of: ${PLANES.join(", ")}.`;
    throw new Refusal("not-a-choice", `plane is ${plane}.`, remedy, { field: "plane", value: plane });
  }
  within("points_mm", points.length, 1, POINTS_HIGH, "points");
  const numbers = points.map((point, place) =>
    point.map((number) => written(within(`points_mm[${place}]`, number, -PLACE_HIGH_MM, PLACE_HIGH_MM, "mm"))),
  );
  const scale = numbers.flat().reduce((lcm, { under }) => (lcm / common(lcm, under)) * under, 1n);
  const steps = numbers.map((point) => point.map(({ over, under }) => (over * scale) / under));
  const places = steps.map(([x, z]) => (plane === "plumb" ? [1n, x] : [1n, x, z]));
  const found = gaps(places, steps.map(([, , proud]) => proud));
  return found.map((gap) => plus(ratio(gap.over, gap.under * scale), least));
}

/**
 * What a hinged leaf passes through as it swings, reckoned exactly. Mirrors fieldbook/checks/sweep.py.
 *
 * The boundary of what a box sweeps is made of its edges at both ends of the swing, of the arcs its corners draw,
 * and of the arcs on which an edge touches a circle round the hinge; nothing is sampled.
 * Source: plane kinematics.
 */

import { within } from "./limits.js";
import { Refusal, figure } from "./refusal.js";

export const FARTHEST_MM = 100_000;
const WIDEST_SWING_DEG = 360;
const TURN = 2 * Math.PI;
const UPWARDS = Math.PI / 2;

/**
 * A leaf in plan axes of a face: x along it, y out of it.
 * @param {number[]} hinge  mm
 * @param {number} from  degrees, anticlockwise from +x towards +y
 * @param {number} to  degrees; the two may come in either order
 * @param {number[][]} boxes  [u0, u1, v0, v1] each, mm: u along the leaf from the hinge, v at 90° anticlockwise from u
 * @returns {{hinge: number[], from: number, to: number, boxes: number[][], curves: Function[]}}
 * @throws {Refusal} figures that make no leaf
 */
export function leaf(hinge, from, to, boxes) {
  hinge.forEach((value, place) => within(`hinge_mm[${place}]`, value, -FARTHEST_MM, FARTHEST_MM, "mm"));
  within("from_deg", from, -720, 720, "°");
  within("to_deg", to, -720, 720, "°");
  const swing = Math.abs(to - from);
  if (swing > WIDEST_SWING_DEG) {
    const reason = `The leaf swings ${figure(swing)}°, more than once round.`;
    const remedy = "Give the angles between which it really swings.";
    throw new Refusal("out-of-range", reason, remedy, { field: "to_deg", value: to });
  }
  if (!boxes.length) {
    const remedy = "Give at least the leaf's own: u0 u1 v0 v1.";
    throw new Refusal("unsuitable-shape", "The leaf has no boxes.", remedy, { field: "boxes_mm" });
  }
  boxes.forEach(acceptBox);
  const made = { hinge, from: Math.min(from, to), to: Math.max(from, to), boxes };
  return { ...made, curves: boxes.flatMap((box) => curvesOf(made, box)) };
}

function acceptBox(box) {
  box.forEach((value) => within("boxes_mm", value, -FARTHEST_MM, FARTHEST_MM, "mm"));
  if (box[0] < box[1] && box[2] < box[3]) return;
  const remedy = "Give u0 u1 v0 v1 with u0 < u1 and v0 < v1.";
  throw new Refusal("unsuitable-shape", `The box ${box.join(" ")} has no area.`, remedy, { field: "boxes_mm", value: box });
}

/**
 * Least and greatest y the sweep reaches over a stretch of x.
 * @param {ReturnType<typeof leaf>} swung
 * @param {number} xFrom  mm
 * @param {number} xTo  mm
 * @returns {[number, number]|null} mm; null when it never gets there
 */
export function depthRange(swung, xFrom, xTo) {
  let [low, high] = [Infinity, -Infinity];
  for (const curve of swung.curves) {
    for (const y of curve(xFrom, xTo)) [low, high] = [Math.min(low, y), Math.max(high, y)];
  }
  return low === Infinity ? null : [low, high];
}

/**
 * The leaf's boxes at one place of its swing, for drawing.
 * @param {ReturnType<typeof leaf>} swung
 * @param {number} share  0 at one end of the swing, 1 at the other
 * @returns {number[][][]} corners of each box, mm
 */
export function boxesAt(swung, share) {
  const angle = radians(swung.from + (swung.to - swung.from) * share);
  return swung.boxes.map((box) => corners(box).map((corner) => turned(swung.hinge, corner, angle)));
}

function curvesOf({ hinge, from, to }, box) {
  const [low, high] = [radians(from), radians(to)];
  const edges = [low, high].flatMap((angle) => {
    const ring = corners(box).map((corner) => turned(hinge, corner, angle));
    return ring.map((start, at) => edge(start, ring[(at + 1) % 4]));
  });
  const arcs = [...corners(box), ...nearestOnEdges(box)].map(([u, v]) =>
    arc(hinge, Math.hypot(u, v), Math.atan2(v, u) + low, high - low),
  );
  return [...edges, ...arcs];
}

/** A straight piece of the boundary: the heights it has over a stretch. */
function edge(one, other) {
  const [[x0, y0], [x1, y1]] = one[0] <= other[0] ? [one, other] : [other, one];
  return (xFrom, xTo) => {
    if (x1 < xFrom || x0 > xTo) return [];
    if (x0 === x1) return [y0, y1];
    return [Math.max(x0, xFrom), Math.min(x1, xTo)].map((x) => y0 + ((y1 - y0) * (x - x0)) / (x1 - x0));
  };
}

/**
 * A piece of a circle round the hinge, anticlockwise from `start` through `turn`: the heights it has over a stretch.
 * Its two ends lie on edges, which are looked at as well; so only what is between them counts here.
 */
function arc([centreX, centreY], radius, start, turn) {
  return (xFrom, xTo) => {
    const angles = xFrom < centreX && centreX < xTo ? [-UPWARDS, UPWARDS] : [];
    for (const x of [xFrom, xTo]) {
      if (!radius || Math.abs(x - centreX) > radius) continue;
      const half = Math.acos((x - centreX) / radius);
      angles.push(half, -half);
    }
    return angles.filter((angle) => modulo(angle - start, TURN) <= turn).map((angle) => centreY + radius * Math.sin(angle));
  };
}

/** @param {number[]} box */
function corners([u0, u1, v0, v1]) {
  return [[u0, v0], [u1, v0], [u1, v1], [u0, v1]];
}

/**
 * The points where an edge comes nearest to the hinge, other than at a corner.
 * @param {number[]} box
 */
function nearestOnEdges([u0, u1, v0, v1]) {
  const along = u0 < 0 && u1 > 0 ? [[0, v0], [0, v1]] : [];
  const across = v0 < 0 && v1 > 0 ? [[u0, 0], [u1, 0]] : [];
  return [...along, ...across];
}

/** @param {number[]} hinge @param {number[]} point @param {number} angle */
function turned([hingeX, hingeY], [u, v], angle) {
  const [cosine, sine] = [Math.cos(angle), Math.sin(angle)];
  return [hingeX + u * cosine - v * sine, hingeY + u * sine + v * cosine];
}

function radians(degrees) {
  return (degrees * Math.PI) / 180;
}

function modulo(value, size) {
  return ((value % size) + size) % size;
}

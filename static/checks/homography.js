/** The homography from a plane to its picture. Mirrors fieldbook/checks/homography.py. */

import { leastSquares } from "./linear.js";

const [ROUNDS, SETTLED] = [25, 1e-10];

/** @typedef {{middle: number[], scale: number}} Frame  points moved to their middle and scaled to about one */
/** @typedef {{place: number[], point: number[]}} Pair  on the plane and in the picture, each in its frame */

/** @param {number[][]} points @returns {Frame} */
export function frameOf(points) {
  const middle = [0, 1].map((k) => points.reduce((sum, point) => sum + point[k], 0) / points.length);
  const mean = points.reduce((sum, [x, y]) => sum + Math.hypot(x - middle[0], y - middle[1]), 0) / points.length;
  return { middle, scale: Math.SQRT2 / mean };
}

/** @type {(of: Frame, point: number[]) => number[]} */
export const into = ({ middle, scale }, [x, y]) => [(x - middle[0]) * scale, (y - middle[1]) * scale];
/** @type {(of: Frame, point: number[]) => number[]} */
export const back = ({ middle, scale }, [x, y]) => [x / scale + middle[0], y / scale + middle[1]];
/** @type {(h: number[], place: number[]) => number}  how far in front of the camera a place lies, beside the middle */
export const depth = (h, [x, z]) => h[6] * x + h[7] * z + 1;

/** By linear equations, which is near enough to start from. @param {Pair[]} known @returns {number[]} eight elements; the ninth is 1 */
export function linear(known) {
  const rows = known.flatMap(({ place: [x, z], point: [u, v] }) => [[x, z, 1, 0, 0, 0, -u * x, -u * z], [0, 0, 0, x, z, 1, -v * x, -v * z]]);
  return leastSquares(rows, known.flatMap(({ point }) => point)).found;
}

/**
 * The homography that the errors of the pairs make likeliest, and the squares by which they miss it.
 * @param {number[]} first  one that is near it
 * @param {Pair[]} known
 * @param {number[][]} errors  of each pair: of its point and of its place, each in its frame
 */
export function refined(first, known, errors) {
  let [h, covariance, right] = [first, null, []];
  for (let round = 0; round < ROUNDS; round += 1) {
    const rows = [];
    right = [];
    known.forEach(({ place, point }, at) => {
      const [u, v] = seen(h, place);
      const [one, other] = byElements(h, place);
      const columns = [...one.map((entry, k) => [entry, other[k]]), [point[0] - u, point[1] - v]];
      for (const row of whitened(columns, byPlace(h, place), errors[at])) {
        rows.push(row.slice(0, -1));
        right.push(row.at(-1));
      }
    });
    const step = leastSquares(rows, right);
    covariance = step.covariance;
    h = h.map((entry, at) => entry + step.found[at]);
    if (Math.max(...step.found.map(Math.abs)) < SETTLED) break;
  }
  return { h, covariance, missed: right.reduce((sum, one) => sum + one ** 2, 0) };
}

/**
 * Two equations of a mark, across and down, divided by its standard error, which the face's own may turn aside.
 * @param {number[][]} columns @param {number[][]} byPlace @param {number[]} errors
 */
function whitened(columns, [[a, b], [c, d]], [mark, off]) {
  const first = Math.sqrt(mark ** 2 + off ** 2 * (a * a + b * b));
  const share = (off ** 2 * (a * c + b * d)) / first;
  const second = Math.sqrt(mark ** 2 + off ** 2 * (c * c + d * d) - share ** 2);
  const one = columns.map(([across]) => across / first);
  return [one, columns.map(([, down], at) => (down - share * one[at]) / second)];
}

/** The point of the picture that shows a place. @param {number[]} h @param {number[]} place */
export function seen(h, place) {
  const [[x, z], deep] = [place, depth(h, place)];
  return [(h[0] * x + h[1] * z + h[2]) / deep, (h[3] * x + h[4] * z + h[5]) / deep];
}

/** The place that a point of the picture shows; null for one exactly at the horizon. @param {number[]} h @param {number[]} point */
export function placeOf(h, [u, v]) {
  const [p, q, r, s] = [h[0] - u * h[6], h[1] - u * h[7], h[3] - v * h[6], h[4] - v * h[7]];
  const turn = p * s - q * r;
  return turn ? [(s * (u - h[2]) - q * (v - h[5])) / turn, (p * (v - h[5]) - r * (u - h[2])) / turn] : null;
}

/** How a point of the picture moves with its place. @param {number[]} h @param {number[]} place */
export function byPlace(h, place) {
  const [[u, v], deep] = [seen(h, place), depth(h, place)];
  return [[(h[0] - u * h[6]) / deep, (h[1] - u * h[7]) / deep], [(h[3] - v * h[6]) / deep, (h[4] - v * h[7]) / deep]];
}

/** How a point of the picture moves with the eight elements. @param {number[]} h @param {number[]} place */
export function byElements(h, place) {
  const [[u, v], deep] = [seen(h, place), depth(h, place)];
  const [x, z, one] = [place[0] / deep, place[1] / deep, 1 / deep];
  return [[x, z, one, 0, 0, 0, -u * x, -u * z], [0, 0, 0, x, z, one, -v * x, -v * z]];
}

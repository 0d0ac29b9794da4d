/**
 * The plane a flat thing takes when it rests on the high spots of a surface, in whole numbers.
 * Mirrors fieldbook/checks/support.py. Source: linear programming; simplex method on the dual program with Bland's
 * rule (1977), pivots without fractions after Bareiss (1968).
 */

import { minus, ratio } from "./ratio.js";

/**
 * The gaps under the plane that rests on the points: least in sum, and among such, least in the largest.
 * @param {bigint[][]} places  for each point 1 and the coordinates along which the plane may tilt, in whole steps
 * @param {bigint[]} heights  how far each point stands out, in the same steps
 * @returns {import("./ratio.js").Ratio[]} one gap a point, none below 0
 */
export function gaps(places, heights) {
  const sums = places[0].map((_, at) => places.reduce((sum, place) => sum + place[at], 0n));
  const [lowest, scale] = least(sums, places, heights);
  const rows = [
    ...places.map((place) => [...place, 0n]),
    ...places.map((place) => [...place.map((part) => -part), 1n]),
    [...sums.map((part) => -part * scale), 0n],
  ];
  const bounds = [...heights, ...heights.map((height) => -height), -product(lowest, sums)];
  const [plane, under] = least([...sums.map(() => 0n), 1n], rows, bounds);
  return places.map((place, at) => minus(ratio(product(plane.slice(0, -1), place), under), ratio(heights[at])));
}

/**
 * Numbers of least cost for which every row's product with them is at least its bound.
 * @param {bigint[]} costs
 * @param {bigint[][]} rows
 * @param {bigint[]} bounds
 * @returns {[bigint[], bigint]} the numbers times a scale, and the scale
 */
export function least(costs, rows, bounds) {
  const table = stood(costs, rows.length);
  for (;;) {
    const columns = costs.map((_, at) => table.inverse.map((line) => line[at]));
    const standIn = table.basis.map((row) => BigInt(row >= rows.length));
    const worth = table.basis.map((row) => (row < rows.length ? bounds[row] : 0n));
    const left = columns.map((column) => product(standIn, column));
    const numbers = columns.map((column) => product(worth, column));
    const entering = rows.findIndex((row, at) => {
      const helps = product(left, row);
      return helps > 0n || (helps === 0n && bounds[at] * table.scale > product(numbers, row));
    });
    if (entering < 0) return [numbers, table.scale];
    pivot(table, entering, rows[entering]);
  }
}

/** The basis holds rows; at first only stand-ins, numbered past the rows, which are got rid of before all else. */
function stood(costs, count) {
  return {
    basis: costs.map((_, at) => count + at),
    inverse: costs.map((cost, at) => costs.map((_, column) => (at === column ? (cost >= 0n ? 1n : -1n) : 0n))),
    weights: costs.map((cost) => (cost < 0n ? -cost : cost)),
    scale: 1n,
  };
}

function pivot(table, entering, row) {
  const steps = table.inverse.map((line) => product(line, row));
  const leaving = steps.reduce((best, step, at) => (step > 0n && sooner(table, steps, at, best) ? at : best), -1);
  table.basis[leaving] = entering;
  const [kept, weight] = [table.inverse[leaving], table.weights[leaving]];
  const moved = (part, other, at) => (part * steps[leaving] - other * steps[at]) / table.scale;
  table.inverse = table.inverse.map((line, at) =>
    at === leaving ? line : line.map((part, column) => moved(part, kept[column], at)),
  );
  table.weights = table.weights.map((part, at) => (at === leaving ? part : moved(part, weight, at)));
  table.scale = steps[leaving];
}

/**
 * @param {{weights: bigint[], basis: number[]}} table
 * @param {bigint[]} steps
 * @param {number} one
 * @param {number} other  -1 where there is none yet
 */
function sooner({ weights, basis }, steps, one, other) {
  if (other < 0) return true;
  const difference = weights[one] * steps[other] - weights[other] * steps[one];
  return difference < 0n || (difference === 0n && basis[one] < basis[other]);
}

/**
 * @param {bigint[]} left
 * @param {bigint[]} right
 */
function product(left, right) {
  return left.reduce((sum, part, at) => sum + part * right[at], 0n);
}

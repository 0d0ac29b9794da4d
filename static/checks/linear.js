/** Small systems of linear equations. Mirrors fieldbook/checks/linear.py. */

import { Refusal } from "./refusal.js";

/**
 * The unknowns of a square system, one column for each column on the right.
 * @param {number[][]} matrix  rows of coefficients
 * @param {number[][]} right  rows of what they come to
 * @returns {number[][]}
 * @throws {Refusal} unsuitable-shape where the rows say too little
 */
export function solved(matrix, right) {
  const size = matrix.length;
  const rows = matrix.map((row, place) => [...row, ...right[place]]);
  const least = 1e-14 * Math.max(0, ...matrix.flat().map(Math.abs));
  for (let place = 0; place < size; place += 1) {
    let best = place;
    for (let other = place; other < size; other += 1) {
      if (Math.abs(rows[other][place]) > Math.abs(rows[best][place])) best = other;
    }
    if (!(Math.abs(rows[best][place]) > least)) {
      throw new Refusal("unsuitable-shape", "The equations do not settle the unknowns.", "Give more, or others.", { field: "marks" });
    }
    [rows[place], rows[best]] = [rows[best], rows[place]];
    for (const row of rows.slice(place + 1)) {
      const share = row[place] / rows[place][place];
      for (let at = place; at < row.length; at += 1) row[at] -= share * rows[place][at];
    }
  }
  for (let place = size - 1; place >= 0; place -= 1) {
    const row = rows[place];
    for (let column = size; column < row.length; column += 1) {
      let known = 0;
      for (let other = place + 1; other < size; other += 1) known += row[other] * rows[other][column];
      row[column] = (row[column] - known) / row[place];
    }
  }
  return rows.map((row) => row.slice(size));
}

/**
 * The unknowns that miss more equations than unknowns by the least sum of squares, and their covariance.
 * @param {number[][]} rows  coefficients of each equation, divided by its standard error
 * @param {number[]} right  what each comes to, divided likewise
 * @returns {{found: number[], covariance: number[][]}}
 */
export function leastSquares(rows, right) {
  const size = rows[0].length;
  const places = [...Array(size).keys()];
  const sum = (of) => rows.reduce((total, row, at) => total + of(row, at), 0);
  const normal = places.map((i) => places.map((j) => sum((row) => row[i] * row[j])));
  const whole = places.map((i) => [sum((row, at) => row[i] * right[at]), ...places.map((j) => Number(i === j))]);
  const out = solved(normal, whole);
  return { found: out.map(([first]) => first), covariance: out.map((row) => row.slice(1)) };
}

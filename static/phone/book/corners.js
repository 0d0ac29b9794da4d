/** The corners of an outline as the lines of its text: those measured, and those that were only touched on a drawing. */

import { Refusal } from "../../checks/refusal.js";
import { lengthsIn } from "./figures.js";
import { figureOf } from "./wording.js";

const TOUCHED = /^≈ (-?\d+) (-?\d+) ± (\d+)$/;

/** @typedef {{at: number[]|null, missed: number}} Corner  `at` x and z, mm; `missed` 0 where it was measured */

/** The lines that say something. */
export function linesOf(/** @type {string} */ text) {
  return text.split("\n").map((line) => line.trim()).filter(Boolean);
}

/** What stands for a corner that was touched: it reads as none, so that nothing is made of it. */
export function touchedLine(/** @type {number[]} */ [x, z], /** @type {number} */ missed) {
  return `≈ ${x} ${z} ± ${missed}`;
}

/** @returns {Corner} */
export function cornerOf(/** @type {string} */ line) {
  const touched = TOUCHED.exec(line);
  if (touched) return { at: [Number(touched[1]), Number(touched[2])], missed: Number(touched[3]) };
  const figures = lengthsIn(line); // one that can be read in two ways is none yet
  return { at: figures.length === 2 && figures.every(Number.isFinite) ? /** @type {number[]} */ (figures) : null, missed: 0 };
}

/** Where the next corner to be measured stands among the lines: the first that was only touched, else behind them. */
export function toMeasure(/** @type {string[]} */ lines) {
  const touched = lines.findIndex((line) => TOUCHED.test(line));
  return touched < 0 ? lines.length : touched;
}

/** The four corners of the rectangle between two that were measured; null where these are not two across from each other. */
export function rectangleOf(/** @type {string[]} */ lines) {
  const corners = lines.map(cornerOf);
  if (corners.length !== 2 || corners.some(({ at, missed }) => !at || missed)) return null;
  const [[x0, z0], [x1, z1]] = corners.map(({ at }) => at);
  return x0 === x1 || z0 === z1 ? null : [[x0, z0], [x1, z0], [x1, z1], [x0, z1]];
}

/** How wide and high it is: "300 × 200 mm". */
export function sizeOf(/** @type {number[][]} */ [[x0, z0], , [x1, z1]]) {
  return `${figureOf(Math.abs(x1 - x0))} × ${figureOf(Math.abs(z1 - z0), "mm")}`;
}

/**
 * What is to be said of an outline of which some corners were not measured yet.
 * @param {import("./registry.js").Field} field
 * @param {string} text
 * @returns {Refusal[]}
 */
export function notMeasured(field, text) {
  const lines = linesOf(text);
  const at = toMeasure(lines);
  if (at === lines.length) return [];
  const { at: point, missed } = cornerOf(lines[at]);
  const reason = `${field.label}: corner ${at + 1} was touched on the drawing, which may be ${figureOf(missed, "mm")} out, and not measured.`;
  const remedy = `Measure it, near x ${figureOf(point[0])}, z ${figureOf(point[1])}, and type its figures.`;
  return [new Refusal("not-measured", reason, remedy, { field: field.name, value: lines[at] })];
}

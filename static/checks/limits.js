/** Ranges that refuse: the one way a check looks at the numbers it is given. Mirrors fieldbook/checks/limits.py. */

import { Refusal, figure, shown } from "./refusal.js";

/**
 * The value itself, when low <= value <= high; the comparison is written so that NaN fails.
 * @param {string} name  how the message calls it
 * @param {number} value
 * @param {number} low  inclusive, in unit
 * @param {number} high  inclusive, in unit
 * @param {string} unit
 * @returns {number}
 * @throws {Refusal} not-a-number, out-of-range
 */
export function within(name, value, low, high, unit) {
  if (typeof value !== "number") {
    const remedy = unit ? `Give a number in ${unit}.` : "Give a number.";
    throw new Refusal("not-a-number", `${name} is ${shown(value)}, which is not a number.`, remedy, { field: name, value });
  }
  if (!(low <= value && value <= high)) {
    const given = `${name} is ${shown(value)} ${unit}`.trimEnd();
    const bounds = `it must lie from ${figure(low)} to ${figure(high)} ${unit}`.trimEnd();
    const remedy = "Measure again, or use another method for such a value.";
    throw new Refusal("out-of-range", `${given}; ${bounds}.`, remedy, { field: name, value });
  }
  return value;
}

/**
 * The value itself when it is any finite number of a size met in a building (up to 1e9).
 * @throws {Refusal} not-a-number, out-of-range
 */
export function finite(name, value, unit) {
  return within(name, value, -1e9, 1e9, unit);
}

/**
 * Largest tenth not above a value: for what may be relied on.
 * @param {number} value  mm
 * @returns {number} mm
 */
export function roundedDown(value) {
  return toStep(value, 0.1, Math.floor);
}

/**
 * Smallest multiple of a step not below a value, a tenth unless another is asked for: for what must be allowed for.
 * @param {number} value
 * @returns {number} in its unit
 */
export function roundedUp(value, step = 0.1) {
  return toStep(value, step, Math.ceil);
}

/**
 * A limit as it is quoted: one told to a thousandth stands as it was entered, one that was reckoned is cut to a tenth.
 * @param {number} limit  mm
 * @returns {number} mm
 */
export function asEntered(limit) {
  return limit === Number(limit.toFixed(3)) ? limit : roundedDown(limit);
}

function toStep(value, step, rounded) {
  if (!Number.isFinite(value)) return value;
  // 1e-9 of a step is arithmetic noise, not a quantity: 22.000000000000004 is 22.
  const steps = rounded(Number((value / step).toFixed(9)));
  return (step < 1 ? steps / Math.round(1 / step) : steps * step) + 0; // the sum turns -0 into 0
}

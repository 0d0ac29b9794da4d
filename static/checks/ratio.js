/** Exact ratios of whole numbers, so that ties between measured points are decided the same way every time. */

/** @typedef {{over: bigint, under: bigint}} Ratio  in lowest terms, `under` above 0 */

/**
 * @param {bigint} over
 * @param {bigint} under
 * @returns {Ratio}
 */
export function ratio(over, under = 1n) {
  const sign = under < 0n ? -1n : 1n;
  const part = common(over, under) * sign || 1n;
  return { over: over / part, under: under / part };
}

/**
 * The decimal number as it was written, not the binary one nearest to it: 0.1 is a tenth.
 * @param {number} value
 * @returns {Ratio}
 */
export function written(value) {
  const [digits, power = "0"] = String(value).split("e");
  const [whole, part = ""] = digits.split(".");
  const shift = Number(power) - part.length;
  const over = BigInt(whole + part);
  return shift >= 0 ? ratio(over * 10n ** BigInt(shift)) : ratio(over, 10n ** BigInt(-shift));
}

/**
 * @param {Ratio} one
 * @param {Ratio} other
 * @returns {Ratio}
 */
export function plus(one, other) {
  return ratio(one.over * other.under + other.over * one.under, one.under * other.under);
}

/**
 * @param {Ratio} one
 * @param {Ratio} other
 * @returns {Ratio}
 */
export function minus(one, other) {
  return plus(one, { over: -other.over, under: other.under });
}

/**
 * @param {Ratio} one
 * @param {Ratio} other
 * @returns {Ratio}
 */
export function dividedBy(one, other) {
  return ratio(one.over * other.under, one.under * other.over);
}

/**
 * Below 0, 0 or above 0, as the first is less, equal or more.
 * @param {Ratio} one
 * @param {Ratio} other
 */
export function compare(one, other) {
  const difference = one.over * other.under - other.over * one.under;
  return difference < 0n ? -1 : Number(difference > 0n);
}

/**
 * @param {Ratio} one
 * @returns {Ratio}
 */
export function size(one) {
  return one.over < 0n ? { over: -one.over, under: one.under } : one;
}

/**
 * Smallest whole number not below a ratio.
 * @param {Ratio} one
 */
export function ceiling({ over, under }) {
  return over / under + (over > 0n && over % under !== 0n ? 1n : 0n);
}

/**
 * The nearest number there is.
 * @param {Ratio} one
 */
export function toNumber({ over, under }) {
  const digits = 25;
  return Number(`${(over * 10n ** BigInt(digits)) / under}e-${digits}`);
}

/** Greatest common divisor, never below 0. */
export function common(one, other) {
  while (other) [one, other] = [other, one % other];
  return one < 0n ? -one : one;
}

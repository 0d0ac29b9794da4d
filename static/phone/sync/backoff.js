/** How long to leave the laptop alone after it did not answer: doubling from 2 s to 2 min, never all phones at once. */

const FIRST_MS = 2_000;
const LONGEST_MS = 120_000;

/**
 * @param {number} failures  in a row, from 1
 * @param {number} share  random, 0 to 1
 * @returns {number} ms
 */
export function pauseAfter(failures, share = Math.random()) {
  const longest = Math.min(LONGEST_MS, FIRST_MS * 2 ** (failures - 1));
  return longest * (0.5 + share / 2);
}

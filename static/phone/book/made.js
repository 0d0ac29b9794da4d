/**
 * What was ticked on the workshop sheets: a tick is for a line as it read, and stays on this phone.
 *
 * @typedef {Record<string, string>} Made  line, as `lineNames` calls it -> the day it was ticked
 */

/**
 * Names for lines by what they say, those that say the same numbered: of two alike one may be done.
 * @param {string[]} lines
 * @returns {string[]}
 */
export function lineNames(lines) {
  const before = new Map();
  return lines.map((words) => {
    const number = (before.get(words) ?? 0) + 1;
    before.set(words, number);
    return number === 1 ? words : `${words} (${number})`;
  });
}

/**
 * With a line ticked, or open again.
 * @param {Made} made
 * @param {string} line
 * @param {string|null} day
 * @returns {Made}
 */
export function withTick(made, line, day) {
  const rest = Object.fromEntries(Object.entries(made).filter(([name]) => name !== line));
  return day ? { ...rest, [line]: day } : rest;
}

/**
 * The ticks for lines that no longer read so.
 * @param {Made} made
 * @param {string[]} lines
 * @returns {string[]}
 */
export const overtaken = (made, lines) => Object.keys(made).filter((line) => !lines.includes(line));

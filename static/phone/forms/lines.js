/** A row of a small table as it is written on a drawing, "ash upright 32 ±0.5" or "640 1210 2", parted into its cells; at the desk too. */

import { areMixed, isMeasure, tied as withItsUnit } from "../book/figures.js";
import { wholeWord } from "../book/typed.js";

const NONE = "-";
const TIED = "\u00a0";

/**
 * The cells of a line: words, then a figure or a known word or its beginning for each further column, as many as there are; a dash is none.
 * @param {string} line
 * @param {string[][]} columns  for each column after the first the words it knows; none where it takes a figure
 * @returns {string[] | null} null where there are words alone
 */
export function partsOf(line, columns) {
  const words = tied(withItsUnit(line.trim(), TIED), columns.flat()).split(/[ \t]+/).map((word) => word.replaceAll(TIED, " "));
  const fits = (word, at) => word === NONE || (columns[at].length ? columns[at].includes(wholeWord(word, columns[at])) : isMeasure(word));
  const whole = (word, at) => (word === NONE ? "" : wholeWord(word, columns[at]));
  for (let taken = Math.min(columns.length, words.length - 1); taken > 0; taken -= 1) {
    const tail = words.slice(-taken).map((word) => word.replace(/^±/, ""));
    if (tail.every(fits) && tail.at(-1) !== NONE) return [words.slice(0, -taken).join(" "), ...tail.map(whole)];
  }
  return null;
}

/**
 * The rows of a line in which a stroke begins the next one: "foam 4 ±1 / ash upright 32 ±0.5", "0 -4 / 1500 -9".
 * @param {string} line
 * @param {string[][]} columns  as above
 * @param {boolean} numeric  whether all columns take figures, the first too
 * @returns {string[][] | null} null where that is no row, or no whole ones
 */
export function rowsOf(line, columns, numeric) {
  const whole = (figures) => (figures.length === columns.length + 1 ? figures : null);
  const one = numeric ? whole(figuresOfLine(line)) : partsOf(line, columns);
  const pieces = line.split(numeric ? "/" : " / ");
  if (pieces.length === 1 || (numeric && one)) return one && [one];
  const rows = pieces.map((piece) => (numeric ? whole(withItsUnit(piece.trim()).split(/\s+/).filter(isMeasure)) : partsOf(piece, columns)));
  return rows.every(Boolean) ? rows : null;
}

/**
 * The figures of a line, parted by spaces, or by strokes where they could be one figure with its thousands parted.
 * @param {string} line
 * @returns {string[]} none where it is one figure, or holds anything else
 */
export function figuresOfLine(line) {
  const words = withItsUnit(line.trim()).split(line.includes("/") ? /\s*\/\s*/ : /\s+/);
  return !isMeasure(line) && words.every(isMeasure) && !areMixed(words) ? words : [];
}

/** The line with each known word of several kept in one piece. */
function tied(line, known) {
  const pieces = known.filter((word) => word.includes(" "));
  return pieces.reduce((text, word) => text.replace(` ${word}`, ` ${word.replaceAll(" ", TIED)}`), line);
}

/** A line typed into the first cell of a row as it is written on a drawing, "ash upright 32 ±0.5" or "640 1210 2", goes into its cells. */

import { numberFrom } from "../phone/book/figures.js";

const TIED = "\u00a0";

/**
 * The cells of a line: words, then a figure or a known word for each further column, as many as there are.
 * @param {string} line
 * @param {string[][]} columns  for each column after the first the words it knows; none where it takes a figure
 * @returns {string[] | null} null where there are words alone
 */
export function partsOf(line, columns) {
  const words = tied(line.trim(), columns.flat()).split(/[ \t]+/).map((word) => word.replaceAll(TIED, " "));
  const fits = (word, at) => (columns[at].length ? columns[at].includes(word) : typeof numberFrom(word) === "number");
  for (let taken = Math.min(columns.length, words.length - 1); taken > 0; taken -= 1) {
    const tail = words.slice(-taken).map((word) => word.replace(/^±/, ""));
    if (tail.every(fits)) return [words.slice(0, -taken).join(" "), ...tail];
  }
  return null;
}

/**
 * The figures of a line, parted by spaces, or by strokes where they could be one figure with its thousands parted.
 * @param {string} line
 * @returns {string[]} none where it is one figure, or holds anything else
 */
export function figuresOfLine(line) {
  const words = line.trim().split(line.includes("/") ? /\s*\/\s*/ : /\s+/);
  return typeof numberFrom(line) !== "number" && words.every((word) => typeof numberFrom(word) === "number") ? words : [];
}

/** The line with each known word of several kept in one piece. */
function tied(line, known) {
  const pieces = known.filter((word) => word.includes(" "));
  return pieces.reduce((text, word) => text.replace(` ${word}`, ` ${word.replaceAll(" ", TIED)}`), line);
}

/**
 * Part what is typed as the first cell is left; of a row that says more already, only a line for all of its cells.
 * @param {HTMLTextAreaElement} text
 * @param {HTMLTableSectionElement} body
 * @param {string[][]} columns
 * @param {boolean} numeric  whether it takes figures alone
 */
export function partLines(text, body, columns, numeric) {
  const parted = (line) => (numeric ? wholeRow(figuresOfLine(line)) : partsOf(line, columns));
  const wholeRow = (figures) => (figures.length === columns.length + 1 ? figures : null);
  body.addEventListener("change", ({ target }) => {
    const typed = /** @type {HTMLInputElement} */ (target);
    const [first, ...others] = typed.closest("tr")?.querySelectorAll("input") ?? [];
    const cells = typed === first ? parted(typed.value) : null;
    if (!cells || (cells.length <= columns.length && others.some((input) => input.value.trim()))) return;
    [first, ...others].slice(0, cells.length).forEach((input, place) => (input.value = cells[place]));
    typed.dispatchEvent(new Event("input", { bubbles: true }));
  });
  text.before(Object.assign(document.createElement("p"), {
    className: "help",
    textContent: `A whole line can be typed into the first cell, ${numeric ? "its figures parted by spaces or strokes" : "words first"}: it goes into the others by itself.`,
  }));
}

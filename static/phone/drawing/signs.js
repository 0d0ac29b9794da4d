/** Signs of findings, told by their outline: mirrors fieldbook/drawing/signs.py. The word belongs beside each. */

import { element } from "./svg.js";

const RADIUS = 8.6;
const SQUARE = "M-9 -9H9V9H-9Z";
const LEAF = "M-8 -9H3L8 -4V9H-8Z";

/** Word -> its parts in a box from -10 to 10: path data, and how it is drawn: solid, line, or line in paper. */
export const MARKS = {
  refused: [[SQUARE, "solid"], ["M-5 -5L5 5M5 -5L-5 5", "line paper"]],
  over: [["M0 -10L7.5 -2H3V1H9.5V5H3V9.5H-3V5H-9.5V1H-3V-2H-7.5Z", "solid"]],
  "not agreed": [[LEAF, "line"], ["M-4 5H4", "line"]],
  "not known": [["M-5.5 -4.5A5.5 5 0 1 1 0 1.5V4M0 7.5V9.5", "line"]],
  close: [["M-3.5 -9V9M3.5 -9V9", "line"]],
  within: [["M-9 0.5L-3 7.5L9 -7.5", "line"]],
  agreed: [["M-7 10V-9.5H8.5L4 -4.25L8.5 1H-7", "line"]],
  "does not apply": [["M-8 0H8", "line"]],
};

/**
 * A finding's sign by itself, for a page.
 * @param {string} word  one of those in MARKS
 * @returns {SVGElement}
 */
export function sign(word) {
  const box = { viewBox: "0 0 20 20", class: `sign ${classOf(word)}`, "aria-hidden": "true" };
  return element("svg", box, ...marks(word, [10, 10], RADIUS));
}

/** The parts of a sign, inside another drawing. */
export function marks(word, [x, y], radius) {
  const transform = `translate(${x} ${y}) scale(${radius / 10})`;
  const parts = MARKS[word].map(([d, how]) => element("path", { d, class: how, "stroke-width": 2.6 }));
  return [element("g", { class: `mark ${classOf(word)}`, transform }, ...parts)];
}

/** The class of the stylesheet for a word. */
export function classOf(word) {
  return word.replaceAll(" ", "-");
}

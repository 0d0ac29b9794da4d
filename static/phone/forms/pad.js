/** A signature drawn with a finger, kept as rows of x, y and stroke: a width of 1,000, y downwards. */

import { element, through } from "../drawing/svg.js";

const WIDTH = 1_000;
const HEIGHT = 600; // room for a hand
const LEAST_STEP = 4;
const MOST_ROWS = 4_000;

/**
 * @param {HTMLElement} area
 * @param {number[][]} rows  what was drawn before
 * @param {(rows: number[][]) => void} changed
 */
export function pad(area, rows, changed) {
  let drawn = [...rows];
  /** @type {number[][]} */
  let former = [];
  const svg = drawingOf(drawn);
  area.replaceChildren(svg);
  let stroke = null;

  const at = (event) => {
    const { left, top, width } = svg.getBoundingClientRect();
    return [Math.round(((event.clientX - left) * WIDTH) / width), Math.round(((event.clientY - top) * WIDTH) / width)];
  };
  const add = (event) => {
    const [x, y] = at(event);
    const last = drawn.at(-1);
    if (drawn.length >= MOST_ROWS) return;
    if (last?.[2] === stroke && Math.hypot(last[0] - x, last[1] - y) < LEAST_STEP) return;
    drawn.push([x, y, stroke]);
    svg.replaceChildren(...strokesOf(drawn));
  };
  svg.addEventListener("pointerdown", (event) => {
    stroke = (drawn.at(-1)?.[2] ?? -1) + 1;
    svg.setPointerCapture(event.pointerId);
    add(event);
    event.preventDefault();
  });
  svg.addEventListener("pointermove", (event) => stroke !== null && add(event));
  for (const end of ["pointerup", "pointercancel"]) {
    svg.addEventListener(end, () => {
      stroke = null;
      changed(drawn);
    });
  }
  const show = (/** @type {number[][]} */ other) => {
    [drawn, former] = [other, drawn];
    svg.replaceChildren(...strokesOf(drawn));
    changed(drawn);
  };
  return {
    wipe: () => drawn.length && show([]),
    /** What was wiped last, in the place of what is there; again, and it is the other way round. */
    swap: () => show(former),
  };
}

/** A drawing of strokes kept before. */
export function drawingOf(rows) {
  return element("svg", { viewBox: `0 0 ${WIDTH} ${HEIGHT}`, class: "strokes" }, ...strokesOf(rows));
}

function strokesOf(rows) {
  const strokes = new Map();
  for (const [x, y, stroke] of rows) strokes.set(stroke, [...(strokes.get(stroke) ?? []), [x, y]]);
  return [...strokes.values()].map((points) => element("path", { d: `${through(points)}h0.1`, class: "stroke" }));
}

/** Signs of verdicts, told by shape: mirrors fieldbook/drawing/signs.py. The word belongs beside each. */

import { element } from "./svg.js";

const RADIUS = 8.4;

/**
 * A verdict's sign by itself, for a page.
 * @param {string} word  within, close, over or not known
 * @returns {SVGElement}
 */
export function sign(word) {
  const box = { viewBox: "0 0 20 20", class: `sign ${classOf(word)}`, "aria-hidden": "true" };
  return element("svg", box, ...marks(word, [10, 10], RADIUS));
}

/** The parts of a sign, inside another drawing. */
export function marks(word, [x, y], radius) {
  const ring = (more) => element("circle", { cx: x, cy: y, r: radius, "stroke-width": radius * 0.2, ...more });
  if (word === "over") return [ring({ class: "ring full" })];
  if (word === "within") return [ring({ class: "ring" })];
  if (word === "close") {
    const half = `M${x} ${y - radius}a${radius} ${radius} 0 0 0 0 ${2 * radius}Z`;
    return [ring({ class: "ring" }), element("path", { d: half, class: "solid" })];
  }
  const part = (2 * Math.PI * radius) / 8;
  const r = radius * 0.32;
  const hook = `M${x - r} ${y - r * 0.7}a${r} ${r} 0 1 1 ${r} ${r}V${y + r * 0.9}M${x} ${y + r * 1.7}v${r * 0.3}`;
  return [
    ring({ class: "ring", "stroke-dasharray": `${part * 0.62} ${part * 0.38}` }),
    element("path", { d: hook, class: "ring bare", "stroke-width": radius * 0.2 }),
  ];
}

/** The class of the stylesheet for a word. */
export function classOf(word) {
  return word.replace(" ", "-");
}

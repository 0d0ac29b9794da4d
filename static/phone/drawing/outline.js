/** An outline that is being made, on a face's drawing: what is measured in full, what was only touched in dashes, as the rectangle that two corners would make. */

import { element, letters, path, through } from "./svg.js";

/**
 * @param {SVGElement} svg  an elevation
 * @param {import("../book/corners.js").Corner[]} corners
 * @param {number} u  mm a pixel
 * @param {number[][]|null} rectangle  that is made of them once somebody says so
 */
export function markOutline(svg, corners, u, rectangle = null) {
  const known = corners.map((corner, place) => ({ ...corner, number: place + 1 })).filter(({ at }) => at);
  const points = known.map(({ at: [x, z] }) => /** @type {[number, number]} */ ([x, -z]));
  const line = points.length > 1 ? [path(through(points, points.length > 2), known.some(({ missed }) => missed) ? "outline touched" : "outline")] : [];
  const four = rectangle ? [path(through(rectangle.map(([x, z]) => /** @type {[number, number]} */ ([x, -z])), true), "outline touched")] : [];
  svg.querySelector(".here").replaceChildren(...four, ...line, ...known.flatMap((corner, place) => cornerAt(corner, points[place], u)));
}

function cornerAt({ missed, number }, [x, y], u) {
  const ring = element("circle", { cx: x, cy: y, r: missed || 4 * u, class: missed ? "outline touched" : "outline dot", "vector-effect": "non-scaling-stroke" });
  return [ring, letters(String(number), [x + 7 * u, y - 7 * u], 14 * u, "outline-number")];
}

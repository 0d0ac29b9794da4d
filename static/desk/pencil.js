/** What is being entered, drawn in pencil over the face. */

import { drawn, drawnLength, pointOf } from "./scale.js";

const CROSS_MM = 3;
const CORNER_MM = 0.9;

/** @typedef {import("./scale.js").Place} Place */

export class Pencil {
  /** @param {SVGSVGElement} svg */
  constructor(svg) {
    this.svg = svg;
    this.layer = drawn("g", { class: "pencil" });
    svg.append(this.layer);
  }

  /** Rub out. */
  clear() {
    this.layer.replaceChildren();
  }

  /**
   * A cross, and the circle of what touches around it.
   * @param {Place} place
   * @param {number} radiusMm
   */
  point(place, radiusMm = 0) {
    const { x, y } = pointOf(this.svg, place);
    this.clear();
    if (radiusMm > 0) this.layer.append(drawn("circle", { cx: x, cy: y, r: drawnLength(this.svg, radiusMm) }));
    this.layer.append(drawn("path", { d: `M${x - CROSS_MM} ${y}h${2 * CROSS_MM}M${x} ${y - CROSS_MM}v${2 * CROSS_MM}` }));
  }

  /** @param {ReturnType<typeof import("./shape.js").shapeFrom>} shape */
  shape(shape) {
    this.shapes([shape]);
  }

  /** @param {ReturnType<typeof import("./shape.js").shapeFrom>[]} shapes */
  shapes(shapes) {
    this.clear();
    for (const shape of shapes) this.#add(shape);
  }

  #add(shape) {
    if (shape?.sort === "circle") {
      const { x, y } = pointOf(this.svg, shape);
      this.layer.append(drawn("circle", { cx: x, cy: y, r: drawnLength(this.svg, Math.abs(shape.radius)) }));
    } else if (shape?.sort === "rectangle") {
      const { x, z, width, height } = shape;
      this.#polygon([{ x, z }, { x: x + width, z }, { x: x + width, z: z + height }, { x, z: z + height }]);
    } else if (shape) {
      this.#polygon(shape.corners);
    }
  }

  /** @param {Place[]} corners */
  #polygon(corners) {
    const points = corners.map((corner) => pointOf(this.svg, corner));
    this.layer.append(drawn("polygon", { points: points.map(({ x, y }) => `${x},${y}`).join(" ") }));
    this.layer.append(...points.map(({ x, y }) => drawn("circle", { cx: x, cy: y, r: CORNER_MM })));
  }
}

/** The drawing of a face and the face itself: from one to the other. */

const SVG = "http://www.w3.org/2000/svg";

/**
 * @typedef {{x: number, z: number}} Place  mm from the face's datum
 */

/**
 * The place on the face under a pointer.
 * @param {SVGSVGElement} svg  a drawing with data-scale, data-left-mm and data-top-mm
 * @param {{clientX: number, clientY: number}} pointer
 * @returns {Place}  to the whole millimetre
 */
export function placeUnder(svg, pointer) {
  const at = new DOMPoint(pointer.clientX, pointer.clientY).matrixTransform(svg.getScreenCTM().inverse());
  const { scale, left, top } = figuresOf(svg);
  return { x: Math.round(at.x * scale + left), z: Math.round(top - at.y * scale) };
}

/**
 * Where a place of the face lies on the drawing.
 * @param {SVGSVGElement} svg
 * @param {Place} place
 * @returns {{x: number, y: number}}  in the drawing's own units
 */
export function pointOf(svg, place) {
  const { scale, left, top } = figuresOf(svg);
  return { x: (place.x - left) / scale, y: (top - place.z) / scale };
}

/**
 * A length of the face as long as it is drawn.
 * @param {SVGSVGElement} svg
 * @param {number} lengthMm
 * @returns {number}
 */
export function drawnLength(svg, lengthMm) {
  return lengthMm / figuresOf(svg).scale;
}

/**
 * A new element for a drawing.
 * @param {string} name
 * @param {Record<string, string | number>} attributes
 * @returns {SVGElement}
 */
export function drawn(name, attributes) {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
  return element;
}

/** @param {SVGSVGElement} svg */
function figuresOf(svg) {
  const { scale, leftMm, topMm } = svg.dataset;
  return { scale: Number(scale), left: Number(leftMm), top: Number(topMm) };
}

/** An outline as text and as corners, the way `fieldbook/model/typed.py` reads it. */

import { inMixedUnits, numberIn, tied } from "../phone/book/figures.js";
import { SIZED } from "../phone/book/typed.js";

/**
 * @typedef {import("./scale.js").Place} Place
 * @typedef {{sort: "rectangle", x: number, z: number, width: number, height: number}} Rectangle
 * @typedef {{sort: "circle", x: number, z: number, radius: number}} Circle
 * @typedef {{sort: "corners", corners: Place[]}} Corners
 */

const FIGURES = { rectangle: 4, circle: 3 };

/**
 * @param {string} text
 * @returns {Rectangle | Circle | Corners | null}  null when it cannot be read (yet)
 */
export function shapeFrom(text) {
  const [word, ...rest] = tied(text.trim()).replace(SIZED, "rectangle $1 $2").split(/\s+/);
  const sort = word.toLowerCase();
  if (sort in FIGURES) {
    const figures = rest.map(numberFrom);
    if (figures.length !== FIGURES[sort] || inMixedUnits(rest, rest.map(() => "mm")) || figures.some(Number.isNaN)) return null;
    const [x, z, third, height] = figures;
    return sort === "circle" ? { sort: "circle", x, z, radius: third } : { sort: "rectangle", x, z, width: third, height };
  }
  const corners = text
    .split("\n")
    .filter((line) => line.trim())
    .map((line) => tied(line.trim()).split(line.includes(";") ? ";" : /,\s+|\s+/).map(numberFrom));
  if (corners.length < 1 || corners.some((corner) => corner.length !== 2 || corner.some(Number.isNaN))) return null;
  return { sort: "corners", corners: corners.map(([x, z]) => ({ x, z })) };
}

/**
 * @param {Rectangle | Circle | Corners} shape
 * @returns {string}
 */
export function textOf(shape) {
  if (shape.sort === "rectangle") return `${shape.x} ${shape.z} ${shape.width} × ${shape.height}`;
  if (shape.sort === "circle") return `circle ${shape.x} ${shape.z} ${shape.radius}`;
  return shape.corners.map(({ x, z }) => `${x} ${z}`).join("\n");
}

/**
 * The rectangle between two opposite corners.
 * @param {Place} from
 * @param {Place} to
 * @returns {Rectangle}
 */
export function rectangleBetween(from, to) {
  return {
    sort: "rectangle",
    x: Math.min(from.x, to.x),
    z: Math.min(from.z, to.z),
    width: Math.abs(to.x - from.x),
    height: Math.abs(to.z - from.z),
  };
}

/**
 * What a box becomes as it is dragged from a place: at a corner it is sized, else it is moved; from beside it, it
 * comes to the pointer. Where there is none yet, one is drawn.
 * @param {Rectangle | null} box
 * @param {Place} from  where it is pressed
 * @param {number} grip  how near a corner counts as the corner, mm of the face
 * @returns {(to: Place) => Rectangle}
 */
export function dragOf(box, from, grip) {
  if (!box) return (to) => rectangleBetween(from, to);
  const right = box.x + box.width;
  const top = box.z + box.height;
  const near = Math.min(grip, box.width / 2, box.height / 2);
  for (const [corner, opposite] of [
    [{ x: box.x, z: box.z }, { x: right, z: top }],
    [{ x: right, z: box.z }, { x: box.x, z: top }],
    [{ x: right, z: top }, { x: box.x, z: box.z }],
    [{ x: box.x, z: top }, { x: right, z: box.z }],
  ]) {
    if (Math.hypot(from.x - corner.x, from.z - corner.z) <= near) return (to) => rectangleBetween(opposite, to);
  }
  const inside = from.x >= box.x && from.x <= right && from.z >= box.z && from.z <= top;
  const held = inside ? { x: from.x - box.x, z: from.z - box.z } : { x: 0, z: 0 };
  return (to) => ({ ...box, x: to.x - held.x, z: to.z - held.z });
}

/**
 * The circle round a middle that reaches at least to a place.
 * @param {Place} middle
 * @param {Place} edge
 * @returns {Circle}
 */
export function circleTo(middle, edge) {
  return { sort: "circle", x: middle.x, z: middle.z, radius: Math.ceil(Math.hypot(edge.x - middle.x, edge.z - middle.z)) };
}

/**
 * A length as people type it, mm.
 * @param {string} text
 * @returns {number}  NaN when it is none
 */
export function numberFrom(text) {
  const found = numberIn(text, "mm");
  return text.trim() !== "" && typeof found === "number" ? found : NaN;
}

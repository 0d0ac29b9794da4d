/** An outline as text and as corners, the way `fieldbook/model/typed.py` reads it. */

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
  const [word, ...rest] = text.trim().toLowerCase().split(/\s+/);
  if (word in FIGURES) {
    const figures = rest.map(numberFrom);
    if (figures.length !== FIGURES[word] || figures.some(Number.isNaN)) return null;
    const [x, z, third, height] = figures;
    return word === "circle" ? { sort: "circle", x, z, radius: third } : { sort: "rectangle", x, z, width: third, height };
  }
  const corners = text
    .split("\n")
    .filter((line) => line.trim())
    .map((line) => line.trim().split(line.includes(";") ? ";" : /,\s+|\s+/).map(numberFrom));
  if (corners.length < 1 || corners.some((corner) => corner.length !== 2 || corner.some(Number.isNaN))) return null;
  return { sort: "corners", corners: corners.map(([x, z]) => ({ x, z })) };
}

/**
 * @param {Rectangle | Circle | Corners} shape
 * @returns {string}
 */
export function textOf(shape) {
  if (shape.sort === "rectangle") return `rectangle ${shape.x} ${shape.z} ${shape.width} ${shape.height}`;
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
 * The circle round a middle that reaches at least to a place.
 * @param {Place} middle
 * @param {Place} edge
 * @returns {Circle}
 */
export function circleTo(middle, edge) {
  return { sort: "circle", x: middle.x, z: middle.z, radius: Math.ceil(Math.hypot(edge.x - middle.x, edge.z - middle.z)) };
}

/**
 * A number as people type it, with a decimal point or comma.
 * @param {string} text
 * @returns {number}  NaN when it is none
 */
export function numberFrom(text) {
  const plain = text.trim().replace("−", "-").replace(",", ".");
  return plain === "" ? NaN : Number(plain);
}

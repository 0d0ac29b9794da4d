/** Copies of a fitting set out on its drawing: drawn in pencil where the figures put them, and dragged to where they go. */

import { lengthsIn } from "../phone/book/figures.js";
import { Pencil } from "./pencil.js";
import { fill } from "./placing.js";
import { drawnLength, placeUnder } from "./scale.js";
import { numberFrom } from "./shape.js";

const LEVEL_MM = 3; // on paper

/**
 * @typedef {import("./shape.js").Rectangle} Rectangle
 * @typedef {object} Given  what stands in the form
 * @property {number} count
 * @property {number[]} apart  along x, one for all or one for each; none where it is not said yet
 * @property {number} up  along z
 * @property {number|null} x  of the first copy, where it is not one distance on
 * @property {number|null} z
 */

/**
 * Where the left lower corner of each copy lies, as the server sets them out.
 * @param {Rectangle} box  the fitting
 * @param {Given} given
 * @returns {{x: number, z: number}[]}
 */
export function setOut(box, { count, apart, up, x, z }) {
  const steps = apart.length ? apart : [0];
  let at = { x: x ?? box.x + steps[0], z: z ?? box.z + up };
  return Array.from({ length: Math.max(count, apart.length) }, (_, number) => {
    if (number) at = { x: at.x + steps[Math.min(number, steps.length - 1)], z: at.z + up };
    return at;
  });
}

/**
 * The figures that put a copy where it is dragged, those between at equal distances; the first of a row that has a
 * place of its own takes the row along.
 * @param {Rectangle} box
 * @param {Given} given
 * @param {number} number  which of the copies
 * @param {{x: number, z: number}} to  its left lower corner
 * @param {number} level  what a hand is off a line by, mm of the face: less than that along either way is none
 * @returns {Record<string, number>}  what to write into which input
 */
export function draggedTo(box, given, number, to, level) {
  const own = given.x !== null || given.z !== null;
  if (own && number === 0) return { x_mm: to.x, z_mm: to.z };
  const from = own ? setOut(box, given)[0] : box;
  const steps = own ? number : number + 1;
  const along = (mm) => (Math.abs(mm) < level ? 0 : Math.round(mm / steps));
  return { apart: along(to.x - from.x), up_mm: along(to.z - from.z) };
}

/**
 * @param {SVGSVGElement} svg
 * @param {HTMLFormElement} form  with data-box, the fitting
 */
export function placeCopies(svg, form) {
  const box = /** @type {Rectangle} */ ({ sort: "rectangle", ...JSON.parse(form.dataset.box) });
  const pencil = new Pencil(svg);
  const draw = () => pencil.shapes(isSaid(form) ? setOut(box, givenIn(form)).map((at) => ({ ...box, ...at })) : []);
  let held = null;
  svg.addEventListener("click", (event) => event.preventDefault());
  svg.addEventListener("pointerdown", (event) => {
    event.preventDefault();
    const place = placeUnder(svg, event);
    const copies = isSaid(form) ? setOut(box, givenIn(form)) : [];
    const number = copies.findLastIndex((at) => within({ ...box, ...at }, place));
    const corner = copies[number] ?? (within(box, place) ? box : null);
    if (!corner) return;
    held = { number: Math.max(number, 0), x: place.x - corner.x, z: place.z - corner.z };
    svg.setPointerCapture(event.pointerId);
  });
  svg.addEventListener("pointermove", (event) => {
    if (!held) return;
    const place = placeUnder(svg, event);
    const to = { x: place.x - held.x, z: place.z - held.z };
    fill(form, draggedTo(box, givenIn(form), held.number, to, LEVEL_MM / drawnLength(svg, 1)));
  });
  svg.addEventListener("pointerup", () => (held = null));
  form.addEventListener("input", draw);
  draw();
}

/** Whether anything says where they go. */
const isSaid = (form) => ["apart", "up_mm", "x_mm", "z_mm"].some((name) => form.elements[name].value.trim());

/** @returns {Given} */
function givenIn(form) {
  const figure = (name) => (Number.isNaN(numberFrom(form.elements[name].value)) ? null : numberFrom(form.elements[name].value));
  const apart = lengthsIn(form.elements.apart.value).filter((one) => typeof one === "number");
  return { count: Math.min(figure("count") ?? 1, 200), apart: /** @type {number[]} */ (apart), up: figure("up_mm") ?? 0, x: figure("x_mm"), z: figure("z_mm") };
}

const within = (box, { x, z }) => x >= box.x && x <= box.x + box.width && z >= box.z && z <= box.z + box.height;

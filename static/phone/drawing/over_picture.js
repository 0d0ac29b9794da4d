/** What is drawn over a photograph: its marks, the place asked for, and what is recorded on the face it shows. */

import { seenAt } from "../../checks/picture_plane.js";
import { element, letters, path, through } from "./svg.js";

const STILL = 4; // of the screen: what a finger shakes while it only touches
const STEPS = 12; // parts a side of an outline is drawn in, so that one that leaves the picture still shows its rest

/**
 * An empty drawing that lies over a photograph, in its pixels.
 * @param {number} width  px
 * @param {number} height  px
 * @param {string} [label]
 */
export function overPicture(width, height, label = "The photograph: touch a point to mark it, or to measure it") {
  return element("svg", { viewBox: `0 0 ${width} ${height}`, class: "over-picture", role: "img", "aria-label": label });
}

/**
 * Which point of the photograph a pointer is at.
 * @param {any} svg
 * @param {{clientX: number, clientY: number}} pointer
 * @returns {[number, number]} across and down, px
 */
export function pointUnder(svg, pointer) {
  const { x, y } = new DOMPoint(pointer.clientX, pointer.clientY).matrixTransform(svg.getScreenCTM().inverse());
  return [Math.round(x * 10) / 10, Math.round(y * 10) / 10];
}

/** A cross with its number, its size that of a finger's tip at any size of the picture. */
export function cross([x, y], words, u, className = "mark") {
  const [near, far] = [3 * u, 14 * u];
  const d = [[1, 0], [-1, 0], [0, 1], [0, -1]].map(([a, b]) => `M${x + a * near} ${y + b * near}L${x + a * far} ${y + b * far}`).join("");
  return element("g", { class: className }, path(d, "cross-edge"), path(d, "cross"), letters(words, [x + 7 * u, y - 6 * u], 16 * u, className));
}

/** The square a colour is taken from, with its cross and number; nothing where its figures are not whole. */
export function squareOver([across, down, reach], words, u) {
  if (![across, down, reach].every((part) => typeof part === "number")) return [];
  const box = { x: across - reach, y: down - reach, width: 2 * reach, height: 2 * reach, class: "square" };
  return [element("rect", box), cross([across, down], words, u)];
}

/** A number in a ring, which points at something. */
export function ring([x, y], number, u, className = "numbered") {
  return element("g", { class: className }, element("circle", { cx: x, cy: y, r: 12 * u }), letters(number, [x, y + 5 * u], 14 * u, "number", "middle"));
}

/** Where a mark may be taken hold of: as large as a finger's tip. */
export function grip([x, y], at, u) {
  return element("circle", { cx: x, cy: y, r: 22 * u, class: "grip", "data-mark": String(at) });
}

/**
 * Hears what is done on a photograph, with a pointer or a finger: marks are moved by their grips, all else is touched.
 * @param {any} svg
 * @param {{touched: (point: [number, number]) => void, chosen: (at: number) => void, moved: (at: number, point: [number, number]) => void, ended: () => void}} to
 */
export function hearTouches(svg, to) {
  let held = null;
  let dragged = false;
  let from = { clientX: 0, clientY: 0 };
  svg.addEventListener("pointerdown", (event) => {
    const mark = event.target.closest("[data-mark].grip");
    held = mark ? Number(mark.dataset.mark) : null;
    dragged = false;
    from = event;
    if (mark) svg.setPointerCapture(event.pointerId);
  });
  svg.addEventListener("pointermove", (event) => {
    if (held === null || !svg.hasPointerCapture(event.pointerId)) return;
    dragged ||= Math.hypot(event.clientX - from.clientX, event.clientY - from.clientY) > STILL;
    if (dragged) to.moved(held, pointUnder(svg, event));
  });
  svg.addEventListener("lostpointercapture", () => dragged && to.ended());
  svg.addEventListener("click", (event) => {
    if (dragged) dragged = false;
    else if (held !== null) to.chosen(held);
    else to.touched(pointUnder(svg, event));
    held = null;
  });
}

/**
 * What is recorded on a face, where the photograph shows it.
 * @param {import("../../checks/picture_plane.js").Plane} plane
 * @param {{outlines: {points: number[][], look: string, words: string}[], places: {at: number[], words: string}[]}} recorded
 * @param {number} u  one unit of the screen, px
 * @returns {SVGElement[]}
 */
export function recordedOver(plane, { outlines, places }, u) {
  const drawn = [];
  for (const { points, look, words } of outlines) {
    const corners = along(points).map((place) => seenAt(plane, place)).filter(Boolean);
    if (corners.length < 3) continue;
    drawn.push(path(through(corners, true), `seen ${look}`), letters(words, look === "zone" ? middleOf(corners) : corners[0], 13 * u, "seen"));
  }
  for (const { at, words } of places) {
    const point = seenAt(plane, at);
    if (!point) continue;
    drawn.push(element("circle", { cx: point[0], cy: point[1], r: 6 * u, class: "seen", "vector-effect": "non-scaling-stroke" }));
    drawn.push(letters(words, [point[0] + 9 * u, point[1] + 4 * u], 13 * u, "seen"));
  }
  return drawn;
}

const middleOf = (points) => [0, 1].map((k) => points.reduce((sum, point) => sum + point[k], 0) / points.length);

function along(points) {
  return points.flatMap(([x, z], at) => {
    const [toX, toZ] = points[(at + 1) % points.length];
    return [...Array(STEPS).keys()].map((step) => [x + ((toX - x) * step) / STEPS, z + ((toZ - z) * step) / STEPS]);
  });
}

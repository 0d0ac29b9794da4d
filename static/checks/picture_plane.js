/** A photograph that measures: any place on a flat face from marks on it. Mirrors fieldbook/checks/picture_plane.py. */

import { back, byElements, byPlace, depth, frameOf, into, linear, placeOf, refined, seen } from "./homography.js";
import { within } from "./limits.js";
import { refuseUnsuitable } from "./plane_marks.js";
import { Refusal } from "./refusal.js";

const MOST_TIMES = 8;
const WIDER = 1.04;
const LEAST_DEPTH = 0.05;
const SELDOM = 3.0902; // one case in a thousand of a normal distribution, one-sided

/** @typedef {import("./plane_marks.js").Pair} Pair */
/** @typedef {import("./homography.js").Frame} Frame */
/** @typedef {{pairs: Pair[], markPx: number, times: number, face: Frame, picture: Frame, h: number[], covariance: number[][]}} Plane */

/**
 * The face as a photograph shows it, found from four marks or more.
 * @param {Pair[]} pairs
 * @param {number} [markPx]  standard error of a mark in the picture, px
 * @returns {Plane}
 * @throws {Refusal} as `refuseUnsuitable`, and unsuitable-shape for marks that contradict each other
 */
export function planeOf(pairs, markPx = 1) {
  within("mark_px", markPx, 0.1, 100, "px");
  refuseUnsuitable(pairs, markPx);
  const face = frameOf(pairs.map(([, , x, z]) => [x, z]));
  const picture = frameOf(pairs.map(([across, down]) => [across, down]));
  const known = pairs.map(([across, down, x, z]) => ({ place: into(face, [x, z]), point: into(picture, [across, down]) }));
  const first = linear(known);
  if (Math.min(...known.map(({ place }) => depth(first, place))) <= 0) {
    throw new Refusal("unsuitable-shape", "No camera shows the marks like this: some would lie behind it.", "Look whether two marks were given each other’s places.", { field: "marks" });
  }
  const errors = pairs.map(([, , , , off]) => [markPx * picture.scale, (off ?? 0) * face.scale]);
  const { h, covariance, missed } = refined(first, known, errors);
  const times = timesOf(missed, 2 * pairs.length - 8);
  const plane = { pairs, markPx, times, face, picture, h, covariance };
  if (times > MOST_TIMES) throw contradiction(plane);
  return plane;
}

/**
 * The place of the face that a point of the photograph shows, and how far it may be off in 95 cases of 100.
 * @param {Plane} plane
 * @param {number[]} point  across and down, px
 * @returns {{x: number, z: number, within: number}} mm
 * @throws {Refusal} out-of-range at the horizon and beyond it
 */
export function placeSeen(plane, point) {
  const [x, z] = onFace(plane, point);
  return { x, z, within: WIDER * radius95(spread(plane, [x, z])) };
}

/**
 * Where the photograph shows a place of the face.
 * @param {Plane} plane
 * @param {number[]} place  x and z, mm
 * @returns {number[]|null} px; null behind the camera or at the horizon
 */
export function seenAt({ face, picture, h }, place) {
  const at = into(face, place);
  return depth(h, at) < LEAST_DEPTH ? null : back(picture, seen(h, at));
}

/**
 * At each mark: where the photograph has it, less where it is known to be, along x and z.
 * @param {Plane} plane
 * @returns {number[][]} mm
 */
export function residuals(plane) {
  return plane.pairs.map(([across, down, x, z]) => {
    const found = onFace(plane, [across, down]);
    return [found[0] - x, found[1] - z];
  });
}

function onFace({ face, picture, h }, point) {
  const place = placeOf(h, into(picture, point));
  if (!place || !(depth(h, place) >= LEAST_DEPTH)) {
    const reason = "The photograph shows no place of this face there: it lies at the face’s horizon or beyond it.";
    throw new Refusal("out-of-range", reason, "Choose a point on the face, nearer to the marks.", { field: "place", value: point });
  }
  return back(face, place);
}

/** Covariance of a place on the face, mm²: of x, of both, of z. */
function spread({ face, picture, h, covariance, markPx, times }, placeMm) {
  const place = into(face, placeMm);
  const [across, down] = byPlace(h, place);
  const byElement = byElements(h, place);
  const mark = (markPx * picture.scale) ** 2;
  const all = [0, 1].map((i) => [0, 1].map((j) => through(byElement[i], covariance, byElement[j]) + mark * Number(i === j)));
  const turn = across[0] * down[1] - across[1] * down[0];
  const turned = [[down[1] / turn, -across[1] / turn], [-down[0] / turn, across[0] / turn]];
  const mm2 = (times / face.scale) ** 2;
  return [[0, 0], [0, 1], [1, 1]].map(([i, j]) => mm2 * through(turned[i], all, turned[j]));
}

/** @param {number[]} covariance  of x, of both, of z, mm² */
function radius95([xx, xz, zz]) {
  const [middle, off] = [(xx + zz) / 2, Math.hypot((xx - zz) / 2, xz)];
  const [longer, shorter] = [Math.sqrt(middle + off), Math.sqrt(Math.max(0, middle - off))];
  const c = longer ? shorter / longer : 0;
  return longer * (1.96079 + 0.004071 * c + 0.114276 * c ** 2 + 0.371625 * c ** 3);
}

function through(left, matrix, right) {
  return left.reduce((sum, a, i) => sum + a * matrix[i].reduce((part, entry, j) => part + entry * right[j], 0), 0);
}

/** How much larger the errors are than stated, where chance would seldom make them so large. */
function timesOf(missed, free) {
  if (free <= 0) return 1;
  const part = 2 / (9 * free);
  const seldom = (1 - part + SELDOM * Math.sqrt(part)) ** 3;
  return missed / free > seldom ? Math.sqrt(missed / free) : 1;
}

function contradiction(plane) {
  const off = residuals(plane).map(([x, z]) => Math.hypot(x, z));
  const worst = off.indexOf(Math.max(...off));
  const reason = `The marks contradict each other: mark ${worst + 1} is ${off[worst].toFixed(0)} mm from where the others have it.`;
  const remedy = "Look at its place in the photograph and at its figures on the face; marks that do not lie on the face go out.";
  return new Refusal("unsuitable-shape", reason, remedy, { field: "marks", value: off[worst] });
}

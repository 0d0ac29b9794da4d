/** How the walls of a room stand to each other in its plan, and to its ceiling. Mirrors fieldbook/findings/walls.py. */

import { leaf } from "../../checks/sweep.js";
import * as places from "./places.js";
import { joined } from "./wording.js";

const IN_PLAN = ["start_x_mm", "start_y_mm", "bearing_deg"];
const FACING_DEG = 45; // what is turned farther from looking at a wall does not stand across from it

/** Whether z on a face is a height, and what stands on it stands out sideways. */
export function isWall(face) {
  return places.isUpright(face) && !places.overhead(face);
}

/** Whether a face stands in the plan of its room. */
export function placed(face) {
  return !lacking(face).length;
}

/** The other walls of a face's room. */
export function others(site, face) {
  return site.of(site.get(face.values.room), "face").filter((one) => one.id !== face.id && isWall(one));
}

/** What is not entered of where faces stand in the plan. */
export function lacking(...faces) {
  return faces.flatMap((item) => IN_PLAN.filter((name) => !places.known(item.values[name])).map((field) => ({ item, field })));
}

/** That it is not entered where faces stand, as the end of a sentence. */
export function where(blanks) {
  const walls = joined([...new Set(blanks.map(({ item }) => nameOf(item)))].sort());
  return `where ${walls} ${walls.includes(" ") ? "stand" : "stands"} in the plan of the room is not entered.`;
}

export function nameOf({ values }) {
  return values.mark || values.name;
}

/** What a height on one wall is more on another, by the floor at the left end of both. @returns {number} mm */
export function levelOf(face, own) {
  return places.floorOf(face)[0][1] - places.floorOf(own)[0][1];
}

/** A leaf of one wall in the axes of another, or of the ceiling: x, and out of it, or its z. */
export function turned(face, own, swung) {
  const { hinge, by } = across(face, own, swung.hinge);
  return leaf(hinge, swung.from + by, swung.to + by, swung.boxes);
}

/** A place in front of one wall, x and out of it, in the axes of another. @returns {number[]} mm */
export function placeOn(face, own, at) {
  return across(face, own, at).hinge;
}

/** Whether two walls that stand in the plan look at each other. */
export function facing(face, other) {
  return Math.abs(modulo(face.values.bearing_deg - other.values.bearing_deg, 360) - 180) <= FACING_DEG;
}

/** How far in front of a face another that looks at it stands at its nearest end, mm; infinite for any other. */
export function apart(face, other) {
  if (!placed(face) || !placed(other) || !facing(face, other)) return Infinity;
  const { xFrom, xTo } = places.faceStretch(other);
  const out = Math.min(...[xFrom, xTo].map((x) => placeOn(face, other, [x, 0])[1]));
  return out > 0 ? out : Infinity;
}

/** Seen from above, out of a face is a quarter turn clockwise from x. */
function across(face, own, [x, out]) {
  const [here, there] = [face.values, own.values];
  const [bearing, other] = [radians(there.bearing_deg), radians(here.bearing_deg)];
  const east = there.start_x_mm + x * Math.cos(bearing) + out * Math.sin(bearing) - here.start_x_mm;
  const north = there.start_y_mm + x * Math.sin(bearing) - out * Math.cos(bearing) - here.start_y_mm;
  const hinge = [east * Math.cos(other) + north * Math.sin(other), east * Math.sin(other) - north * Math.cos(other)];
  return { hinge, by: modulo(here.bearing_deg - there.bearing_deg + 180, 360) - 180 };
}

function radians(degrees) {
  return (degrees * Math.PI) / 180;
}

function modulo(value, by) {
  return ((value % by) + by) % by;
}

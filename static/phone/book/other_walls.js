/** Whether a thing stands in the place of one on another wall of its room, or on its ceiling. Mirrors fieldbook/findings/other_walls.py. */

import { areaDistance } from "../../checks/keep_off.js";
import { FREE_MM } from "./kept_free.js";
import * as places from "./places.js";
import { reachOf } from "./reach.js";
import { stands } from "./site.js";
import { isWall, lacking, placeOn } from "./walls.js";

const LEAST_MM = 1; // what is told to stand out less is as good as in the wall

/**
 * What of the things on the other faces of its room a fitting meets, or may meet.
 * @returns {{other: any, by: number, missing: any[]}[]} mm; `missing`: the entries on which it rests, none where certain
 */
export function metBy(registry, site, fitting) {
  const face = site.get(fitting.values.face);
  const own = { face, thing: fitting, reach: reachOf(registry, site, fitting) };
  const things = others(site, face).flatMap((one) => site.of(one, "fitting").filter(stands).map((thing) => ({ face: one, thing })));
  return things.map((across) => meets(registry, site, own, across)).filter(Boolean);
}

/** The faces of the room that stand otherwise: other walls, and the ceiling for a wall. */
function others(site, face) {
  if (!isWall(face) && !places.overhead(face)) return [];
  const faces = site.of(site.get(face.values.room), "face").filter(({ id }) => id !== face.id);
  return faces.filter((one) => isWall(one) || (places.overhead(one) && !places.overhead(face)));
}

function meets(registry, site, own, { face, thing }) {
  const across = { face, thing, reach: reachOf(registry, site, thing) };
  const perhaps = intoIt(site, own, across, atMost(own.reach), atMost(across.reach));
  if (perhaps <= 0) return null;
  const [sure, blanks] = [intoIt(site, own, across, own.reach.low, across.reach.low), lacking(own.face, face)];
  if (sure > 0 && !blanks.length) return { other: thing, by: sure, missing: [] };
  const missing = blanks.length ? blanks : [...own.reach.missing, ...across.reach.missing];
  return missing.length ? { other: thing, by: perhaps, missing } : null;
}

/** How far it stands out at most; where that is anything, as far as way is kept free for. */
function atMost({ low, high }) {
  return Math.min(high, Math.max(low, FREE_MM));
}

/** How far one stands into the other where they stand out so far, mm; 0 or less where they do not meet. */
function intoIt(site, own, across, out, otherOut) {
  const shared = share(heights(site, own, out), heights(site, across, otherOut));
  if (shared <= 0) return shared;
  if (lacking(own.face, across.face).length) return Math.min(shared, atTheEnds(own, across, out, otherOut));
  const seenOn = [across.face, own.face].find(places.overhead) ?? own.face;
  const [one, other] = [box(seenOn, own, Math.max(out, LEAST_MM)), box(seenOn, across, Math.max(otherOut, LEAST_MM))];
  const near = Math.min(...[0, 1].map((axis) => share(span(one, axis), span(other, axis))));
  return near > 0 ? Math.min(shared, -areaDistance(one, other)) : near;
}

/** How far each of two comes at most into the other, if their walls meet at the ends that are nearest to them. */
function atTheEnds(own, across, out, otherOut) {
  if (places.overhead(own.face) || places.overhead(across.face)) return Infinity;
  return Math.min(otherOut - fromEnd(own), out - fromEnd(across));
}

function fromEnd({ face, thing }) {
  const [end, part] = [places.faceStretch(face), places.fittingStretch(thing)];
  return Math.min(part.xFrom - end.xFrom, end.xTo - part.xTo);
}

/** From which height above the floor to which a fitting reaches; none where that of a ceiling is not entered. */
function heights(site, { face, thing }, out) {
  if (places.overhead(face)) {
    const above = places.aboveFloor(site, face);
    return above === null ? [Infinity, -Infinity] : [above - out, above];
  }
  const { zFrom, zTo } = places.fittingStretch(thing);
  const floor = places.floorOf(face)[0][1];
  return [zFrom - floor, zTo - floor];
}

function share(/** @type {number[]} */ [from, to], /** @type {number[]} */ [otherFrom, otherTo]) {
  return Math.min(to, otherTo) - Math.max(from, otherFrom);
}

function span(corners, axis) {
  const at = corners.map((corner) => corner[axis]);
  return [Math.min(...at), Math.max(...at)];
}

/** A fitting seen from above, in the axes of a wall or the ceiling. */
function box(seenOn, { face, thing }, out) {
  const part = places.fittingStretch(thing);
  if (places.overhead(face)) return places.outlineOf(part);
  const corners = [[part.xFrom, 0], [part.xTo, 0], [part.xTo, out], [part.xFrom, out]];
  if (seenOn.id === face.id) return corners;
  return corners.map((corner) => placeOn(seenOn, face, corner).map((at) => Math.round(at * 1e6) / 1e6));
}

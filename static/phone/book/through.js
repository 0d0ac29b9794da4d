/** What goes right through a wall: its other side, how thick it is, what comes out there. Mirrors fieldbook/findings/through.py. */

import { PIERCING } from "./acts.js";
import { isThere } from "./ages.js";
import { need } from "./asking.js";
import { known, placeOf } from "./places.js";
import { stands } from "./site.js";
import { levelOf } from "./walls.js";

// Half a brick; and what less than that which is entered of a wall is not all of it: common practice, no source.
const [THINNEST_MM, WHOLE_MM] = [100, 60];
const AT_ONE_PLACE_MM = 5; // what setting out on uneven old walls can be trusted to; common practice, no source
export const THROUGH_HOLES = ["bolt", "machine screw"];

/**
 * The face on the other side of a wall, whichever of the two names the other; null where none does.
 * x there is `x` less x here, z there is `z` more than here; `x` is null where it is not entered, on the face `said`.
 * @returns {{face: any, said: any, x: number|null, z: number}|null}
 */
export function otherSide(site, face) {
  const there = site.get(face.values.behind);
  if (there?.kind === "face" && there.id !== face.id) {
    const { behind_x_mm: x, behind_z_mm: z } = face.values;
    return { face: there, said: face, x: x ?? null, z: z ?? levelOf(there, face) };
  }
  const one = site.all("face").find(({ id, values }) => values.behind === face.id && id !== face.id);
  if (!one) return null;
  const { behind_x_mm: x, behind_z_mm: z } = one.values;
  return { face: one, said: one, x: x ?? null, z: known(z) ? -z : levelOf(one, face) };
}

/** How thick a wall is, mm: as entered on either side, else all its layers; null where neither side says it. */
export function thicknessOf(site, face) {
  const sides = [face, otherSide(site, face)?.face].filter(Boolean);
  const said = sides.map(({ values }) => values.wall_mm).filter(known);
  return said.length ? Math.min(...said) : (sides.map(layersOf).find(known) ?? null);
}

function layersOf({ values }) {
  const layers = (values.layers ?? []).map(([, thickness]) => thickness);
  const whole = layers.every(known) ? layers.reduce((sum, one) => sum + one, 0) : 0;
  return whole >= WHOLE_MM ? whole : null;
}

/**
 * The face on which a hole that is to go so deep comes out behind; undefined where it does not, null where none is entered.
 * @returns {any}
 */
export function farSide({ site, face, depth }) {
  const thick = thicknessOf(site, face);
  if (depth === null || thick === null || depth < thick) return undefined;
  return otherSide(site, face)?.face ?? null;
}

/** Whether a fixing goes through all of a wall. Asks how deep it goes, or how thick that is, where it may. */
export function comesOut(asked, fixing) {
  const { fabric, hole, sort, penetration_mm: goes, length_mm: length, face: on } = fixing.values;
  if (fabric === "another fitting" || (hole === "none" && !PIERCING.includes(sort))) return false;
  const face = asked.site.get(on);
  const thick = thicknessOf(asked.site, face);
  const least = thick ?? THINNEST_MM;
  if (!known(goes) && longestOf(sort, length, least) < least) return false;
  const deep = need(asked, fixing, "penetration_mm");
  if (deep < least || endsInTimber(asked.site, face, placeOf(fixing), deep)) return false;
  return thick !== null || deep >= need(asked, face, "wall_mm");
}

/** How deep a fixing of unknown depth may go: as long as it is, and only what is drawn up with a nut right through. */
function longestOf(sort, length, thick) {
  if (known(length)) return length;
  return THROUGH_HOLES.includes(sort) ? thick : Math.min(thick, THINNEST_MM - 1);
}

/** The bolts of the other side that are entered where one comes out, and so are the same. */
export function sameAs(site, fixing) {
  const { sort, hole, face, diameter_mm: wide } = fixing.values;
  const other = THROUGH_HOLES.includes(sort) && hole !== "none" ? otherSide(site, site.get(face)) : null;
  if (!other || other.x === null) return [];
  const [x, z] = placeOf(fixing);
  const isAt = (one) => {
    const [oneX, oneZ] = placeOf(one);
    const play = Math.max(AT_ONE_PLACE_MM, ((one.values.diameter_mm ?? 0) + (wide ?? 0)) / 2);
    return Math.hypot(oneX - (other.x - x), oneZ - (z + other.z)) <= play;
  };
  const through = ({ values }) => THROUGH_HOLES.includes(values.sort) && values.hole !== "none" && values.fabric !== "another fitting";
  const there = site.all("fixing").filter((one) => one.values.face === other.face.id && stands(one));
  return there.filter((one) => through(one) && isAt(one));
}

function endsInTimber(site, face, at, deep) {
  const there = site.of(face, "member").filter((one) => isThere(one, at));
  return there.some(({ values }) => deep < (values.behind_mm ?? 0) + (values.thickness_mm ?? 0));
}

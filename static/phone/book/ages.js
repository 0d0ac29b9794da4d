/** Whether what is met at a place of a face is old fabric or later work. Mirrors fieldbook/findings/ages.py. */

import { PIERCING } from "./acts.js";
import { NotEntered, need } from "./asking.js";
import { placeOf } from "./places.js";

const [OLD, LATER] = ["old", "later"];
const ANY_DEPTH_MM = 100; // a hole of any depth is taken to go so deep: common practice, no source
export const NO_AGE = "Whether all that it meets there is old or later is not entered.";

/**
 * Old where anything met down to a depth is old, later where all of it is, "" where that is not entered.
 * @param {number|null} depth  mm; 0: the surface; null: through everything
 * @param {number} radius  mm, of what touches it there
 */
export function fabricAt(site, face, at, depth = 0, radius = 0) {
  const ages = metAt(site, face, at, depth, radius).map(([, age]) => age);
  if (ages.includes(OLD)) return OLD;
  return ages.length && ages.every((age) => age === LATER) ? LATER : "";
}

/** Whether a fixing is said to go into later work where what it meets is entered as old. @throws where that turns on an entry */
export function saidLaterYetOld(asked, fixing) {
  const { fabric, hole, sort, contact_radius_mm: radius } = fixing.values;
  if (fabric !== "later work") return false;
  const [face, at] = [asked.site.get(fixing.values.face), placeOf(fixing)];
  const isOld = (depth) => fabricAt(asked.site, face, at, depth, radius) === OLD;
  if (isOld(0)) return true;
  if (hole === "none" && !PIERCING.includes(sort)) return false;
  let depth = fixing.values.penetration_mm ?? null;
  const unsure = isOld(null) || (face.values.layers?.length && deeper(asked.site, face, at, null));
  if (depth === null && unsure) depth = need(asked, fixing, "penetration_mm");
  const met = metAt(asked.site, face, at, depth, radius);
  return met.some(([, age]) => age === OLD) || met.some(([thing, age]) => isOldThere(asked, thing, age));
}

function isOldThere(asked, thing, age) {
  if (age !== null || thing.kind !== "face") return (age ?? need(asked, thing, "age")) === OLD;
  if (thing.values.layers?.length) throw new NotEntered({ item: thing, field: "layers" }, { why: NO_AGE });
  return false;
}

/** The first of what is met down to a depth of which nobody entered whether it is old: a board, or the face. */
export function ofNoAge(site, face, at, depth = 0, radius = 0) {
  return metAt(site, face, at, depth, radius).find(([, age]) => age === null)?.[0] ?? face;
}

function metAt(site, face, at, depth, radius) {
  const boards = site.of(face, "member").filter((one) => isThere(one, at, radius));
  const surface = boards.filter(({ values }) => values.behind_mm === 0);
  const met = boards.filter((one) => surface.includes(one) || depth === null || depth > (one.values.behind_mm ?? 0));
  const ages = met.map((one) => [one, one.values.age ?? null]);
  const whole = surface.filter((one) => isThere(one, at, -radius));
  if (whole.length && depth !== null && whole.every(({ values }) => depth <= (values.thickness_mm ?? 0))) return ages;
  let front = 0;
  for (const [place, [, thickness, age]] of (face.values.layers ?? []).entries()) {
    if (place === 0 || depth === null || front < depth) ages.push([face, age ?? null]);
    front += thickness ?? 0; // where it is not entered, what lies behind may be met
  }
  return face.values.layers?.length && !deeper(site, face, at, depth) ? ages : [...ages, [face, null]];
}

/** Whether a depth is beyond all that is entered there; a layer of no known thickness goes on for ever. */
function deeper(site, face, at, depth) {
  return (depth ?? ANY_DEPTH_MM) > knownTo(site, face, at);
}

/** How deep it is entered what a face is made of at a place, mm: its layers, and boards and timbers behind them. */
export function knownTo(site, face, at) {
  let deep = (face.values.layers ?? []).reduce((sum, [, thickness]) => sum + (thickness ?? Infinity), 0);
  const behind = ({ values }) => values.behind_mm ?? 0;
  const boards = site.of(face, "member").filter((one) => isThere(one, at));
  for (const board of boards.sort((one, other) => behind(one) - behind(other) || (one.id < other.id ? -1 : 1))) {
    if (behind(board) <= deep) deep = Math.max(deep, behind(board) + (board.values.thickness_mm ?? 0));
  }
  return deep;
}

/** Whether a board or timber lies at a place, or touches a round footprint there; below 0: holds all of it. */
export function isThere({ values }, [x, z], radius = 0) {
  const { x_mm: left, z_mm: low, width_mm: width, height_mm: height } = values;
  const [beside, above] = [Math.max(left - x, x - left - width), Math.max(low - z, z - low - height)];
  return (Math.min(beside, above) > 0 ? Math.hypot(beside, above) : Math.max(beside, above)) <= radius;
}

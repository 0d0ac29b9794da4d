/** Whether what is met at a place of a face is old fabric or later work. Mirrors fieldbook/findings/ages.py. */

import { PIERCING } from "./acts.js";
import { NotEntered, need } from "./asking.js";
import { placeOf } from "./places.js";

const [OLD, LATER] = ["old", "later"];
const NO_AGE = "Whether all that it meets there is old or later is not entered.";

/**
 * Old where anything met down to a depth is old, later where all of it is, "" where that is not entered.
 * @param {number|null} depth  mm; 0: the surface; null: through everything
 */
export function fabricAt(site, face, at, depth = 0) {
  const ages = metAt(site, face, at, depth).map(([, age]) => age);
  if (ages.includes(OLD)) return OLD;
  return ages.length && ages.every((age) => age === LATER) ? LATER : "";
}

/** Whether a fixing is said to go into later work where what it meets is entered as old. @throws where that turns on an entry */
export function saidLaterYetOld(asked, fixing) {
  const { fabric, hole, sort } = fixing.values;
  if (fabric !== "later work") return false;
  const [face, at] = [asked.site.get(fixing.values.face), placeOf(fixing)];
  const isOld = (depth) => fabricAt(asked.site, face, at, depth) === OLD;
  if (isOld(0)) return true;
  if (hole === "none" && !PIERCING.includes(sort)) return false;
  let depth = fixing.values.penetration_mm ?? null;
  if (depth === null && isOld(null)) depth = need(asked, fixing, "penetration_mm");
  const met = metAt(asked.site, face, at, depth);
  return met.some(([, age]) => age === OLD) || met.some(([thing, age]) => isOldThere(asked, thing, age));
}

function isOldThere(asked, thing, age) {
  if (age !== null || thing.kind !== "face") return (age ?? need(asked, thing, "age")) === OLD;
  if (thing.values.layers?.length) throw new NotEntered({ item: thing, field: "layers" }, { why: NO_AGE });
  return false;
}

/** The first of what is met down to a depth of which nobody entered whether it is old: a board, or the face. */
export function ofNoAge(site, face, at, depth = 0) {
  return metAt(site, face, at, depth).find(([, age]) => age === null)?.[0] ?? face;
}

function metAt(site, face, at, depth) {
  const boards = site.of(face, "member").filter((one) => isThere(one, at));
  const surface = boards.filter(({ values }) => values.behind_mm === 0);
  const met = boards.filter((one) => surface.includes(one) || depth === null || depth > (one.values.behind_mm ?? 0));
  const ages = met.map((one) => [one, one.values.age ?? null]);
  if (surface.length && depth !== null && surface.every(({ values }) => depth <= (values.thickness_mm ?? 0))) return ages;
  let front = 0;
  for (const [place, [, thickness, age]] of (face.values.layers ?? []).entries()) {
    if (place === 0 || depth === null || front < depth) ages.push([face, age ?? null]);
    front += thickness ?? 0; // where it is not entered, what lies behind may be met
  }
  return face.values.layers?.length ? ages : [...ages, [face, null]];
}

/** Whether a board or timber lies at a place. */
export function isThere({ values }, [x, z]) {
  const { x_mm: left, z_mm: low, width_mm: width, height_mm: height } = values;
  return left <= x && x <= left + width && low <= z && z <= low + height;
}

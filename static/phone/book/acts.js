/** What a thing does to the fabric, in the words a zone forbids it with. Mirrors fieldbook/findings/acts.py. */

import { need } from "./asking.js";

export const PIERCING = ["wood screw", "coach screw", "nail"];
export const GIVEN = ["heat", "light"];
const unknown = (value) => value === null || value === undefined;

/** Whether a fixing only joins two fittings and touches no fabric; asks which where nobody said what it joins. */
export function joinsOurs(asked, fixing) {
  if (fixing.values.fabric !== "another fitting") return false;
  const fitting = asked.site.get(fixing.values.fitting);
  if (!fitting || unknown(fitting.values.hangs_on)) need(asked, fixing, "other_fitting");
  return true;
}

/**
 * What a fixing does to the face it stands on, with the empty field it rests on; none where it only joins two fittings.
 * @returns {[string, object|null][]}
 */
export function fixingActs(site, fixing) {
  const { fabric, sort, adhesive } = fixing.values;
  if (fabric === "another fitting") return [];
  /** @type {[string, object][]} */
  const acts = [["contact", null], ["load", null]];
  if (makesHole(site, fixing)) acts.push(["drilling", null]);
  else if (mayDeepen(site, fixing)) acts.push(["drilling", { item: fixing, field: "penetration_mm" }]);
  if (sort === "adhesive pad" || adhesive) acts.push(["adhesive", null]);
  else if (unknown(adhesive)) acts.push(["adhesive", { item: fixing, field: "adhesive" }]);
  const fitting = site.get(fixing.values.fitting);
  return fitting ? [...acts, ...given(fitting, ["heat"])] : acts;
}

/** What a fitting does to the face by itself, beyond its fixings. */
export function fittingActs(fitting) {
  const touches = fitting.values.touches_face;
  const blank = unknown(touches) ? { item: fitting, field: "touches_face" } : null;
  const touching = blank || touches ? [["contact", blank], ["load", blank]] : [];
  return [...touching, ...given(fitting, ["heat", "light"])];
}

/** Whether a fixing goes where no hole is yet: a new one, one made deeper, or a point driven in without one. */
export function makesHole(site, fixing) {
  const { values } = fixing;
  if (values.fabric === "another fitting") return false;
  if (values.hole !== "existing") return values.hole === "new" || PIERCING.includes(values.sort);
  const deep = depthThere(site, fixing);
  return deep !== null && !unknown(values.penetration_mm) && values.penetration_mm > deep;
}

/** Whether a hole that is there already may be made deeper: how deep the fixing goes is not entered. */
export function mayDeepen(site, fixing) {
  const { fabric, hole, penetration_mm: deep } = fixing.values;
  return hole === "existing" && fabric !== "another fitting" && unknown(deep) && depthThere(site, fixing) !== null;
}

/** How deep the hole is that a fixing uses again, mm; null where that is not entered. */
export function depthThere(site, { values }) {
  const hold = site.get(values.hold);
  return hold?.kind === "hold" ? (hold.values.depth_mm ?? null) : null;
}

/** What a fitting gives off: what gives light warms as well. */
export function givenOff({ values }) {
  const gives = values.gives ?? [];
  return GIVEN.filter((act) => gives.includes(act) || (act === "heat" && gives.includes("light")));
}

function given(fitting, asked) {
  if (unknown(fitting.values.gives)) return asked.map((act) => [act, { item: fitting, field: "gives" }]);
  return givenOff(fitting).filter((act) => asked.includes(act)).map((act) => [act, null]);
}

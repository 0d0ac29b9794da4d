/** Where items are on their face, as the checks take it: the other half of fieldbook/findings/geometry.py. Lengths in mm. */

import { stretch, widened } from "../../checks/clearance.js";
import { Refusal, figure } from "../../checks/refusal.js";
import { leaf } from "../../checks/sweep.js";

// A wall that leans no farther is out of plumb, and z on it is a height: common practice, no source.
const UPRIGHT_DEG = 1;

/** The whole of a face. */
export function faceStretch({ values }) {
  const [left, bottom] = [values.left_mm ?? 0, values.bottom_mm ?? 0];
  return stretch(left, left + values.width_mm, bottom, bottom + values.height_mm);
}

/** The part of its face a fitting covers. */
export function fittingStretch({ values }) {
  const { x_mm: x, z_mm: z } = values;
  return stretch(x, x + values.width_mm, z, z + values.height_mm);
}

/** The part of its face a fixing touches. */
export function fixingStretch(fixing) {
  const [x, z] = placeOf(fixing);
  return widened(stretch(x, x, z, z), fixing.values.contact_radius_mm);
}

/** A stretch as an outline. */
export function outlineOf({ xFrom, xTo, zFrom, zTo }) {
  return [[xFrom, zFrom], [xTo, zFrom], [xTo, zTo], [xFrom, zTo]];
}

/** Where a fixing is: as fitted when that was measured, else as planned. */
export function placeOf({ values }) {
  const fitted = known(values.fitted_x_mm) && known(values.fitted_z_mm);
  return fitted ? [values.fitted_x_mm, values.fitted_z_mm] : [values.x_mm, values.z_mm];
}

/** How far a fixing lies from its plan; null where its place as fitted was not measured. */
export function deviationOf({ values }) {
  if (!known(values.fitted_x_mm) || !known(values.fitted_z_mm)) return null;
  return Math.hypot(values.fitted_x_mm - values.x_mm, values.fitted_z_mm - values.z_mm);
}

/** How far a fitting stands out at worst, its layers with all their tolerances; null where none is entered. */
export function projectionOf({ values }) {
  if (!values.build_up?.length) return null;
  return values.build_up.reduce((sum, [, thickness, tolerance]) => sum + thickness + (tolerance ?? 0), 0);
}

/** The floor's profile in front of a face, sorted; its lower edge where none was surveyed. */
export function floorOf({ values }) {
  const points = [...(values.floor ?? [])].sort(([x0, z0], [x1, z1]) => x0 - x1 || z0 - z1);
  return points.length ? points : [[values.left_mm ?? 0, values.bottom_mm ?? 0]];
}

/** How a sentence calls a limit. */
export function limitName({ values }) {
  return values.mark ? `${values.mark} (${values.name})` : values.name;
}

/**
 * A clearance limit as the check takes it. A leaf limits wherever its sweep passes: of its band only the heights count.
 * What must be seen leaves nothing in front of it, nor within its margin beside it.
 * @param {import("./site.js").Item} limit
 * @param {import("./site.js").Item} face
 * @param {number|null} above  mm, how high a ceiling or soffit is above the floor
 * @returns {import("../../checks/clearance.js").Limit}
 * @throws {Refusal} what makes no leaf
 */
export function limitValue(limit, face, above = null) {
  const { values } = limit;
  const across = values.sort === "leaf" ? [null, null] : [values.x_from_mm, values.x_to_mm];
  const band = stretch(...[...across, values.z_from_mm, values.z_to_mm].map((end) => end ?? undefined));
  const value = { id: limit.id, name: limitName(limit), band, margin: values.margin_mm, leaf: null, projection: values.projection_mm ?? null, below: [] };
  if (values.sort === "leaf") {
    const hinge = [values.hinge_x_mm, values.hinge_y_mm];
    const swung = leaf(hinge, values.swing_from_deg, values.swing_to_deg, values.boxes);
    return { ...value, leaf: swung, projection: null };
  }
  if (values.sort === "keep in view") return { ...value, band: widened(band, values.margin_mm), margin: 0, projection: 0 };
  if (values.sort === "route") return { ...value, projection: values.available_mm - values.clear_width_mm };
  if (values.sort !== "headroom") return value;
  if (overhead(face)) return { ...value, projection: above === null ? null : above - values.headroom_mm };
  if (!isUpright(face)) return { ...value, margin: 0 }; // at every z, which is no height; its margin is one of height
  return { ...value, below: floorOf(face).map(([x, z]) => [x, z + values.headroom_mm]) };
}

/** Whether z on a face is a height for certain. */
export function isUpright({ values }) {
  return known(values.slope_deg) ? Math.abs(values.slope_deg) <= UPRIGHT_DEG : values.sort !== "other";
}

/** Say why a face that leans, or of which nobody said how it leans, has no heights. @throws {Refusal} */
export function refuseHeights({ values }, what) {
  const { slope_deg: slope } = values;
  const called = values.mark || values.name;
  if (!known(slope)) {
    const reason = `How far ${called} leans over is not entered, and ${what} is worked out from heights.`;
    throw new Refusal("missing", reason, "Measure its slope.", { field: "slope_deg" });
  }
  const reason = `${called} leans over by ${figure(slope)}°, where z is no height, and ${what} is worked out from heights.`;
  throw new Refusal("out-of-range", reason, "Measure it on the spot, and have it decided there.", { field: "slope_deg", value: slope });
}

/** Whether what stands on a face hangs over the floor. */
export function overhead({ values }) {
  return values.sort === "ceiling" || values.sort === "soffit";
}

/** How high a ceiling or soffit is above the floor, mm; a ceiling's height may be entered with its room. */
export function aboveFloor(site, { values }) {
  if (!known(values.above_floor_mm) && values.sort === "ceiling") return site.get(values.room)?.values.ceiling_mm ?? null;
  return values.above_floor_mm ?? null;
}

export function known(value) {
  return value !== null && value !== undefined;
}

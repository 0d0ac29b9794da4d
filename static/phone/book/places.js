/** Where items are on their face, as the checks take it: the other half of fieldbook/findings/geometry.py. Lengths in mm. */

import { stretch, widened } from "../../checks/clearance.js";
import { leaf } from "../../checks/sweep.js";

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
 * A clearance limit as the check takes it.
 * @returns {import("../../checks/clearance.js").Limit}
 * @throws {Refusal} what makes no leaf
 */
export function limitValue(limit, face) {
  const { values } = limit;
  const ends = [values.x_from_mm, values.x_to_mm, values.z_from_mm, values.z_to_mm].map((end) => end ?? undefined);
  const value = { id: limit.id, name: limitName(limit), band: stretch(...ends), margin: values.margin_mm, leaf: null, projection: values.projection_mm ?? null, below: [] };
  if (values.sort === "leaf") {
    const hinge = [values.hinge_x_mm, values.hinge_y_mm];
    value.leaf = leaf(hinge, values.swing_from_deg, values.swing_to_deg, values.boxes);
  } else if (values.sort === "route") {
    value.projection = values.available_mm - values.clear_width_mm;
  } else if (values.sort === "headroom") {
    value.below = floorOf(face).map(([x, z]) => [x, z + values.headroom_mm]);
  }
  return value;
}

/** All clearance limits of a face as the check takes them. */
export function limitsOf(site, face) {
  return site.of(face, "limit").map((limit) => limitValue(limit, face));
}

export function known(value) {
  return value !== null && value !== undefined;
}

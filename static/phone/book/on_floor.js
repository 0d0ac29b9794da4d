/** Zones on a floor, as what stands there sees them. Mirrors fieldbook/findings/on_floor.py. */

import { highest } from "../../checks/clearance.js";
import { CLOSE_MM, areaDistance } from "../../checks/keep_off.js";
import * as places from "./places.js";
import { hungOn } from "./reach.js";
import { calledOf, stands } from "./site.js";
import { isWall, others, placeOn, placed } from "./walls.js";
import { rounded } from "./zones_across.js";

const NEAR_FLOOR_MM = 100; // what reaches so near to the floor may stand on it: common practice, no source
const BEARS = ["contact", "load"];
const HANGS = "its fixings";
export const DRAWN = "Of what its floor hides or is laid with only what is drawn below the foot of a wall is known.";

/** Whether a fitting stands on the floor, or may, for nobody entered what holds it up. */
export function mayStand(site, fitting) {
  const { support, face: on } = fitting.values;
  if (places.known(support)) return support !== HANGS;
  const [face, part] = [site.get(on), places.fittingStretch(fitting)];
  if (places.overhead(face) || hungOn(site, fitting).some(stands)) return false;
  return part.zFrom - highest(places.floorOf(face), part.xFrom, part.xTo) <= NEAR_FLOOR_MM;
}

/** The zones of its room's walls at their foot, and below it, that its base is struck by or nearly, each with an act. */
export function atFoot({ registry, site }, fitting, moves) {
  const face = site.get(fitting.values.face);
  if (!isWall(face) || !mayStand(site, fitting)) return [];
  const walls = [face, ...(placed(face) ? others(site, face).filter(placed) : [])];
  return walls.flatMap((wall) => site.of(wall, "zone").flatMap((zone) => held(registry, { face, wall, fitting, moves }, zone)));
}

/** A base of unknown depth counts where the least there can be of it is struck, and else is asked for. */
function held(registry, where, zone) {
  const act = BEARS.find((one) => zone.values.forbids.includes(one));
  const { values } = where.fitting;
  const unsure = places.known(values.support) ? [] : [{ item: where.fitting, field: "support" }];
  const { low, high } = registry.kinds.get("fitting").byName.get("base_mm");
  const asked = [{ item: where.fitting, field: "base_mm" }];
  const sizes = places.known(values.base_mm) ? [{ deep: values.base_mm, blank: [] }] : [{ deep: low, blank: [] }, { deep: high, blank: asked }];
  for (const { deep, blank } of act ? sizes : []) {
    const base = baseOf(where, deep);
    if (!base) return [];
    const distance = areaDistance(zone.values.outline, base);
    const enough = !blank.length && sizes.length > 1 ? 0 : CLOSE_MM;
    if (distance - zone.values.margin_mm >= enough) continue;
    const there = { ...zone, values: { ...zone.values, mark: `${calledOf(registry, zone)} at the foot of ${calledOf(registry, where.wall)}` } };
    return [{ zone: there, act, distance, missing: [...unsure, ...blank] }];
  }
  return [];
}

/** Where a base stands on the floor, in the axes of a wall: as far below its foot as it is out from it; null behind it. */
function baseOf({ face, wall, fitting, moves }, deep) {
  const { width_mm: whole, base_width_mm: own, base_out_mm: out } = fitting.values;
  const [part, back] = [places.fittingStretch(fitting), out ?? 0];
  const [middle, half] = [(part.xFrom + part.xTo) / 2, Math.min(own ?? whole, whole) / 2 + moves];
  const [left, right, front] = [middle - half, middle + half, back + deep];
  const corners = /** @type {[number, number][]} */ ([[left, back], [right, back], [right, front], [left, front]]);
  const seen = wall.id === face.id ? corners : corners.map((at) => placeOn(wall, face, at));
  if (Math.max(...seen.map(([, far]) => far)) < 0) return null;
  const xs = seen.map(([x]) => x);
  const foot = highest(places.floorOf(wall), Math.min(...xs), Math.max(...xs));
  return seen.map(([x, far]) => [rounded(x), rounded(foot - Math.max(far, 0))]);
}

/**
 * Ways between two walls: what stands out on one side leaves its width to what stands out on the other.
 * Mirrors fieldbook/findings/ways.py.
 */

import { clearDepth, meets, stretch, widened } from "../../checks/clearance.js";
import { FARTHEST_MM, leaf } from "../../checks/sweep.js";
import { blankInWords } from "./looked.js";
import * as places from "./places.js";
import { reachOf } from "./reach.js";
import { calledOf, stands } from "./site.js";
import { facing, isWall, lacking, levelOf, nameOf, others, placeOn, placed, turned, where } from "./walls.js";

const EDGE_MM = 1e-3; // the breadth of a leaf that sweeps round a corner
const FAR_MM = FARTHEST_MM / 4;

/** What things across each way of a room leave of it before a wall, as far as they stand out for certain. */
export function limitsAcross(registry, site, face) {
  return thingsAcross(registry, site, face).flatMap((one) => leftOf(registry, one, one.reach.low));
}

/** What may stand across a way from a part of a wall, with what would tell; null where nothing may. */
export function untoldAcross(registry, site, face, part, out) {
  for (const one of thingsAcross(registry, site, face)) {
    if (one.reach.high <= one.reach.low) continue;
    const { depth } = clearDepth(leftOf(registry, one, one.reach.high), part);
    if (!one.reach.missing.length || depth === null || out <= depth) continue;
    const names = one.reach.missing.map((blank) => blankInWords(registry, blank)).join("; ");
    const name = `${places.limitName(one.way)} of ${nameOf(one.wall)}`;
    return { sentence: `${calledOf(registry, one.thing)} stands across ${name} from it. Not entered: ${names}.`, blanks: one.reach.missing };
  }
  return unplacedWays(registry, site, face, part, out);
}

/** Where walls do not stand in the plan, each may be across from the other. */
function unplacedWays(registry, site, face, part, out) {
  for (const { wall, way } of waysOf(site, face)) {
    const { available_mm: available, clear_width_mm: wide, margin_mm: margin } = way.values;
    if (!meets(widened(part, margin), heights(face, wall, way))) continue;
    for (const other of wall.id === face.id ? others(site, wall) : [wall]) {
      const blanks = lacking(face, other);
      const most = Math.max(0, ...thingsOn(site, wall, way, other).map((one) => reachOf(registry, site, one).high));
      if (!blanks.length || out + most <= available - wide - margin || !(most || wall.id !== face.id)) continue;
      const name = `${places.limitName(way)} of ${nameOf(wall)}`;
      return { sentence: `${name} may pass between it and another wall: ${where(blanks)}`, blanks };
    }
  }
  return null;
}

function thingsAcross(registry, site, face) {
  if (!isWall(face) || !placed(face)) return [];
  const found = [];
  for (const { wall, way } of waysOf(site, face)) {
    // What stands at a corner is asked about by what stands across from it.
    if (!placed(wall) || (face.id !== wall.id && !facing(wall, face))) continue;
    for (const other of others(site, face).filter(placed)) {
      for (const thing of thingsOn(site, wall, way, other)) {
        const one = { face, wall, way, other, thing, reach: reachOf(registry, site, thing) };
        if (isAcross(one)) found.push(one);
      }
    }
  }
  return found;
}

/** The ways along the walls of a room, each with its wall. */
function waysOf(site, face) {
  const all = isWall(face) ? [face, ...others(site, face)] : [];
  return all.flatMap((wall) => site.of(wall, "limit").filter(({ values }) => values.sort === "route").map((way) => ({ wall, way })));
}

/** What stands on a wall at the heights of a way. */
function thingsOn(site, wall, way, other) {
  const at = heights(other, wall, way);
  return site.of(other, "fitting").filter((one) => stands(one) && meets(widened(places.fittingStretch(one), way.values.margin_mm), at));
}

function heights(face, wall, way) {
  const level = levelOf(face, wall);
  return stretch(undefined, undefined, (way.values.z_from_mm ?? -Infinity) + level, (way.values.z_to_mm ?? Infinity) + level);
}

/** Whether a thing stands on the other side of a way than what stands on a face, and within its length. */
function isAcross({ face, wall, way, other, thing, reach }) {
  const [[left, right], out] = [along(thing), Math.min(reach.low, FAR_MM)];
  const corners = [[left, 0], [right, 0], [right, out], [left, out]].map((corner) => placeOn(wall, other, corner));
  const [xs, outs] = [corners.map(([x]) => x), corners.map(([, far]) => far)];
  const { x_from_mm: from, x_to_mm: to, available_mm: available, clear_width_mm: wide } = way.values;
  if (Math.max(...xs) < (from ?? -Infinity) || Math.min(...xs) > (to ?? Infinity)) return false;
  if (face.id === wall.id) return other.id !== wall.id && Math.max(...outs) > available - wide;
  return other.id === wall.id || Math.min(...outs) < wide;
}

/** From where to where on its wall a thing may be set. */
function along(thing) {
  const [part, moves] = [places.fittingStretch(thing), thing.values.moves_mm ?? 0];
  return [part.xFrom - moves, part.xTo + moves];
}

/** All that is nearer to a thing than a way is to be wide: before it, and round its corners. */
function leftOf(registry, { face, wall, way, thing, other }, reached) {
  const [[left, right], out, wide] = [along(thing), Math.min(reached, FAR_MM), way.values.clear_width_mm];
  const corner = [[0, Math.max(wide, EDGE_MM), -EDGE_MM, 0]];
  const leaves = [
    leaf([0, 0], 0, 0, [[left, right, 0, Math.max(out + wide, EDGE_MM)]]),
    leaf([left, out], 90, 180, corner),
    leaf([right, out], 0, 90, corner),
  ];
  const name = `${places.limitName(way)} of ${nameOf(wall)}, with ${calledOf(registry, thing)} across it`;
  const known = { ...places.limitValue(way, wall), name, band: heights(face, wall, way), projection: null };
  return leaves.map((one) => ({ ...known, leaf: turned(face, other, one) }));
}

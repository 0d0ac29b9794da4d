/** Zones of ceilings over the edge of a wall, and behind it through the stone. Mirrors fieldbook/findings/zones_across.py. */

import * as places from "./places.js";
import { isWall, levelOf, others, placeOn, placed } from "./walls.js";

export const CORNER_MM = 50; // two measured ends lie no farther apart where faces meet: common practice, no source
export const IN_WALL_MM = 100; // how deep services lie, and stone or plaster breaks out behind: common practice, no source
const LEVEL_DEG = 75; // so far over leans a ceiling that counts as level here: common practice, no source
const LEAST_MM = 1; // what lies less behind a face lies in its plane

/** The zones of ceilings that reach a wall, and of walls that reach a ceiling, where both stand in the plan. */
export function* overTheEdge(site, face) {
  if (!placed(face)) return;
  for (const other of site.of(site.get(face.values.room), "face")) {
    const [wall, ceiling] = places.overhead(face) ? [other, face] : [face, other];
    if (other.id === face.id || !placed(other) || !meet(site, wall, ceiling)) continue;
    const top = places.faceStretch(wall).zTo;
    for (const zone of site.of(other, "zone")) yield* unfolded(face, other, zone, top, other === ceiling);
  }
}

/** Whether a wall goes up to a level ceiling; where its height is not entered, it is taken to. */
function meet(site, wall, ceiling) {
  const { slope_deg: slope } = ceiling.values;
  const level = !places.known(slope) || slope >= LEVEL_DEG;
  if (!isWall(wall) || !places.overhead(ceiling) || !level) return false;
  const above = places.aboveFloor(site, ceiling);
  const height = places.faceStretch(wall).zTo - places.floorOf(wall)[0][1];
  return !places.known(above) || Math.abs(above - height) <= CORNER_MM;
}

function* unfolded(face, other, zone, top, overhead) {
  const { margin_mm: margin, outline: own } = zone.values;
  const seen = own.map(([x, z]) => placeOn(face, other, [x, overhead ? z : z - top]));
  const outs = seen.map(([, out]) => out);
  const reaches = overhead ? Math.min(...outs) < margin && Math.max(...outs) > -CORNER_MM : Math.max(...own.map(([, z]) => z)) + margin > top;
  const outline = seen.map(([x, z]) => [rounded(x), rounded(overhead ? top + z : z)]);
  if (reaches && near(face, outline, margin)) yield { zone, face: other, outline };
}

/** The zones of other walls that forbid drilling and lie behind the plane of a wall, as far in as services lie. */
export function* throughTheStone(site, face) {
  for (const wall of isWall(face) && placed(face) ? others(site, face) : []) {
    const zones = placed(wall) ? site.of(wall, "zone") : [];
    for (const zone of zones) if (zone.values.forbids.includes("drilling")) yield* inTheStone(face, wall, zone);
  }
}

function* inTheStone(face, wall, zone) {
  const [level, { margin_mm: margin, outline: own }] = [levelOf(face, wall), zone.values];
  const [along, up] = [own.map(([x]) => x), own.map(([, z]) => z + level)];
  const seen = (deep) => [Math.min(...along), Math.max(...along)].map((x) => placeOn(face, wall, [x, -deep]));
  const [surface, inside] = [seen(0), seen(IN_WALL_MM)];
  if (surface.every(([, out]) => out > -LEAST_MM)) return;
  const all = [...surface, ...inside];
  const behind = rounded(Math.max(0, -Math.max(...all.map(([, out]) => out))));
  const [xs, zs] = [all.map(([x]) => x), [Math.min(...up), Math.max(...up)]];
  const part = { xFrom: Math.min(...xs), xTo: Math.max(...xs), zFrom: zs[0], zTo: zs[1] };
  const outline = places.outlineOf(part).map(([x, z]) => [rounded(x), rounded(z)]);
  if (near(face, outline, margin)) yield { zone, face: wall, outline, behind };
}

/** Whether an outline comes nearer to a face than a margin. */
function near(face, outline, margin) {
  const { xFrom, xTo, zFrom, zTo } = places.faceStretch(face);
  const [xs, zs] = [outline.map(([x]) => x), outline.map(([, z]) => z)];
  const across = Math.min(...xs) - margin < xTo && Math.max(...xs) + margin > xFrom;
  return across && Math.min(...zs) - margin < zTo && Math.max(...zs) + margin > zFrom;
}

/** To a millionth of a millimetre, as the desk has it. */
export function rounded(value) {
  return Math.round(value * 1e6) / 1e6;
}

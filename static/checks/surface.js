/** How far a face stands out at worst where it was measured. Mirrors worst_proud_mm of fieldbook/checks/surface.py. */

// How far beside the readings they still stand for a place: common practice, no source.
const REACH_MM = 150;

/**
 * The proudest reading on a part of a face, or beside it on either hand.
 * @param {[number, number, number][]} readings  x, z, proud, mm
 * @param {import("./clearance.js").Stretch} part
 * @returns {number|null} mm, behind the plane negative; null where the part reaches more than 150 mm beyond the readings
 */
export function worstProud(readings, { xFrom, xTo, zFrom, zTo }) {
  if (!readings.length) return null;
  const spans = [];
  for (const [axis, low, high] of [[0, xFrom, xTo], [1, zFrom, zTo]]) {
    const places = readings.map((reading) => reading[axis]);
    const [least, most] = [Math.min(...places), Math.max(...places)];
    if (low < least - REACH_MM || high > most + REACH_MM) return null;
    const [before, after] = [places.filter((place) => place <= low), places.filter((place) => place >= high)];
    spans.push([before.length ? Math.max(...before) : least, after.length ? Math.min(...after) : most]);
  }
  const [[left, right], [bottom, top]] = spans;
  const near = readings.filter(([x, z]) => left <= x && x <= right && bottom <= z && z <= top);
  return Math.max(...(near.length ? near : readings).map(([, , proud]) => proud));
}

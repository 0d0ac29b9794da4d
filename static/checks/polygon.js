/** Plane polygons: whether an outline is simple, how far a point or another outline is from it. Plane geometry. */

/** @typedef {number[]} Point  x and z, mm */

/** Less than this is a line that was meant to be one, such as three corners in a row told to a tenth of a millimetre. */
const LEAST_AREA_MM2 = 1;

/**
 * Why an outline cannot be used; null when it can.
 * @param {Point[]} outline  in order, not closed
 * @returns {string|null}
 */
export function fault(outline) {
  const ring = withoutRepeats(outline);
  if (ring.length < 3) return "it has no area";
  for (let one = 0; one < ring.length; one += 1) {
    for (let other = one + 1; other < ring.length; other += 1) {
      if (!mayStayTogether(ring, one, other)) return "it crosses or touches itself";
    }
  }
  return area(ring) < LEAST_AREA_MM2 ? "it has no area" : null;
}

/** Whether two sides of a ring meet no more than neighbours have to: in their common corner. */
function mayStayTogether(ring, one, other) {
  const [a, b] = side(ring, one);
  const [c, d] = side(ring, other);
  const next = other === one + 1;
  const last = one === 0 && other === ring.length - 1;
  if (!next && !last) return !touch([a, b], [c, d]);
  const [shared, before, after] = next ? [b, a, d] : [a, b, c];
  const backwards = turn(before, shared, after) === 0 && dot(minus(before, shared), minus(after, shared)) > 0;
  return !backwards;
}

/**
 * Area of an outline.
 * @param {Point[]} outline
 * @returns {number} mm²
 */
function area(outline) {
  const [x, z] = outline[0];
  const moved = outline.map((corner) => [corner[0] - x, corner[1] - z]);
  return Math.abs(moved.reduce((sum, corner, at) => sum + cross(corner, moved[(at + 1) % moved.length]), 0)) / 2;
}

/**
 * Whether a point lies inside an outline or on its edge.
 * @param {Point[]} outline
 * @param {Point} point
 * @returns {boolean}
 */
export function covers(outline, point) {
  return sides(outline).some(([start, end]) => onSegment(point, start, end)) || contains(outline, point);
}

/**
 * Whether a point lies inside an outline; on its edge it may come out either way.
 * @param {Point[]} outline
 * @param {Point} point
 */
export function contains(outline, [x, z]) {
  const crossings = sides(outline).filter(([[x0, z0], [x1, z1]]) =>
    z0 > z !== z1 > z && x < x0 + ((z - z0) * (x1 - x0)) / (z1 - z0),
  );
  return crossings.length % 2 === 1;
}

/**
 * Distance of a point from the edge of an outline, and the point of the edge where it is nearest.
 * @param {Point[]} outline
 * @param {Point} point
 * @returns {{distance: number, nearest: Point}} mm
 */
export function toEdge(outline, point) {
  let best = { distance: Infinity, nearest: point };
  for (const [start, end] of sides(outline)) {
    const nearest = nearestOn(point, start, end);
    const distance = Math.hypot(point[0] - nearest[0], point[1] - nearest[1]);
    if (distance < best.distance) best = { distance, nearest };
  }
  return best;
}

/** Distance between two outlines that do not meet, mm. */
export function apart(one, other) {
  const least = (from, to) => Math.min(...from.map((corner) => toEdge(to, corner).distance));
  return Math.min(least(one, other), least(other, one));
}

/**
 * The extent of what two outlines share.
 * @returns {{width: number, height: number}|null} mm; null when they share nothing
 */
export function shared(one, other) {
  const points = [
    ...one.filter((corner) => covers(other, corner)),
    ...other.filter((corner) => covers(one, corner)),
    ...sides(one).flatMap((a) => sides(other).flatMap((b) => crossing(a, b))),
  ];
  if (!points.length) return null;
  const [xs, zs] = [points.map(([x]) => x), points.map(([, z]) => z)];
  return { width: Math.max(...xs) - Math.min(...xs), height: Math.max(...zs) - Math.min(...zs) };
}

/** Whether all of one outline lies in another: each piece of its sides does, between where those cross the other's. */
export function liesIn(inner, outer) {
  return sides(inner).every(([start, end]) => {
    const ends = sides(outer).flatMap((other) => [...crossing([start, end], other), ...other.filter((corner) => onSegment(corner, start, end))]);
    const far = (/** @type {Point} */ [x, z]) => Math.hypot(x - start[0], z - start[1]);
    const points = [start, ...ends.sort((one, other) => far(one) - far(other)), end];
    const middles = points.slice(1).map(([x, z], at) => [(x + points[at][0]) / 2, (z + points[at][1]) / 2]);
    return [start, ...middles].every((point) => covers(outer, point));
  });
}

/** The point in which two segments cross, in a list; an empty one when they do not cross or are parallel. */
function crossing([a, b], [c, d]) {
  const [along, across] = [minus(b, a), minus(d, c)];
  const scale = cross(along, across);
  if (scale === 0) return [];
  const share = cross(minus(c, a), across) / scale;
  const other = cross(minus(c, a), along) / scale;
  if (!(share >= 0 && share <= 1 && other >= 0 && other <= 1)) return [];
  return [[a[0] + along[0] * share, a[1] + along[1] * share]];
}

function touch([a, b], [c, d]) {
  if (turn(a, b, c) !== turn(a, b, d) && turn(c, d, a) !== turn(c, d, b)) return true;
  return onSegment(c, a, b) || onSegment(d, a, b) || onSegment(a, c, d) || onSegment(b, c, d);
}

function onSegment(point, start, end) {
  return turn(start, end, point) === 0 && dot(minus(start, point), minus(end, point)) <= 0;
}

/** @param {Point} point @param {Point} start @param {Point} end */
function nearestOn([x, z], [x0, z0], [x1, z1]) {
  const [dx, dz] = [x1 - x0, z1 - z0];
  const length = dx * dx + dz * dz;
  const share = length ? Math.max(0, Math.min(1, ((x - x0) * dx + (z - z0) * dz) / length)) : 0;
  return [x0 + dx * share, z0 + dz * share];
}

function sides(outline) {
  return outline.map((_, at) => side(outline, at));
}

function side(outline, at) {
  return [outline[at], outline[(at + 1) % outline.length]];
}

function withoutRepeats(outline) {
  return outline.filter((corner, at) => {
    const before = outline[(at + outline.length - 1) % outline.length];
    return corner[0] !== before[0] || corner[1] !== before[1];
  });
}

function turn(a, b, c) {
  return Math.sign(cross(minus(b, a), minus(c, a)));
}

/** @param {Point} one @param {Point} other */
function minus(one, other) {
  return [one[0] - other[0], one[1] - other[1]];
}

/** @param {Point} one @param {Point} other */
function cross(one, other) {
  return one[0] * other[1] - one[1] * other[0];
}

/** @param {Point} one @param {Point} other */
function dot(one, other) {
  return one[0] * other[0] + one[1] * other[1];
}

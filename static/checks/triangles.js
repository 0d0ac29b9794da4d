/** The triangle of Delaunay that holds a place, found without making the others. Mirrors fieldbook/checks/surface.py. */

// Four readings on one circle have two triangulations: squares are leant on so little that one of them is nearer.
const LEAN = 1e-5;
const [FLAT_MM2, LEVEL_MM2] = [1e-6, 1e-6]; // no more than arithmetic noise
const MOST_TURNS = 4;

/** @typedef {number[]} Place  x and z, mm */

/**
 * The corners round all places, by Andrew's monotone chain; the two ends where all lie on one line.
 * @param {Place[]} places  in the order of x, then z
 */
export function hull(places) {
  if (places.length < 2) return places;
  return [places, [...places].reverse()].flatMap((those) => {
    const side = [];
    for (const place of those) {
      while (side.length > 1 && twiceArea(side.at(-2), side.at(-1), place) <= FLAT_MM2) side.pop();
      side.push(place);
    }
    return side.slice(0, -1);
  });
}

function twiceArea(one, other, third) {
  return (other[0] - one[0]) * (third[1] - one[1]) - (third[0] - one[0]) * (other[1] - one[1]);
}

/** The place itself where it lies inside, else the nearest on the way round. */
export function nearestOn(corners, place) {
  const pairs = corners.map((corner, at) => [corner, corners[(at + 1) % corners.length]]);
  if (corners.length > 2 && pairs.every(([one, other]) => twiceArea(one, other, place) >= 0)) return place;
  let [nearest, least] = [corners[0], Infinity];
  for (const [[x, z], [endX, endZ]] of pairs) {
    const [alongX, alongZ] = [endX - x, endZ - z];
    const length = alongX * alongX + alongZ * alongZ;
    const share = length ? ((place[0] - x) * alongX + (place[1] - z) * alongZ) / length : 0;
    const kept = Math.min(Math.max(share, 0), 1);
    const on = [x + kept * alongX, z + kept * alongZ];
    const far = squared(place, on);
    if (far < least) [nearest, least] = [on, far];
  }
  return nearest;
}

/** The triangle of Delaunay that holds a place: no reading lies below the plane of its corners, each raised as `height` has it. */
export function triangleAt(measured, corners, place) {
  const lifted = new Map(measured.map((one) => [one, height(one, place)]));
  const [first, ...rest] = corners;
  /** @type {[Place[], number[]]} */
  let found = holding(rest.slice(1).map((other, at) => [first, rest[at], other]), place);
  for (let turn = 0; turn < measured.length * MOST_TURNS; turn += 1) {
    const [one, other, third] = found[0];
    let [lowest, most] = [null, -LEVEL_MM2];
    for (const each of measured) {
      const [a, b, c] = shares(found[0], each);
      const below = lifted.get(each) - (a * lifted.get(one) + b * lifted.get(other) + c * lifted.get(third));
      if (below < most) [lowest, most] = [each, below];
    }
    if (!lowest) break;
    found = holding([[lowest, other, third], [one, lowest, third], [one, other, lowest]], place);
  }
  return found;
}

function height(one, place) {
  const [x, z] = [one[0] - place[0], one[1] - place[1]];
  return x * x + z * z + LEAN * x * z;
}

/**
 * The triangle a place lies deepest in, the first of those alike, and how much of each corner is in the place.
 * @returns {[Place[], number[]]}
 */
function holding(triangles, place) {
  let [found, deepest, least] = [[], [0, 0, 0], -Infinity];
  for (const triangle of triangles) {
    if (Math.abs(twiceArea(triangle[0], triangle[1], triangle[2])) <= FLAT_MM2) continue;
    const parts = shares(triangle, place);
    if (Math.min(...parts) > least) [found, deepest, least] = [triangle, parts, Math.min(...parts)];
  }
  return [found, deepest];
}

function shares(/** @type {Place[]} */ [one, other, third], place) {
  const area = twiceArea(one, other, third);
  const [first, second] = [twiceArea(place, other, third) / area, twiceArea(one, place, third) / area];
  return [first, second, 1 - first - second];
}

/** How far one place is from another, squared. */
export function squared(one, other) {
  const [x, z] = [other[0] - one[0], other[1] - one[1]];
  return x * x + z * z;
}

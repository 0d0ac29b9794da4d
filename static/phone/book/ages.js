/** Whether what is met at a place of a face is old fabric or later work. Mirrors fieldbook/findings/ages.py. */

const [OLD, LATER] = ["old", "later"];

/**
 * Old where anything met down to a depth is old, later where all of it is, "" where that is not entered.
 * @param {number|null} depth  mm; 0: the surface; null: through everything
 */
export function fabricAt(site, face, at, depth = 0) {
  const ages = agesAt(site, face, at, depth);
  if (ages.includes(OLD)) return OLD;
  return ages.length && ages.every((age) => age === LATER) ? LATER : "";
}

function agesAt(site, face, at, depth) {
  const boards = site.of(face, "member").filter((one) => covers(one, at));
  const surface = boards.filter(({ values }) => values.behind_mm === 0);
  const met = boards.filter((one) => surface.includes(one) || depth === null || depth > (one.values.behind_mm ?? 0));
  const ages = met.map(({ values }) => values.age ?? null);
  if (surface.length && depth !== null && surface.every(({ values }) => depth <= (values.thickness_mm ?? 0))) return ages;
  let front = 0;
  for (const [place, [, thickness, age]] of (face.values.layers ?? []).entries()) {
    if (place === 0 || depth === null || front < depth) ages.push(age ?? null);
    front += thickness ?? 0; // where it is not entered, what lies behind may be met
  }
  return face.values.layers?.length ? ages : [...ages, null];
}

function covers({ values }, [x, z]) {
  const { x_mm: left, z_mm: low, width_mm: width, height_mm: height } = values;
  return left <= x && x <= left + width && low <= z && z <= low + height;
}

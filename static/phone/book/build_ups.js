/** Layers described once under a name, taken by it: mirrors fieldbook/book/build_ups.py. */

/** Field of a build-up, and of what takes it over -> kind of that. @type {Record<string, string>} */
const TAKEN_BY = { layers: "face", build_up: "fitting" };

/**
 * Name -> layers of the build-ups that this field of a kind can take.
 * @param {{all: (kind: string) => {values: Record<string, any>}[]}} site
 * @param {string} kind
 * @param {string} field
 * @returns {Map<string, any[][]>}
 */
export function byName(site, kind, field) {
  const there = TAKEN_BY[field] === kind ? site.all("build_up").filter(({ values }) => values[field]?.length) : [];
  return new Map(there.map(({ values }) => [values.name, values[field]]));
}

/**
 * What a text names, in small or large letters; undefined where it names none.
 * @template T
 * @param {Map<string, T>} named
 * @param {string} text
 * @returns {T|undefined}
 */
export function called(named, text) {
  return [...named].find(([name]) => name.toLowerCase() === text.trim().toLowerCase())?.[1];
}

/** What a thing was like when somebody agreed to it, from the entries about both. Mirrors fieldbook/book/agreed.py. */

// The fields of an agreement that say what was decided; with them it is decided anew.
const RULING = ["items", "answer", "on", "question", "acts", "outline", "depth_mm", "holes", "trace", "until"];

/**
 * The fields of a thing in the state that was agreed to; null where it was not there yet. That state is what whoever
 * agreed had seen: all up to the base of their entry, and what their own device had entered since.
 * @param {any} ruling  the agreement as it is
 * @param {any[]} said  the entries about it, and
 * @param {any[]} done  those about the thing, each with a revision, in that order
 * @returns {Record<string, any>|null}
 */
export function agreedState(ruling, said, done) {
  const decided = said.filter(({ set }) => Object.keys(set ?? {}).some((name) => RULING.includes(name))).at(-1);
  const { agreed_revision: named } = ruling.values;
  const { base: seen, revision, device } = Number.isInteger(named) ? { base: named } : (decided ?? { base: 0 });
  const knew = (entry) => entry.revision <= seen || (entry.device === device && entry.revision <= revision);
  const values = Object.assign({}, ...done.filter(knew).map(({ set }) => set));
  return Object.keys(values).length ? values : null;
}

/** What a thing was like when somebody agreed to it, from the entries about both. Mirrors fieldbook/book/agreed.py. */

// The fields of an agreement that say what was decided; with them it is decided anew.
const RULING = ["items", "answer", "on", "question", "acts", "outline", "depth_mm", "holes", "trace", "until"];

/**
 * The fields of a thing in the state that was agreed to; null where it was not there yet.
 * @param {any} ruling  the agreement as it is
 * @param {any[]} said  the entries about it, and
 * @param {any[]} done  those about the thing, each with a revision, in that order
 * @returns {Record<string, any>|null}
 */
export function agreedState(ruling, said, done) {
  const decided = said.filter(({ set }) => Object.keys(set ?? {}).some((name) => RULING.includes(name)));
  const revision = ruling.values.agreed_revision ?? decided.at(-1)?.revision ?? 0;
  const values = Object.assign({}, ...done.filter((entry) => entry.revision <= revision).map(({ set }) => set));
  return Object.keys(values).length ? values : null;
}

/** What only a newer version knows: while a book holds such, nothing in it is called fine. Mirrors fieldbook/findings/beyond.py. */

import { Refusal } from "../../checks/refusal.js";

const CAPPED = ["close", "within", "agreed"];
const FINE_HERE = ["agreed", "nothing against it"];
const REASON = "This book holds what was entered with a newer Fieldbook, which may bear on this and is not known here.";
const REMEDY = "Bring this one up to date.";
const SENTENCE = `${REASON} ${REMEDY}`;

/** Where something is beyond this version, no depth can be told either. @throws {Refusal} */
export function refuseBeyond({ beyond }) {
  if (beyond) throw new Refusal("newer-book", REASON, REMEDY);
}

/** A verdict as it may be told. */
export function capped({ beyond }, verdict) {
  return beyond && CAPPED.includes(verdict.word) ? { ...verdict, word: "not known", sentence: SENTENCE } : verdict;
}

/**
 * An answer at a point, with why and what decides, as it may be told.
 * @param {{beyond: boolean}} site
 * @param {any[]} said
 * @returns {any[]}
 */
export function cappedHere({ beyond }, said) {
  const [found, why, against] = said;
  if (!beyond || !FINE_HERE.includes(found)) return [found, why, against];
  return ["not known", `${SENTENCE} Without it: ${found}. ${why}`, against];
}

/** Whether a mark tells one thing from all others on the site. Mirrors fieldbook/findings/own_mark.py. */

import { verdict } from "../../checks/verdict.js";
import { takenFor } from "./order.js";

const SOURCE = "the marks entered";

/** The marks of all kinds are one row. */
export function ownMark({ registry, site }, item) {
  const taken = takenFor(item.values.mark);
  const others = taken ? marked(registry).flatMap((kind) => site.marked(kind, taken)).filter(({ id }) => id !== item.id) : [];
  if (!others.length) return { against: null, verdict: said("within", "No other has this mark.") };
  const sentence = `${item.values.mark} is the mark of ${others.length + 1} things: which is meant is not known. Give each its own.`;
  return { against: others[0], verdict: said("not known", sentence) };
}

/** The kinds that bear marks, and not names. */
function marked({ kinds }) {
  return [...kinds.values()].filter(({ numbered_by: by }) => by && by !== "name").map(({ name }) => name);
}

function said(word, sentence) {
  return { ...verdict("mark", word, [null, null, null], sentence, SOURCE), unit: "" };
}

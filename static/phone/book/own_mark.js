/** Whether a mark tells one thing from all others on the site. Mirrors fieldbook/findings/own_mark.py. */

import { verdict } from "../../checks/verdict.js";
import { takenFor } from "./order.js";

const SOURCE = "the marks entered";
const byMark = new WeakMap(); // a site's items by what people take their marks for

/** The marks of all kinds are one row. */
export function ownMark({ registry, site }, item) {
  const others = (marksOf(registry, site).get(takenFor(item.values.mark)) ?? []).filter(({ id }) => id !== item.id);
  if (!others.length) return { against: null, verdict: said("within", "No other has this mark.") };
  const sentence = `${item.values.mark} is the mark of ${others.length + 1} things: which is meant is not known. Give each its own.`;
  return { against: others[0], verdict: said("not known", sentence) };
}

function marksOf({ kinds }, site) {
  const known = byMark.get(site);
  if (known) return known;
  const marks = new Map();
  for (const { name, numbered_by: numbered } of kinds.values()) {
    if (!numbered || numbered === "name") continue;
    for (const one of site.all(name)) {
      const mark = takenFor(one.values[numbered]);
      if (mark) marks.set(mark, [...(marks.get(mark) ?? []), one]);
    }
  }
  byMark.set(site, marks);
  return marks;
}

function said(word, sentence) {
  return { ...verdict("mark", word, [null, null, null], sentence, SOURCE), unit: "" };
}

/**
 * The warning beside a mark that something else on the site carries already; it may be saved all the same.
 * Does what fieldbook/book/same_mark.py does; tests/cases/same_mark.json holds the two together.
 */

import { takenFor } from "./order.js";
import { calledOf, titleOf } from "./site.js";
import { joined } from "./wording.js";

/**
 * A sentence that names the others of this mark; "" where there are none.
 * @param {import("./registry.js").Registry} registry
 * @param {import("./site.js").Site} site
 * @param {import("./registry.js").Kind} kind
 * @param {string} mark  as typed
 * @param {string} [item]  id of the item that is changed
 */
export function sameMarkWarning(registry, site, kind, mark, item = "") {
  const wanted = takenFor(mark.trim());
  if (!wanted) return "";
  // Marks are one row for all kinds; names are not.
  const kinds = [...registry.kinds.values()].filter((one) => one === kind || (byMark(one) && byMark(kind)));
  const others = kinds
    .flatMap(({ name }) => site.marked(name, wanted).filter(({ id }) => id !== item))
    .map((other) => `${registry.kinds.get(other.kind).label.toLowerCase()} ${titleOf(registry, other)}${within(registry, site, other)}`);
  return others.length ? `Taken already by ${joined(others)}. In drawings and sentences nobody can tell them apart.` : "";
}

function byMark({ numbered_by: name }) {
  return name && name !== "name";
}

function within(registry, site, item) {
  const parent = site.parent(item);
  return parent && parent.kind !== "site" ? ` (${calledOf(registry, parent)})` : "";
}

/** A site as it would be with one item as it is being entered: what a verdict before saving is asked of. */

import { takenFor } from "./order.js";

/**
 * @param {import("./registry.js").Registry} registry
 * @param {import("./site.js").Site} site
 * @param {any} item  new, or in the place of the one with its id
 * @returns {import("./site.js").Site}
 */
export function supposing(registry, site, item) {
  const { parent: parentField, numbered_by: numbered } = registry.kinds.get(item.kind);
  const swapped = (list, belongs) => {
    const rest = list.filter(({ id }) => id !== item.id);
    if (!belongs) return rest;
    return rest.length === list.length ? [...list, item] : list.map((one) => (one.id === item.id ? item : one));
  };
  return {
    ...site,
    all: (kind) => (kind === item.kind ? swapped(site.all(kind), true) : site.all(kind)),
    those: (kind, isSo) => (kind === item.kind ? swapped(site.those(kind, isSo), isSo(item)) : site.those(kind, isSo)),
    marked: (kind, taken) => (kind === item.kind ? swapped(site.marked(kind, taken), takenFor(item.values[numbered]) === taken) : site.marked(kind, taken)),
    of: (parent, kind) => (kind === item.kind ? swapped(site.of(parent, kind), item.values[parentField] === parent.id) : site.of(parent, kind)),
    get: (id) => (id === item.id ? item : site.get(id)),
    fixingsOn: (face) => (item.kind === "fixing" ? swapped(site.fixingsOn(face), item.values.face === face.id) : site.fixingsOn(face)),
  };
}

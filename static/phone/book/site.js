/**
 * A site gathered into plain values: what pages, drawings and checks are made from. Mirrors fieldbook/gather.py.
 * An item withdrawn, or whose parent was, is left out.
 */

/** @typedef {import("../projection.js").Item} Item */

/** Every site of the book, by name. */
export function sitesOf(items) {
  return [...items.values()].filter((item) => item.kind === "site" && !item.withdrawn).sort(byMark);
}

/**
 * @param {object} registry
 * @param {Map<string, Item>} items  everything in the book
 * @param {string} siteId
 */
export function gather(registry, items, siteId) {
  const byId = new Map([[siteId, items.get(siteId)]]);
  const byKind = new Map();
  const byParent = new Map();
  for (const [name, kind] of registry.kinds) {
    if (!kind.parent) continue; // the registry lists parents before what belongs to them
    for (const item of items.values()) {
      const parent = item.values[kind.parent];
      if (item.kind !== name || item.withdrawn || !byId.has(parent)) continue;
      byId.set(item.id, item);
      put(byKind, name, item);
      put(byParent, `${parent} ${name}`, item);
    }
  }
  const sorted = (list = []) => [...list].sort(byMark);
  return {
    item: items.get(siteId),
    /** Every item of a kind, by mark. */
    all: (kind) => sorted(byKind.get(kind)),
    /** The items of a kind that belong to another item, by mark. */
    of: (parent, kind) => sorted(byParent.get(`${parent.id} ${kind}`)),
    get: (id) => byId.get(id),
    parent: (item) => byId.get(item.values[registry.kinds.get(item.kind).parent]),
    /** The fixings that touch a face, whichever fitting they hold. */
    fixingsOn: (face) => sorted(byKind.get("fixing")).filter((fixing) => fixing.values.face === face.id),
    photographsOf: (subject) => (byKind.get("photograph") ?? []).filter((one) => one.values.subject === subject.id),
  };
}

function put(map, key, item) {
  if (!map.has(key)) map.set(key, []);
  map.get(key).push(item);
}

const TITLES = ["mark", "name", "reference", "what", "caption", "quantity"];

/** Mark and name, as a heading shows it. */
export function titleOf(registry, item) {
  const words = TITLES.map((name) => item.values[name]).filter(Boolean).join(" ") || item.values.purpose;
  return words || `${registry.kinds.get(item.kind).label} ${item.values.on ?? item.values.at ?? ""}`.trim();
}

/** The mark alone where there is one: short, for drawings and sentences. */
export function calledOf(registry, item) {
  return item.values.mark || titleOf(registry, item);
}

/** Marks in the order people count: D2 before D10; items without one by name, then as recorded. */
export function byMark(one, other) {
  const [a, b] = [one, other].map(({ values }) => values.mark ?? values.name ?? "");
  if (!a !== !b) return a ? -1 : 1;
  return a.localeCompare(b, "en", { numeric: true }) || (one.id < other.id ? -1 : 1);
}

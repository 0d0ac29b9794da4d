/**
 * A site gathered into plain values: what pages, drawings and checks are made from. Mirrors fieldbook/book/site.py.
 * An item withdrawn, or whose parent was, is left out.
 */

import { byCounting, inOrder, takenFor } from "./order.js";

/** @typedef {import("../projection.js").Item} Item */
/** @typedef {ReturnType<typeof gather>} Site */

const TAKEN_DOWN = "taken down";

/** Every site of the book, by name. */
export function sitesOf(items) {
  return [...items.values()].filter((item) => item.kind === "site" && !item.withdrawn).sort(byName);
}

/** The site something lies on; null where it, or what it belongs to, was withdrawn or is not here. */
export function siteOf({ kinds }, items, /** @type {Item|undefined} */ item) {
  for (let one = item; one && !one.withdrawn; one = items.get(one.values[kinds.get(one.kind)?.parent])) if (one.kind === "site") return one;
  return null;
}

function byName(one, other) {
  return byCounting(one.values.name, other.values.name) || (one.id < other.id ? -1 : 1);
}

/**
 * @param {import("./registry.js").Registry} registry
 * @param {Map<string, Item>} items  everything in the book
 * @param {string} siteId
 * @param {boolean} beyond  whether the book holds what only a newer version knows, and answers may lack
 * @param {{day?: string, fresh?: boolean, open?: Record<string, string[]>, room?: Record<string, any>, phases?: any[], workshop?: any[]}|null} desk  what the desk last answered, and whether nothing has changed since
 * @param {(ruling: Item, thing: Item) => Record<string, any>|null} then  the fields of a thing in the state that was agreed to
 */
export function gather(registry, items, siteId, beyond = false, desk = null, then = () => null) {
  const byId = new Map([[siteId, items.get(siteId)]]);
  const found = new Map();
  for (const item of items.values()) if (!item.withdrawn && !isLeftOut(registry, item)) put(found, item.kind, item);
  const [byKind, ordered, grouped, marks] = [new Map(), new Map(), new Map(), new Map()];
  for (const [name, kind] of registry.kinds) {
    if (!kind.parent) continue; // the registry lists parents before what belongs to them
    const belonging = (found.get(name) ?? []).filter((item) => byId.has(item.values[kind.parent]));
    byKind.set(name, belonging);
    for (const item of belonging) byId.set(item.id, item);
  }
  /** Those of a kind by mark: most kinds are not asked for on most pages, and a book has thousands of some. */
  const all = (/** @type {string} */ name) => {
    const [belonging, kind] = [byKind.get(name), registry.kinds.get(name)];
    if (!belonging || !kind) return /** @type {any} */ ([]);
    if (!ordered.has(name)) ordered.set(name, inOrder(belonging, markIn(kind)));
    return ordered.get(name);
  };
  /** The same under what a field of theirs names. */
  const under = (/** @type {string} */ name, /** @type {string} */ field) => {
    const key = `${name}.${field}`;
    if (!grouped.has(key)) grouped.set(key, groupedBy(all(name), ({ values }) => values[field]));
    return grouped.get(key);
  };
  return {
    item: items.get(siteId),
    beyond,
    desk,
    then,
    /** Every item of a kind, by mark. */
    all,
    /** Those of a kind that are so, by mark: where few are, only they are put in order. */
    those: (/** @type {string} */ kind, /** @type {(item: Item) => any} */ isSo) => {
      const found = (byKind.get(kind) ?? []).filter(isSo);
      return found.length ? inOrder(found, markIn(registry.kinds.get(kind))) : [];
    },
    /** The items of a kind whose mark people take for this one (`takenFor`), by mark. */
    marked: (/** @type {string} */ kind, /** @type {string} */ taken) => {
      const mark = markIn(registry.kinds.get(kind));
      if (!marks.has(kind)) marks.set(kind, groupedBy(byKind.get(kind) ?? [], (item) => takenFor(mark(item))));
      return inOrder(marks.get(kind).get(taken) ?? [], mark);
    },
    /** The items of a kind that belong to another item, by mark. */
    of: (parent, kind) => under(kind, registry.kinds.get(kind)?.parent ?? "").get(parent.id) ?? [],
    get: (id) => byId.get(id),
    parent: (item) => byId.get(item.values[registry.kinds.get(item.kind).parent]),
    /** The fixings that touch a face, whichever fitting they hold. */
    fixingsOn: (face) => under("fixing", "face").get(face.id) ?? [],
    photographsOf: (subject) => under("photograph", "subject").get(subject.id) ?? [],
  };
}

/** Whether an item cannot be reckoned with: something it needs stands in it as only a newer version knows it. */
export function isLeftOut({ kinds }, /** @type {any} */ { kind, values, newer }) {
  if (!newer || !Object.keys(newer).length) return false;
  const fields = Object.keys(newer).map((name) => kinds.get(kind).byAnyName.get(name));
  return fields.some((field) => field?.required && (values[field.name] ?? null) === null);
}

function groupedBy(items, keyOf) {
  const groups = new Map();
  for (const item of items) put(groups, keyOf(item), item);
  return groups;
}

function put(map, key, item) {
  const list = map.get(key);
  if (list) list.push(item);
  else map.set(key, [item]);
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

/** Whether an item is up or is to go up; what was taken down does not count any more. */
export function stands({ values }) {
  return values.state !== TAKEN_DOWN;
}

/** What people tell the items of a kind apart by; nothing for a kind that has none. */
function markIn({ numbered_by: name }) {
  return (/** @type {Item} */ { values }) => values[name];
}

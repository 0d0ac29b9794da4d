/**
 * A site gathered into plain values: what pages, drawings and checks are made from. Mirrors fieldbook/book/site.py.
 * An item withdrawn, or whose parent was, is left out.
 */

import { byCounting } from "./order.js";

/** @typedef {import("../projection.js").Item} Item */
/** @typedef {ReturnType<typeof gather>} Site */

const TAKEN_DOWN = "taken down";

/** Every site of the book, by name. */
export function sitesOf(items) {
  return [...items.values()].filter((item) => item.kind === "site" && !item.withdrawn).sort(byName);
}

function byName(one, other) {
  return byCounting(one.values.name, other.values.name) || (one.id < other.id ? -1 : 1);
}

/**
 * @param {import("./registry.js").Registry} registry
 * @param {Map<string, Item>} items  everything in the book
 * @param {string} siteId
 * @param {boolean} beyond  whether the book holds what only a newer version knows, and answers may lack
 */
export function gather(registry, items, siteId, beyond = false) {
  const byId = new Map([[siteId, items.get(siteId)]]);
  const byParent = new Map();
  const byFace = new Map();
  const bySubject = new Map();
  const found = new Map();
  for (const item of items.values()) if (!item.withdrawn && !isLeftOut(registry, item)) put(found, item.kind, item);
  const byKind = new Map();
  for (const [name, kind] of registry.kinds) {
    if (!kind.parent) continue; // the registry lists parents before what belongs to them
    const belonging = (found.get(name) ?? []).filter((item) => byId.has(item.values[kind.parent])).sort(byMark(kind));
    byKind.set(name, belonging);
    for (const item of belonging) {
      byId.set(item.id, item);
      put(byParent, `${item.values[kind.parent]} ${name}`, item);
      if (name === "fixing") put(byFace, item.values.face, item);
      if (name === "photograph") put(bySubject, item.values.subject, item);
    }
  }
  return {
    item: items.get(siteId),
    beyond,
    /** Every item of a kind, by mark. */
    all: (kind) => byKind.get(kind) ?? [],
    /** The items of a kind that belong to another item, by mark. */
    of: (parent, kind) => byParent.get(`${parent.id} ${kind}`) ?? [],
    get: (id) => byId.get(id),
    parent: (item) => byId.get(item.values[registry.kinds.get(item.kind).parent]),
    /** The fixings that touch a face, whichever fitting they hold. */
    fixingsOn: (face) => byFace.get(face.id) ?? [],
    photographsOf: (subject) => bySubject.get(subject.id) ?? [],
  };
}

/** Whether an item cannot be reckoned with: something it needs stands in it as only a newer version knows it. */
export function isLeftOut({ kinds }, { kind, values, newer = {} }) {
  const fields = Object.keys(newer).map((name) => kinds.get(kind).byAnyName.get(name));
  return fields.some((field) => field?.required && (values[field.name] ?? null) === null);
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

/** Whether an item is up or is to go up; what was taken down does not count any more. */
export function stands({ values }) {
  return values.state !== TAKEN_DOWN;
}

/** The order of one kind's items: by their marks as people count; alike ones, and those without, by id, as recorded. */
export function byMark({ numbered_by: name }) {
  return (one, other) => byCounting(one.values[name], other.values[name]) || (one.id < other.id ? -1 : 1);
}

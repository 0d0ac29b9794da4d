/** Taking back one entry: by another, which sets what it set as it stood before. Nothing in the ledger is removed. */

import { titleOf } from "./site.js";
import { countOf, joined, labelOf } from "./wording.js";

const MOST_NAMED = 5;

/**
 * @param {any[]} history  every entry about the item, in order
 * @param {any} entry  the one to be taken back
 * @param {{values: Record<string, any>, withdrawn?: boolean}} item  as it stands now
 * @returns {{kind: string, item: string, set?: Record<string, any>, withdraw?: boolean}|null} null where all of it was changed again since
 */
export function takenBack(history, entry, { values, withdrawn }) {
  const at = history.findIndex(({ id }) => id === entry.id);
  const about = { kind: entry.kind, item: entry.item };
  if ("withdraw" in entry) return !withdrawn === !entry.withdraw ? { ...about, withdraw: !entry.withdraw } : null;
  const earlier = history.slice(0, at).filter(({ set }) => set);
  if (!earlier.length) return { ...about, withdraw: true };
  const before = Object.assign({}, ...earlier.map(({ set }) => set));
  const still = Object.entries(entry.set).filter(([name, value]) => same(values[name], value));
  return still.length ? { ...about, set: Object.fromEntries(still.map(([name]) => [name, before[name] ?? null])) } : null;
}

/** That all of an entry was taken back, or what of it was changed again since and stays, in words. */
export function undoneInWords({ kinds }, /** @type {any} */ entry, /** @type {any} */ change) {
  const { byAnyName } = kinds.get(entry.kind);
  const stays = change.set ? Object.keys(entry.set).filter((name) => !(name in change.set)) : [];
  const named = stays.map((name) => byAnyName.get(name)).filter(Boolean).map((/** @type {any} */ field) => labelOf(field));
  return named.length ? `Undone, but for what was changed again since: ${joined(named)}.` : "Undone.";
}

function same(one, other) {
  return JSON.stringify(one ?? null) === JSON.stringify(other ?? null);
}

/**
 * What goes out of sight with an item that is withdrawn, in words: what was entered in it, and what others changed of
 * it since; "" for nothing.
 * @param {import("./registry.js").Context} context
 * @param {import("./site.js").Item} item
 */
export function goesWith({ registry, notebook }, item) {
  const lying = within(registry, notebook.items, item.id);
  const others = notebook.historyOf(item.id).filter(({ device }) => device !== notebook.facts.device);
  const { byAnyName } = registry.kinds.get(item.kind);
  const changed = new Set(others.flatMap(({ set }) => Object.keys(set ?? {})).map((name) => byAnyName.get(name)).filter(Boolean).map(labelOf));
  const named = lying.slice(0, MOST_NAMED).map((one) => `${registry.kinds.get(one.kind).label.toLowerCase()} ${titleOf(registry, one)}`);
  if (lying.length > MOST_NAMED) named.push(countOf(lying.length - MOST_NAMED, "other", "others"));
  const parts = [
    named.length ? `With it goes what was entered in it: ${joined(named)}.` : "",
    changed.size ? `Others have entered of it: ${joined([...changed].slice(0, MOST_NAMED))}.` : "",
  ];
  return parts.filter(Boolean).join(" ");
}

/** What lies in an item, and what lies in that. */
function within({ kinds }, items, id) {
  const all = [...items.values()].filter(({ withdrawn }) => !withdrawn);
  const found = new Map();
  for (let inside = [id]; inside.length; ) {
    const next = all.filter((one) => !found.has(one.id) && inside.includes(one.values[kinds.get(one.kind)?.parent]));
    for (const one of next) found.set(one.id, one);
    inside = next.map((one) => one.id);
  }
  return [...found.values()];
}

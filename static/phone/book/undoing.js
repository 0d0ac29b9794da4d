/** Taking back one entry: by another, which sets what it set as it stood before. Nothing in the ledger is removed. */

/**
 * @param {any[]} history  every entry about the item, in order
 * @param {any} entry  the one to be taken back
 * @param {Record<string, any>} values  as the item stands now
 * @returns {{kind: string, item: string, set?: Record<string, any>, withdraw?: boolean}|null} null where all of it was changed again since
 */
export function takenBack(history, entry, values) {
  const at = history.findIndex(({ id }) => id === entry.id);
  const about = { kind: entry.kind, item: entry.item };
  if ("withdraw" in entry) return { ...about, withdraw: !entry.withdraw };
  const earlier = history.slice(0, at).filter(({ set }) => set);
  if (!earlier.length) return { ...about, withdraw: true };
  const before = Object.assign({}, ...earlier.map(({ set }) => set));
  const still = Object.entries(entry.set).filter(([name, value]) => same(values[name], value));
  return still.length ? { ...about, set: Object.fromEntries(still.map(([name]) => [name, before[name] ?? null])) } : null;
}

function same(one, other) {
  return JSON.stringify(one ?? null) === JSON.stringify(other ?? null);
}

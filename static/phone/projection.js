/**
 * The present state of a book: what its entries come to. Mirrors fieldbook/book/tables.py.
 *
 * Entries come in the order of their revisions; that order alone decides what shows. Beside the items stand who last
 * set which field, and the pairs two devices set without having seen each other. An item's `newer` holds what only a
 * newer version knows of it. Entries come here in present words (see book/versions.js).
 */

export const WITHDRAWN = "withdrawn";

/** @typedef {{id: string, item: string, kind: string, device: string} & Record<string, any>} Entry */
/** @typedef {{kind: string, id: string, revision: number, withdrawn: boolean, values: Record<string, any>, newer?: Record<string, any>}} Item */

/** A book with nothing in it. */
export function emptyState() {
  return { items: new Map(), setBy: new Map(), conflicts: [] };
}

/**
 * Bring one accepted entry into the state.
 * @param {ReturnType<typeof emptyState>} state
 * @param {number} revision
 * @param {Entry} entry
 */
export function apply(state, revision, entry) {
  const item = itemOf(state, entry, revision);
  if (entry.unknown) Object.assign(item.newer, entry.unknown);
  const done = setBy(state, item.id);
  // What nobody else has changed since leaves nothing to compare: that is so of nearly all, and a book has thousands.
  const rivalled = isRivalled(done, entry);
  if (rivalled || state.conflicts.length) compared(state, revision, entry, item, rivalled);
  else setFields(item, entry);
  if (!changesAny(entry)) return;
  item.revision = revision;
  done.push({ device: entry.device, revision, entry });
}

function compared(state, revision, entry, item, rivalled) {
  for (const [name, value] of changesOf(entry)) {
    if (state.conflicts.length) settle(state, revision, entry, name);
    if (rivalled) open(state, revision, entry, name, item);
    setField(item, name, value);
  }
}

function setFields(item, /** @type {any} */ { set, withdraw }) {
  if (withdraw !== undefined) item.withdrawn = Boolean(withdraw);
  if (set) Object.assign(item.values, set);
}

function changesAny(entry) {
  for (const _ in entry.set) return true;
  return "withdraw" in entry;
}

function namesIn(entry) {
  const names = entry.set ? Object.keys(entry.set) : [];
  return "withdraw" in entry ? [WITHDRAWN, ...names] : names;
}

/**
 * The state with entries laid over it that no revision has been given to yet; the state itself is left as it is.
 * @param {ReturnType<typeof emptyState>} state
 * @param {Entry[]} entries  in the order made
 * @returns {Map<string, Item>}
 */
export function laidOver(state, entries) {
  const items = new Map(state.items);
  for (const entry of entries) layOver(items, entry);
  return items;
}

/** Lay one more entry over items. */
export function layOver(items, entry) {
  const known = items.get(entry.item) ?? newItem(entry, 0);
  const item = { ...known, values: { ...known.values }, newer: { ...known.newer, ...entry.unknown } };
  setFields(item, entry);
  items.set(entry.item, item);
}

function itemOf({ items }, entry, revision) {
  if (!items.has(entry.item)) items.set(entry.item, newItem(entry, revision));
  return items.get(entry.item);
}

function newItem(entry, revision) {
  return { kind: entry.kind, id: entry.item, revision, withdrawn: false, values: {}, newer: {} };
}

function changesOf(entry) {
  const withdrawal = "withdraw" in entry ? [[WITHDRAWN, entry.withdraw]] : [];
  return [...withdrawal, ...Object.entries(entry.set ?? {})];
}

function setField(item, name, value) {
  if (name === WITHDRAWN) item.withdrawn = Boolean(value);
  else item.values[name] = value;
}

/** What was done to an item, in order: by which device, at which revision, by which entry; fields are named once they matter. */
function setBy({ setBy: all }, id) {
  let done = all.get(id);
  if (!done) all.set(id, (done = []));
  return done;
}

/** Who last set each field of an item. */
function lastBy(done) {
  return new Map(done.flatMap((by) => namesIn(by.entry).map((name) => [name, by])));
}

/**
 * A pair waits no longer once who sets its field has seen both; a device knows its own without pulling it.
 * A device that has not seen the other's value only puts its new one in place of its own before.
 */
function settle({ conflicts, setBy: all }, revision, entry, name) {
  const by = lastBy(all.get(entry.item) ?? []).get(name);
  for (const pair of conflicts) {
    if (pair.settled !== null || pair.item !== entry.item || pair.field !== name) continue;
    const own = by?.device === entry.device && pair.later === by.revision;
    if (pair.later <= entry.base || (own && pair.earlier <= entry.base)) pair.settled = revision;
    else if (own) pair.later = revision;
  }
}

/** Whether another device has changed the item since this one last saw it, which is rare. */
function isRivalled(done, entry) {
  for (let at = done.length - 1; at >= 0 && done[at].revision > entry.base; at -= 1) {
    if (done[at].device !== entry.device) return true;
  }
  return false;
}

/** A pair waits for each change of another device that this one has not seen and that it cannot merge with. */
function open(state, revision, entry, name, item) {
  const rivals = [...lastBy(setBy(state, item.id))].filter(([, by]) => by.device !== entry.device && by.revision > entry.base);
  const latest = (of) => Math.max(0, ...of.map(([, by]) => by.revision));
  const about = (field) => latest(rivals.filter(([other]) => other === field));
  if (entry.withdraw) {
    pair(state, item.id, name, latest(rivals), revision); // it would hide whatever was changed meanwhile
    return;
  }
  pair(state, item.id, name, about(name), revision);
  if (name !== WITHDRAWN && item.withdrawn) pair(state, item.id, WITHDRAWN, about(WITHDRAWN), revision); // it would be hidden
}

function pair({ conflicts }, item, field, earlier, later) {
  const same = (one) => one.settled === null && one.item === item && one.field === field && one.earlier === earlier;
  if (earlier && !conflicts.some(same)) conflicts.push({ item, field, earlier, later, settled: null });
}

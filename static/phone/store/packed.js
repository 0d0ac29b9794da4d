/** Pulled entries packed by the thousand: opening reads a few long texts, rather than each entry by itself. */

import { asked } from "./database.js";

const PACK = 1_000;

/**
 * Pack what a whole thousand has come of, within the transaction that stored it; entries never change.
 * @param {Record<string, IDBObjectStore>} stores  `entries`, and `packed`: the last revision in it -> the text
 * @param {number} cursor  revision up to which entries are here
 */
export async function packUp({ entries, packed }, cursor) {
  const last = Number((await asked(packed.getAllKeys())).at(-1) ?? 0);
  for (let to = last + PACK; to <= cursor; to += PACK) {
    packed.put(JSON.stringify(await asked(entries.getAll(IDBKeyRange.bound(to - PACK, to, true)))), to);
  }
}

/** Every pulled entry in the order of revisions. @returns {Promise<any[]>} */
export async function everyEntry(/** @type {Record<string, IDBObjectStore>} */ { entries, packed }) {
  const texts = await asked(packed.getAll());
  const rest = await asked(entries.getAll(IDBKeyRange.lowerBound(texts.length * PACK, true)));
  return [...texts.flatMap((/** @type {string} */ text) => JSON.parse(text)), ...rest];
}

/** Forget what holds any entry above a revision. */
export function unpackAbove(/** @type {Record<string, IDBObjectStore>} */ { packed }, /** @type {number} */ revision) {
  packed.delete(IDBKeyRange.lowerBound(revision, true));
}

/** Letting go of what was taken out of the laptop's book, wherever it lies on this phone. */

import { asked, transact } from "./database.js";
import { unpackAbove } from "./packed.js";

const HELD_IN = ["acknowledged", "outbox", "shelf"];
const BYTES_IN = ["pictures", "originals", "copies"];

/**
 * Put entries as they are now in the place of those here, and let go of photographs, in one transaction (S18).
 * @param {{taken_out: string, entries: any[], photographs: string[]}} gone  the entries without what was taken out
 * @returns {Promise<boolean>} whether any of it was here
 */
export function clearTakenOut({ taken_out: state, entries, photographs }) {
  return transact(["facts", "entries", "packed", ...HELD_IN, ...BYTES_IN], "readwrite", async (stores) => {
    let here = false;
    const now = new Map(entries.map((entry) => [entry.id, entry]));
    for (const entry of entries) {
      const held = await asked(stores.entries.get(entry.revision));
      if (held?.id !== entry.id) continue;
      here = true;
      stores.entries.put({ ...held, set: entry.set });
    }
    if (here) unpackAbove(stores, 0);
    for (const name of HELD_IN) {
      for (const row of await asked(stores[name].getAll())) {
        const set = now.get(row.entry.id)?.set;
        if (!set) continue;
        here = true;
        stores[name].put({ ...row, entry: { ...row.entry, set } });
      }
    }
    for (const sha256 of photographs) {
      for (const name of BYTES_IN) {
        here ||= (await asked(stores[name].getKey(sha256))) !== undefined;
        stores[name].delete(sha256);
      }
    }
    stores.facts.put(state, "takenOut");
    if (here) stores.facts.put(true, "letGo");
    return here;
  });
}

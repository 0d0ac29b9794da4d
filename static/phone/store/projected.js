/** What the pulled entries come to, kept ready-made with the revision it holds: opening applies only what came after it. */

import { Refusal } from "../../checks/refusal.js";
import { asked, transact } from "./database.js";
import { everyEntry, entriesAbove } from "./packed.js";

const FORM = 1; // raised whenever projection.js or versions.js make something else of the same entries
const KEY = "state";
export const EVERY = 1_000; // revisions after which it is made anew

/** @typedef {ReturnType<typeof import("../projection.js").emptyState>} State */
/**
 * The state up to a revision, and the entries above it, or all of them.
 * @typedef {{state: State|null, revision: number, newer: boolean, entries: any[], whole: boolean}} Opened
 */

/**
 * The ready-made state where it fits, and every entry that is not in it.
 * @param {string} described  fingerprint of the description the state was made with
 * @param {boolean} whole  whether those that are in it are asked for too
 * @returns {Promise<Opened>}
 */
export function readProjected(described, whole) {
  return transact(["facts", "projected", "entries", "packed"], "readonly", async (stores) => {
    const [kept, cursor = 0] = await Promise.all([asked(stores.projected.get(KEY)), asked(stores.facts.get("cursor"))]);
    const fits = kept && kept.form === FORM && kept.described === described && kept.revision <= cursor && (await isOf(stores.facts, kept));
    if (!fits) return { state: null, revision: 0, newer: false, entries: await everyEntry(stores), whole: true };
    const entries = await (whole ? everyEntry(stores) : entriesAbove(stores, kept.revision));
    return { state: stateOf(kept), revision: kept.revision, newer: kept.newer, entries, whole };
  });
}

/** Whether a state is of the present epoch, and without what was taken out of the book. */
async function isOf(facts, { epoch, takenOut }) {
  const [present, gone] = await Promise.all([asked(facts.get("epoch")), asked(facts.get("takenOut"))]);
  return epoch === present && takenOut === gone;
}

/**
 * Keep a state; nothing is kept where another window has found another epoch, or what was taken out, meanwhile, or where
 * the phone is full: opening takes longer then.
 * @param {{described: string, epoch: any, takenOut: any, revision: number, newer: boolean}} about
 * @param {State} state
 */
export async function writeProjected(about, { items, setBy, conflicts }) {
  const [shown, done] = [JSON.stringify([[...items.values()], conflicts]), JSON.stringify([...setBy])];
  const keep = async (/** @type {Record<string, IDBObjectStore>} */ { facts, projected }) => {
    if (await isOf(facts, about)) projected.put({ form: FORM, ...about, shown, done }, KEY);
  };
  try {
    await transact(["facts", "projected"], "readwrite", keep, true);
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
  }
}

/** Who last set what is only read where another entry is applied. */
function stateOf({ shown, done }) {
  const [items, conflicts] = JSON.parse(shown);
  let setBy;
  return {
    items: new Map(items.map((item) => [item.id, item])),
    conflicts,
    get setBy() {
      return (setBy ??= new Map(JSON.parse(done)));
    },
  };
}

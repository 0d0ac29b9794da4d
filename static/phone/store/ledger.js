/**
 * Entries on the phone: those pulled, those waiting to go up, those refused. Each function is one transaction; the
 * numbers S4, S6, S8, S10 and S14 are those of the protocol in DEVELOPERS.md.
 */

import { Refusal } from "../../checks/refusal.js";
import { asked, transact } from "./database.js";
import { forgetUnkept } from "./drafts.js";

const EVERY = ["facts", "entries", "acknowledged", "outbox", "shelf", "pictures"];

/** All of it, or some of its stores, by their names. */
export function readLedger(names = ["entries", "acknowledged", "outbox", "shelf", "pictures"]) {
  return transact(names, "readonly", async (stores) => {
    const lists = await Promise.all(Object.values(stores).map((store) => asked(store.getAll())));
    return Object.fromEntries(Object.keys(stores).map((name, at) => [name, lists[at]]));
  });
}

/**
 * Put new entries into the outbox, with all that goes with them.
 * @param {import("../projection.js").Entry[]} entries  in the order made
 * @param {{draft?: string, picture?: import("./photographs.js").Picture, mends?: number}} with_  the draft they came from; what is known of a
 *   photograph whose bytes are here already; the place of the refused entry the first one stands for
 * @returns {Promise<{n: number, entry: import("../projection.js").Entry}[]>} the outbox's rows
 */
export async function record(entries, { draft, picture, mends } = {}) {
  const made = await transact(["outbox", "drafts", "pictures", "shelf"], "readwrite", async (stores) => {
    const rows = entries.map((entry, at) => ({ entry, ...(mends !== undefined && at === 0 ? { n: mends } : {}) }));
    for (const row of rows) row.n = await asked(stores.outbox.put(row));
    if (mends !== undefined) stores.shelf.delete(mends);
    if (draft) stores.drafts.delete(draft);
    if (picture) stores.pictures.put(picture);
    return rows;
  });
  if (draft) forgetUnkept(draft);
  return made;
}

/**
 * Store what the server answered (S4, S6): what it has leaves the outbox, what it refused goes to the shelf, what
 * waits stays.
 * @param {{id: string, status: string, revision: number|null, findings: object[]}[]} answers
 */
export function storeAnswers(answers) {
  return transact(["outbox", "acknowledged", "shelf"], "readwrite", async ({ outbox, acknowledged, shelf }) => {
    for (const { id, status, revision, findings } of answers) {
      const row = await asked(outbox.index("id").get(id));
      if (!row) continue;
      if (status === "accepted" || status === "repeated") {
        acknowledged.put({ revision, entry: row.entry });
        outbox.delete(row.n);
      } else if (status === "refused") {
        shelf.put({ ...row, findings });
        outbox.delete(row.n);
      } else if (status === "waiting") {
        outbox.put({ ...row, findings });
      }
    }
  });
}

/**
 * Store entries pulled, and how far that leads, together (S8).
 * @param {string} epoch
 * @param {(import("../projection.js").Entry & {revision: number})[]} pulled  each with its revision
 * @throws {Refusal} a gap
 */
export function storePulled(epoch, pulled) {
  return transact(["facts", "entries", "acknowledged", "outbox"], "readwrite", async (stores) => {
    let cursor = (await asked(stores.facts.get("cursor"))) ?? 0;
    if (epoch !== (await asked(stores.facts.get("epoch")))) throw gap("another epoch");
    for (const entry of pulled) {
      if (entry.revision <= cursor) continue; // another window was quicker
      if (entry.revision !== cursor + 1) throw gap(`${entry.revision} after ${cursor}`);
      cursor = entry.revision;
      stores.entries.put(entry);
      const own = await asked(stores.outbox.index("id").getKey(entry.id));
      if (own !== undefined) stores.outbox.delete(own);
    }
    stores.acknowledged.delete(IDBKeyRange.upperBound(cursor));
    stores.facts.put(cursor, "cursor");
    return cursor;
  });
}

function gap(what) {
  return new Refusal("gap", `The laptop's entries do not follow those here (${what}).`, "They are asked for again.");
}

/** Forget a refused entry, when a person says so. */
export function giveUp(n) {
  return transact(["shelf"], "readwrite", ({ shelf }) => void shelf.delete(n));
}

/**
 * Begin again under a new epoch (S10): nothing counts as pulled, and whatever was made here waits to be sent, its base
 * lowered to what both epochs share.
 * @param {string} epoch
 * @param {number} shared
 */
export function beginEpoch(epoch, shared) {
  return transact(EVERY, "readwrite", async (stores) => {
    const device = await asked(stores.facts.get("device"));
    const [pulled, acknowledged, waiting, pictures] = await Promise.all(
      ["entries", "acknowledged", "outbox", "pictures"].map((name) => asked(stores[name].getAll())),
    );
    const made = pulled.filter((entry) => entry.device === device).map(withoutRevision);
    const ids = new Set(made.map(({ id }) => id));
    const rest = [...acknowledged, ...waiting].map(({ entry }) => entry).filter(({ id }) => !ids.has(id));
    for (const name of ["entries", "acknowledged", "outbox"]) stores[name].clear();
    for (const entry of [...made, ...rest]) {
      await asked(stores.outbox.add({ entry: { ...entry, base: Math.min(entry.base, shared) } }));
    }
    for (const picture of pictures.filter(({ state }) => state === "sent")) {
      stores.pictures.put({ ...picture, state: "waiting", received: 0 });
    }
    stores.facts.put(epoch, "epoch");
    stores.facts.put(0, "cursor");
  });
}

function withoutRevision({ revision, ...entry }) {
  return entry;
}

/**
 * Entries on the phone: those pulled, those waiting to go up, those refused. Each function is one transaction; the
 * numbers S4, S6, S8, S10 and S14 are those of the protocol in DEVELOPERS.md.
 */

import { Refusal } from "../../checks/refusal.js";
import { momentOf } from "../book/moments.js";
import { asked, transact } from "./database.js";
import { forgetUnkept } from "./drafts.js";
import { everyEntry, packUp, unpackAbove } from "./packed.js";

const EVERY = ["facts", "entries", "packed", "acknowledged", "outbox", "shelf", "pictures"];

/** All of it, or some of its stores, by their names. */
export function readLedger(names = ["entries", "acknowledged", "outbox", "shelf", "pictures"]) {
  const with_ = names.includes("entries") ? [...names, "packed"] : names;
  return transact(with_, "readonly", async (stores) => {
    const lists = await Promise.all(names.map((name) => (name === "entries" ? everyEntry(stores) : asked(stores[name].getAll()))));
    return Object.fromEntries(names.map((name, at) => [name, lists[at]]));
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
 * @param {Told} [told]  how far the laptop's book was then
 */
export function storeAnswers(answers, told) {
  return transact(["facts", "outbox", "acknowledged", "shelf"], "readwrite", async ({ facts, outbox, acknowledged, shelf }) => {
    await learn(facts, told);
    for (const { id, status, revision, findings } of answers) {
      const row = await asked(outbox.index("id").get(id));
      if (!row) continue;
      if (status === "accepted" || status === "repeated") {
        acknowledged.put({ revision, entry: row.entry, returned: row.returned });
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

/** @typedef {{epoch?: string, revision?: number, digest?: string}} Told */

/** Keep the latest revision the laptop told of, and its hash: what it may not deny later (S10). */
async function learn(facts, /** @type {Told} */ { epoch, revision, digest } = {}) {
  if (!digest || revision === undefined || epoch !== (await asked(facts.get("epoch")))) return;
  const known = await asked(facts.get("known"));
  if (!known || revision >= known.revision) facts.put({ revision, digest }, "known");
}

/**
 * Store entries pulled, and how far that leads, together (S8).
 * @param {string} epoch
 * @param {(import("../projection.js").Entry & {revision: number})[]} pulled  each with its revision, and its hash where that was told
 * @param {Told} [told]  how far the laptop's book was then
 * @throws {Refusal} a gap
 */
export function storePulled(epoch, pulled, told) {
  return transact(["facts", "entries", "packed", "acknowledged", "outbox"], "readwrite", async (stores) => {
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
    await packUp(stores, cursor);
    await learn(stores.facts, told);
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
 * Begin again under a new epoch (S10): what both epochs share stays; whatever was made here, and whatever others made
 * that this phone may be the last to have, waits to be sent, its base lowered to what both share.
 * @param {string} epoch
 * @param {number} shared
 * @param {{revision: number, digest: string}|null} [proven]  the same, where the hashes of the chain prove it; else all is
 *   pulled again from the beginning
 */
export function beginEpoch(epoch, shared, proven = null) {
  return transact(EVERY, "readwrite", async (stores) => {
    const [device, known, cursor = 0] = await Promise.all(["device", "known", "cursor"].map((name) => asked(stores.facts.get(name))));
    const [pulled, acknowledged, waiting, pictures] = await Promise.all(
      ["entries", "acknowledged", "outbox", "pictures"].map((name) => asked(stores[name].getAll())),
    );
    const kept = proven ? shared : 0;
    const rows = [...sentAgain(pulled, device, shared, kept), ...acknowledged, ...waiting];
    stores.entries.delete(IDBKeyRange.lowerBound(kept, true));
    unpackAbove(stores, kept);
    for (const name of ["acknowledged", "outbox"]) stores[name].clear();
    const added = new Set();
    for (const { entry, returned } of rows) {
      if (added.has(entry.id)) continue;
      added.add(entry.id);
      await asked(stores.outbox.add({ entry: { ...entry, base: Math.min(entry.base, shared) }, ...(returned ? { returned } : {}) }));
    }
    for (const picture of pictures.filter(({ state }) => state === "sent")) {
      stores.pictures.put({ ...picture, state: "waiting", received: 0 });
    }
    if (kept) stores.facts.put(proven, "known");
    else stores.facts.delete("known");
    const others = rows.filter(({ returned }) => returned).length;
    stores.facts.put({ known: Math.max(known?.revision ?? 0, cursor), shared, others, at: momentOf() }, "restored");
    stores.facts.put(epoch, "epoch");
    stores.facts.put(kept, "cursor");
  });
}

/** Of what was pulled, in its order: own entries that are not kept, and those of others that the laptop may have lost. */
function sentAgain(pulled, device, shared, kept) {
  return pulled
    .filter((entry) => entry.revision > (entry.device === device ? kept : shared))
    .map((entry) => ({ entry: bare(entry), returned: entry.device !== device }));
}

function bare({ revision, hash, ...entry }) {
  return entry;
}

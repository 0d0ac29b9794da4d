/** Fetching what is new at the laptop: entries in their order, then small copies of photographs for reading offline. */

import { readFacts, writeFacts } from "../store/facts.js";
import { storePulled } from "../store/ledger.js";
import { copiesHere, keepCopies } from "../store/photographs.js";
import { ErrorAnswer, NoAnswer, askAnswers, fetchCopy, pullEntries } from "./channel.js";

export const COPY_PX = 800;
const TIGHT_SHARE = 0.9; // of the room there is: from here on copies stay at the laptop

/**
 * Pull until nothing is left that is not here.
 * @param {(entries: object[]) => Promise<void>} taken  told after each part is stored
 * @param {(done: number, total: number) => void} tell
 */
export async function pullAll(taken, tell) {
  for (;;) {
    const facts = await readFacts();
    const since = facts.cursor ?? 0;
    const answer = await pullEntries(facts, since);
    if (answer.epoch !== facts.epoch) throw new EpochMoved();
    if (answer.since !== since || !Array.isArray(answer.entries)) throw new NoAnswer("What came is not what was asked for.");
    const cursor = await storePulled(answer.epoch, withHashes(answer.entries, answer.hashes), answer);
    await taken(answer.entries);
    tell(cursor, answer.revision);
    if (cursor >= answer.revision || !answer.entries.length) return;
  }
}

/**
 * Fetch what only the desk can answer, where it is of another revision or day than what is here.
 * A laptop that is older, or slow at it, holds nothing else up: what is here stays, with its day.
 */
export async function fetchAnswers(today) {
  const facts = await readFacts();
  if (facts.answers?.revision === facts.cursor && facts.answers?.day === today) return;
  try {
    const { revision, day, sites } = await askAnswers(facts);
    if (sites) await writeFacts({ answers: { revision, day, sites } });
  } catch (error) {
    const isOld = error instanceof NoAnswer || (error instanceof ErrorAnswer && error.status !== 401);
    if (!isOld) throw error;
  }
}

/** Entries, each with its hash in the chain where the laptop told it. */
export function withHashes(entries, hashes = []) {
  return entries.map((entry, at) => (hashes[at] ? { ...entry, hash: hashes[at] } : entry));
}

/** The book was restored from a backup between two questions. */
export class EpochMoved extends Error {}

/**
 * Fetch small copies of photographs that are in the book and not on this phone.
 * @param {string[]} digests
 * @param {(done: number, total: number) => void} tell
 */
export async function fetchCopies(digests, tell) {
  const [facts, here] = await Promise.all([readFacts(), copiesHere()]);
  const absent = [...new Set(digests)].filter((sha256) => !here.has(sha256));
  for (const [done, sha256] of absent.entries()) {
    if (await isTight()) return;
    tell(done, absent.length);
    try {
      const bytes = await fetchCopy(facts, sha256, COPY_PX);
      if (bytes) await keepCopies([[sha256, bytes]]);
    } catch (error) {
      if (/** @type {any} */ (error).code === "storage-full") return; // they stay at the laptop
      const isOne = error instanceof NoAnswer && error.status === 500; // it cannot be made: the others come
      if (!isOne) throw error;
    }
  }
}

async function isTight() {
  const { usage = 0, quota = Infinity } = (await navigator.storage?.estimate?.()) ?? {};
  return usage > quota * TIGHT_SHARE;
}

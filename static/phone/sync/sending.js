/** Sending what waits: entries in the order made, then photographs in pieces. What is refused steps aside. */

import { readyToGo } from "../book/versions.js";
import { readFacts } from "../store/facts.js";
import { readLedger, storeAnswers } from "../store/ledger.js";
import { notePicture, originalOf } from "../store/photographs.js";
import { ErrorAnswer, photographProgress, putPiece, sendEntries } from "./channel.js";

const MOST_ENTRIES = 100;
const MOST_BYTES = 900_000; // of a megabyte, with room for what goes around the entries
const PIECE_BYTES = 1_000_000;
const FRESH_STARTS = 2;
const SIDE_BY_SIDE = 3;

/**
 * Send entries until none waits that could go.
 * @param {any} registry
 * @param {(done: number, total: number) => void} tell
 */
export async function sendOutbox(registry, tell) {
  for (;;) {
    const accepted = await onePass(registry, tell);
    const { outbox } = await readLedger(["outbox"]);
    // What waits for something else that has just gone up may go now.
    if (!outbox.length || !accepted) return;
  }
}

/** All of the outbox once; the number of entries the laptop has taken. */
async function onePass(registry, tell) {
  const [facts, { outbox: all, pictures }] = await Promise.all([readFacts(), readLedger(["outbox", "pictures"])]);
  const outbox = readyToGo(registry, all);
  const photographs = pictures.filter(({ state }) => state === "waiting").length;
  const held = new Set(); // items of which an earlier entry waits (S14)
  let [at, accepted, done] = [0, 0, 0];
  while (at < outbox.length) {
    const batch = [];
    for (let bytes = 0; at < outbox.length && batch.length < MOST_ENTRIES; at += 1) {
      const { entry } = outbox[at];
      if (held.has(entry.item)) continue;
      bytes += new TextEncoder().encode(JSON.stringify(entry)).length;
      if (batch.length && bytes > MOST_BYTES) break;
      batch.push(entry);
    }
    if (!batch.length) break;
    tell(done, outbox.length);
    const { answers } = await sendEntries(facts, batch, all.length - done + photographs, registry.described);
    const own = answers.filter(({ id }, place) => batch[place]?.id === id);
    await storeAnswers(own);
    for (const [place, { status }] of own.entries()) if (status === "waiting") held.add(batch[place].item);
    accepted += own.filter(({ status }) => status === "accepted" || status === "repeated").length;
    done += batch.length;
  }
  return accepted;
}

/**
 * Send photographs, a few side by side, since the laptop takes its time over each; each from where the laptop has it.
 * @param {(sent: number, total: number) => void} tell  bytes of all that wait
 */
export async function sendPhotographs(tell) {
  const facts = await readFacts();
  const { pictures } = await readLedger(["pictures"]);
  const waiting = pictures.filter(({ state }) => state === "waiting").sort((one, other) => (one.at < other.at ? -1 : 1));
  const total = waiting.reduce((sum, { size }) => sum + size, 0);
  const sent = new Map();
  const noted = (sha256) => (received) => {
    sent.set(sha256, received);
    tell([...sent.values()].reduce((sum, one) => sum + one, 0), total);
  };
  async function oneAfterTheOther() {
    for (let next = waiting.shift(); next; next = waiting.shift()) await sendPhotograph(facts, next, noted(next.sha256));
  }
  const done = await Promise.allSettled(Array.from({ length: SIDE_BY_SIDE }, oneAfterTheOther));
  const failed = done.find(({ status }) => status === "rejected");
  if (failed?.status === "rejected") throw failed.reason;
}

async function sendPhotograph(facts, { sha256, size }, tell) {
  const bytes = await originalOf(sha256);
  if (!bytes) {
    const finding = { reason: "Its bytes are no longer on this phone.", remedy: "Take it again.", field: "photograph" };
    return notePicture(sha256, { state: "refused", findings: [finding] });
  }
  let [{ received, complete }, starts] = [await photographProgress(facts, sha256), 0];
  try {
    while (!complete) {
      tell(received);
      const first = received >= size ? 0 : received;
      try {
        ({ received, complete } = await putPiece(facts, sha256, bytes.slice(first, first + PIECE_BYTES), first, size));
      } catch (error) {
        if (!(error instanceof ErrorAnswer)) throw error;
        if (error.code === "out-of-step") received = error.answer.received;
        else if (error.code === "digest-differs" && (starts += 1) <= FRESH_STARTS) received = 0;
        else if (error.status === 422) return notePicture(sha256, { state: "refused", findings: [error.answer] });
        else throw error;
      }
    }
  } catch (cut) {
    await notePicture(sha256, { received }); // only to be shown: the laptop itself knows what it has
    throw cut;
  }
  tell(size);
  return notePicture(sha256, { state: "sent", received: size });
}

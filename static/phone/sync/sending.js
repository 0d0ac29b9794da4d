/** Sending the entries that wait, in the order made. What is refused steps aside. */

import { readyToGo } from "../book/versions.js";
import { readFacts } from "../store/facts.js";
import { readLedger, storeAnswers } from "../store/ledger.js";
import { sendEntries } from "./channel.js";

const MOST_ENTRIES = 100;
const MOST_BYTES = 900_000; // of a megabyte, with room for what goes around the entries

/**
 * Send entries until none waits that could go.
 * @param {any} registry
 * @param {number} level  what the laptop understands: the first takes nothing that other devices made
 * @param {(done: number, total: number) => void} tell
 */
export async function sendOutbox(registry, level, tell) {
  for (;;) {
    const accepted = await onePass(registry, level, tell);
    const { outbox } = await readLedger(["outbox"]);
    // What waits for something else that has just gone up may go now.
    if (!outbox.length || !accepted) return;
  }
}

/** All of the outbox once; the number of entries the laptop has taken. */
async function onePass(registry, level, tell) {
  const [facts, { outbox: all, pictures }] = await Promise.all([readFacts(), readLedger(["outbox", "pictures"])]);
  const outbox = readyToGo(registry, all).filter(({ returned }) => !returned || level > 1);
  const photographs = pictures.filter(({ state }) => state === "waiting").length;
  const held = new Set(); // items of which an earlier entry waits (S14)
  let [at, accepted, done] = [0, 0, 0];
  while (at < outbox.length) {
    const [batch, returned] = [[], []];
    for (let bytes = 0; at < outbox.length && batch.length < MOST_ENTRIES; at += 1) {
      const { entry } = outbox[at];
      if (held.has(entry.item)) continue;
      bytes += new TextEncoder().encode(JSON.stringify(entry)).length;
      if (batch.length && bytes > MOST_BYTES) break;
      batch.push(entry);
      if (outbox[at].returned) returned.push(entry.id);
    }
    if (!batch.length) break;
    tell(done, outbox.length);
    const answer = await sendEntries(facts, batch, all.length - done + photographs, registry.described, returned);
    const own = answer.answers.filter(({ id }, place) => batch[place]?.id === id);
    await storeAnswers(own, answer);
    for (const [place, { status }] of own.entries()) if (status === "waiting") held.add(batch[place].item);
    accepted += own.filter(({ status }) => status === "accepted" || status === "repeated").length;
    done += batch.length;
  }
  return accepted;
}

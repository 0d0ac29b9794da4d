/**
 * A laptop whose book is another than this phone knew: restored from a backup, or put back from a copy of its folder
 * (S10). How far both are the same is found by the hashes of the chain; from there all goes on.
 */

import { readFacts } from "../store/facts.js";
import { beginEpoch, readLedger } from "../store/ledger.js";
import { askShared, part } from "./channel.js";

const AT_ONCE = 64;
export const NOTHING = { revision: 0, digest: "0".repeat(64) };

/** Take up the epoch the laptop is in, if its book is another than here. Returns whether it was. */
export async function followEpoch(answer) {
  const facts = await readFacts();
  const same = facts.epoch === answer.epoch;
  if (same && answer.agrees !== false) return false;
  const found = (answer.level ?? 1) > 1 ? await lastShared(facts) : null;
  if (same) {
    const shared = found ?? NOTHING;
    const { epoch } = await part(facts, shared);
    await beginEpoch(epoch, shared.revision, shared);
  } else {
    await beginEpoch(answer.epoch, found?.revision ?? answer.shared, found);
  }
  return true;
}

/** The last revision both have, by its hash; null where this phone knows too few hashes to tell. */
async function lastShared(facts) {
  const { entries } = await readLedger(["entries"]);
  const chain = [NOTHING, ...entries.filter(({ hash }) => hash).map(({ revision, hash: digest }) => ({ revision, digest }))];
  let [low, high] = [0, chain.length]; // chain[low] is shared; chain[high] is not
  while (high - low > 1) {
    const step = Math.max(1, Math.ceil((high - low - 1) / AT_ONCE));
    const places = [];
    for (let place = low + 1; place < high; place += step) places.push(place);
    const { shared } = await askShared(facts, places.map((place) => chain[place]));
    const above = places.find((place) => chain[place].revision > shared.revision);
    low = Math.max(low, chain.findIndex(({ revision }) => revision === shared.revision));
    high = above ?? high;
  }
  return low || chain[1]?.revision === 1 ? chain[low] : null;
}

/** Some of the hashes this phone knows, the latest most densely, for a file that is carried. */
export function someHashes(entries) {
  const places = [];
  for (let back = 1; back <= entries.length; back *= 2) places.push(entries.length - back);
  return places.map((place) => entries[place]).filter(({ hash }) => hash).map(({ revision, hash: digest }) => ({ revision, digest }));
}

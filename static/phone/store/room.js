/** How much room the phone gives the book, and whether it may take it back by itself. */

import { tell } from "./database.js";
import { keepUnkept } from "./drafts.js";
import { keepRoom } from "./reserve.js";

const TIGHT_SHARE = 0.8;
const TIGHT_BYTES = 300_000_000;

/**
 * @returns {Promise<{used: number, left: number|null, share: number, kept: boolean|null, tight: boolean}>}
 *   `kept`: whether the browser promised not to clear it; null where it does not say
 */
export async function roomLeft() {
  const { usage = 0, quota } = (await navigator.storage?.estimate?.()) ?? {};
  const kept = (await navigator.storage?.persisted?.()) ?? null;
  const left = quota === undefined ? null : Math.max(0, quota - usage);
  const share = quota ? usage / quota : 0;
  return { used: usage, left, share, kept, tight: share > TIGHT_SHARE || (left !== null && left < TIGHT_BYTES) };
}

/** Lay room for entries aside, and keep the drafts that found none; gives whether there is room for photographs too. */
export async function roomAgain() {
  const spare = await keepRoom();
  if (spare) tell("room");
  await keepUnkept();
  return spare;
}

/** Ask the browser not to clear what is here by itself. */
export async function askToKeep() {
  return (await navigator.storage?.persist?.()) ?? null;
}

/**
 * Room kept for entries ahead of photographs: bytes that mean nothing, given up when an entry or a draft finds no
 * room. They lie in a cache, since room in a cache is free again as soon as it is cleared.
 */

const CACHE = "fieldbook-room-kept";
const ADDRESS = "/phone/room-kept";
const BYTES = 4_000_000; // some thousand entries
const MOST_RANDOM = 65_536; // what a browser gives at once

/** @returns {Promise<boolean>} whether the room is kept; true as well where the browser has no caches */
export async function keepRoom() {
  if (!("caches" in globalThis)) return true;
  try {
    const cache = await caches.open(CACHE);
    if (!(await cache.match(ADDRESS))) await cache.put(ADDRESS, new Response(incompressible()));
    return true;
  } catch {
    return false;
  }
}

/** @returns {Promise<boolean>} whether there was room kept, which is free now */
export async function giveUpRoom() {
  if (!("caches" in globalThis)) return false;
  try {
    return await (await caches.open(CACHE)).delete(ADDRESS);
  } catch {
    return false;
  }
}

function incompressible() {
  const bytes = new Uint8Array(BYTES);
  for (let at = 0; at < BYTES; at += MOST_RANDOM) crypto.getRandomValues(bytes.subarray(at, at + MOST_RANDOM));
  return bytes;
}

/** Photographs on the phone: their bytes as taken, small copies to look at, and how far each has gone up. */

import { asked, noRoom, tell, transact } from "./database.js";
import { keepRoom } from "./reserve.js";

const FULL = "storage-full";

/**
 * @typedef {object} Picture
 * @property {string} sha256
 * @property {number} size  bytes
 * @property {string} mediaType
 * @property {number} width  px
 * @property {number} height  px
 * @property {"draft"|"waiting"|"sent"|"refused"} state  a draft's belongs to no entry yet
 * @property {number} received  bytes the laptop has
 * @property {string} at  when it was taken up here
 * @property {boolean} [lookedAt]  the laptop has it, and has looked at its pixels
 * @property {object[]} [findings]  why it was refused
 */

/**
 * Keep a photograph's bytes, before there is an entry about it; only while there is room for entries beside it.
 *
 * They are kept as a Blob, which goes up without being read into memory, and looked at once they lie there: some
 * browsers refuse Blobs, or cannot read them again. Those are given the bytes.
 * @param {Picture} picture
 * @param {ArrayBuffer} bytes
 * @param {ArrayBuffer|null} copy  small JPEG
 * @returns {Promise<Picture>} what was known of it before, if it is here already
 * @throws {import("../../checks/refusal.js").Refusal} storage-full
 */
export async function keepPicture(picture, bytes, copy) {
  if (!(await keepRoom())) {
    tell("scarce");
    throw noRoom();
  }
  try {
    const known = await keep(picture, new Blob([bytes], { type: picture.mediaType }), copy);
    if (await originalOf(picture.sha256)) return known;
  } catch (error) {
    if (/** @type {any} */ (error).code === FULL) throw error;
  }
  return keep(picture, bytes, copy);
}

function keep(picture, bytes, copy) {
  return transact(["pictures", "originals", "copies"], "readwrite", async (stores) => {
    const before = await asked(stores.pictures.get(picture.sha256));
    if (copy) stores.copies.put(copy, picture.sha256);
    const here = (await asked(stores.originals.getKey(picture.sha256))) !== undefined;
    if (!before || !here || bytes instanceof ArrayBuffer) stores.originals.put(bytes, picture.sha256);
    if (before && here) return before;
    stores.pictures.put(picture);
    return picture;
  });
}

/** Forget a photograph no entry was made about. */
export function dropUnused(sha256) {
  return transact(["pictures", "originals", "copies"], "readwrite", async (stores) => {
    const picture = await asked(stores.pictures.get(sha256));
    if (picture?.state !== "draft") return;
    for (const store of Object.values(stores)) store.delete(sha256);
  });
}

/** Forget a photograph whatever its state, when a person says so. */
export function dropPicture(sha256) {
  return transact(["pictures", "originals", "copies"], "readwrite", (stores) => {
    for (const store of Object.values(stores)) store.delete(sha256);
  });
}

/** Change what is known of a photograph. */
export function notePicture(sha256, changed) {
  return transact(["pictures"], "readwrite", async ({ pictures }) => {
    const picture = await asked(pictures.get(sha256));
    if (picture) pictures.put({ ...picture, ...changed });
  });
}

/** @returns {Promise<Blob|undefined>} nothing as well where it lies here and cannot be read */
export async function originalOf(sha256) {
  const kept = await transact(["originals"], "readonly", ({ originals }) => asked(originals.get(sha256)));
  if (!(kept instanceof Blob)) return kept && new Blob([kept]);
  return kept.slice(-1).arrayBuffer().then(() => kept, () => undefined);
}

/** @returns {Promise<ArrayBuffer|undefined>} */
export function copyOf(sha256) {
  return transact(["copies"], "readonly", ({ copies }) => asked(copies.get(sha256)));
}

/** @param {[string, ArrayBuffer][]} list */
export function keepCopies(list) {
  return transact(["copies"], "readwrite", ({ copies }) => {
    for (const [sha256, bytes] of list) copies.put(bytes, sha256);
  });
}

/** @returns {Promise<Set<string>>} digests a copy is here of */
export async function copiesHere() {
  return new Set(await transact(["copies"], "readonly", ({ copies }) => asked(copies.getAllKeys())));
}

/** Whether the laptop has a photograph and found it whole, so that its bytes may go from here. */
export function isSafeThere({ state, lookedAt }) {
  return state === "sent" && Boolean(lookedAt);
}

/** Clear the bytes of photographs the laptop has; small copies stay. */
export function clearSent() {
  return transact(["pictures", "originals"], "readwrite", async ({ pictures, originals }) => {
    const sent = (await asked(pictures.getAll())).filter(isSafeThere);
    for (const { sha256 } of sent) {
      originals.delete(sha256);
      pictures.delete(sha256);
    }
    return sent.length;
  });
}

/** Clear the small copies of photographs whose originals are not here: the laptop gives them again. */
export function clearCopies() {
  return transact(["copies", "originals"], "readwrite", async ({ copies, originals }) => {
    const own = new Set(await asked(originals.getAllKeys()));
    const fetched = (await asked(copies.getAllKeys())).filter((sha256) => !own.has(sha256));
    for (const sha256 of fetched) copies.delete(sha256);
    return fetched.length;
  });
}

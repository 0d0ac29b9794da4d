/**
 * The phone's own store: the only module that touches IndexedDB.
 *
 * Writes are strict: a promise kept here means that the browser was told it is on disk. An upgrade only ever adds.
 */

import { Refusal } from "../../checks/refusal.js";
import { giveUpRoom } from "./reserve.js";

const NAME = "fieldbook";
const VERSION = 2;
const STORES = {
  facts: {}, // name -> value: what joined, how far it is, what the fitter chose
  entries: { keyPath: "revision" }, // as pulled
  packed: {}, // the same by the thousand, to be read at once (see packed.js)
  acknowledged: { keyPath: "revision" }, // own entries the server has, that were not pulled yet
  outbox: { keyPath: "n", autoIncrement: true }, // in the order made
  shelf: { keyPath: "n" }, // refused, each under its place in that order
  pictures: { keyPath: "sha256" }, // what is known of each photograph taken here
  originals: {}, // sha256 -> Blob; ArrayBuffer where the browser keeps no Blobs
  copies: {}, // sha256 -> ArrayBuffer of a small JPEG
  drafts: { keyPath: "key" },
};

const BULKY = ["originals", "copies"]; // may not use the room kept for entries
const FULL = "QuotaExceededError";

let opening = null;
const listeners = new Set();

/**
 * Be told of trouble with the store: "blocked" (another window holds an older one), "newer" (this page is too old),
 * "scarce" (no room for photographs), "unkept" (a draft could not be kept), and of the end of these: "room", "kept".
 * @param {(trouble: string) => void} listener
 */
export function onTrouble(listener) {
  listeners.add(listener);
}

/**
 * Do some work in one transaction; kept when the promise is kept, undone when it is broken.
 * @param {string[]} names  stores
 * @param {"readonly"|"readwrite"} mode
 * @param {(stores: Record<string, IDBObjectStore>) => any} work  may await nothing but `asked`
 * @returns {Promise<any>} what the work gave
 * @throws {Refusal} storage-full, storage-failed
 */
export async function transact(names, mode, work) {
  try {
    return await attempt(names, mode, work).catch(async (error) => {
      if (!(await mended(error, names))) throw error;
      return attempt(names, mode, work);
    });
  } catch (error) {
    throw told(error);
  }
}

/** Whether another attempt may go better: with a new connection, or with the room that is kept for entries. */
async function mended(error, names) {
  if (lost(error)) {
    // The browser drops its connection when the app was long in the background.
    await close();
    return true;
  }
  if (error?.name !== FULL || names.some((name) => BULKY.includes(name))) return false;
  tell("scarce");
  return giveUpRoom();
}

/** The result of one request, inside a transaction. */
export function asked(request) {
  return new Promise((keep, fail) => {
    request.onsuccess = () => keep(request.result);
    request.onerror = () => fail(request.error);
  });
}

async function attempt(names, mode, work) {
  const database = await (opening ??= open());
  const transaction = database.transaction(names, mode, { durability: "strict" });
  const stores = Object.fromEntries(names.map((name) => [name, transaction.objectStore(name)]));
  const done = new Promise((keep, fail) => {
    transaction.oncomplete = keep;
    transaction.onabort = () => fail(transaction.error ?? new DOMException("undone", "AbortError"));
  });
  done.catch(() => {}); // the work itself may fail first, and is waited for first
  try {
    const result = await work(stores);
    await done;
    return result;
  } catch (error) {
    undo(transaction);
    throw transaction.error ?? error;
  }
}

function undo(transaction) {
  try {
    transaction.abort();
  } catch {
    // it is over already
  }
}

function open() {
  return new Promise((keep, fail) => {
    const request = indexedDB.open(NAME, VERSION);
    request.onupgradeneeded = () => upgrade(request.result);
    request.onblocked = () => tell("blocked");
    request.onerror = () => {
      opening = null;
      if (request.error?.name === "VersionError") tell("newer");
      fail(request.error);
    };
    request.onsuccess = () => {
      const database = request.result;
      database.onversionchange = () => {
        close();
        tell("newer");
      };
      database.onclose = () => (opening = null);
      keep(database);
    };
  });
}

function upgrade(database) {
  for (const [name, options] of Object.entries(STORES)) {
    if (database.objectStoreNames.contains(name)) continue;
    const store = database.createObjectStore(name, options);
    if (name === "outbox") store.createIndex("id", "entry.id", { unique: true });
  }
}

async function close() {
  const closing = opening;
  opening = null;
  await closing?.then((database) => database.close()).catch(() => {});
}

/** Tell whoever attends to it that something is wrong with the store. */
export function tell(trouble) {
  for (const listener of listeners) listener(trouble);
}

function lost(error) {
  return ["InvalidStateError", "UnknownError", "AbortError"].includes(error?.name);
}

/** What is said where there is no room. */
export function noRoom() {
  const remedy = "Send what is not sent yet, then clear photographs that are on the laptop already, under This phone.";
  return new Refusal("storage-full", "This phone has no more room for the book; this was not saved.", remedy);
}

function told(error) {
  if (error?.name === FULL) return noRoom();
  if (error instanceof Refusal || !(error instanceof DOMException)) return error;
  const remedy = "Close the app and open it again; what was saved before is safe.";
  return new Refusal("storage-failed", `This phone's store did not answer (${error.name}).`, remedy);
}

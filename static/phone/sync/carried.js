/**
 * Carried files (DEVELOPERS.md): all that waits written out as one file, and a file of the laptop's taken in, by the
 * same steps as sync. A file without its end is refused whole.
 */

import { Refusal } from "../../checks/refusal.js";
import { momentOf } from "../book/moments.js";
import { readyToGo } from "../book/versions.js";
import { readFacts } from "../store/facts.js";
import { beginEpoch, readLedger, storeAnswers, storePulled } from "../store/ledger.js";
import { keepCopies, notePicture, originalOf } from "../store/photographs.js";
import { clearTakenOut } from "../store/taken_out.js";
import { someHashes } from "./parting.js";

export const ENDING = ".fieldbook.jsonl";
const PROTOCOL = 1;
const PART_BYTES = 24_000_000; // what mail commonly carries, with room for its own packing

/**
 * All that waits, as files the laptop takes in any order, each whole in itself: the entries in the first, then as many
 * photographs as keep a file within a size that mail and messengers carry.
 * @param {(written: number, total: number) => void} tell  photographs
 * @returns {Promise<File[]>}
 */
export async function writeFiles(registry, tell = () => {}, partBytes = PART_BYTES) {
  const [facts, { outbox, pictures, entries, acknowledged }] = await Promise.all([readFacts(), readLedger(["outbox", "pictures", "entries", "acknowledged"])]);
  const { book, epoch, device, known } = facts;
  const at = momentOf();
  const head = { fieldbook: PROTOCOL, book, epoch, device, way: "back", described: registry.described, made_at: at, known, hashes: someHashes(entries), after: lastBefore(outbox, [...entries.filter((entry) => entry.device === device), ...acknowledged.map(({ entry }) => entry)]) };
  const sent = readyToGo(registry, outbox).map(({ entry, returned }) => (returned ? { entry, returned } : { entry }));
  const parts = [[head, ...sent].map((line) => JSON.stringify(line))];
  let size = parts[0].reduce((sum, line) => sum + line.length, 0);
  const waiting = pictures.filter(({ state }) => state === "waiting");
  for (const [done, { sha256, mediaType }] of waiting.entries()) {
    tell(done, waiting.length);
    const original = await originalOf(sha256);
    if (!original) continue;
    const line = JSON.stringify({ photograph: sha256, media_type: mediaType, base64: base64Of(await original.arrayBuffer()) });
    if (size + line.length > partBytes && (parts.at(-1)?.length ?? 0) > 1) {
      parts.push([JSON.stringify(head)]);
      size = 0;
    }
    parts.at(-1)?.push(line);
    size += line.length;
  }
  const stem = at.slice(0, 16).replaceAll(":", "");
  return parts.map((lines, place) => {
    const end = JSON.stringify({ end: lines.length });
    const name = parts.length > 1 ? `${stem}-${place + 1}-of-${parts.length}` : stem;
    return new File([...lines, end].map((line) => `${line}\n`), `${name}${ENDING}`, { type: "application/jsonl" });
  });
}

/** Which of the phone's own entries the book is known to have each that waits follows, about the same item (S14). */
function lastBefore(outbox, own) {
  const last = new Map(own.map(({ item, id }) => [item, id]));
  return Object.fromEntries(outbox.filter(({ entry, returned }) => !returned && last.has(entry.item)).map(({ entry }) => [entry.id, last.get(entry.item)]));
}

/**
 * Hand a file to the person, straight from a tap: to share where the phone can and may, else to download.
 * @throws {DOMException} AbortError, when the person turned it down
 */
export async function handOver(file) {
  const carried = file.name.endsWith(ENDING);
  const shown = carried ? new File([file], file.name.replace(ENDING, `${ENDING}.txt`), { type: "text/plain" }) : file;
  if (navigator.canShare?.({ files: [shown] })) {
    try {
      await navigator.share({ files: [shown], title: file.name });
      return;
    } catch (error) {
      if (/** @type {Error} */ (error).name === "AbortError") throw error;
    }
  }
  const a = document.createElement("a");
  a.href = URL.createObjectURL(file);
  a.download = file.name;
  a.click();
  setTimeout(() => URL.revokeObjectURL(a.href), 60_000);
}

/**
 * Take in a file the laptop wrote.
 * @param {File} file
 * @returns {Promise<{entries: number, answers: number, copies: number}>}
 * @throws {Refusal} unsuitable-file
 */
export async function takeIn(file) {
  const [head, ...lines] = read(await file.text());
  const facts = await readFacts();
  if (head.fieldbook !== PROTOCOL || head.way !== "out") throw unsuitable("This is not a file that a laptop wrote for a phone.");
  if (head.book !== facts.book) throw unsuitable("This file is of another book.");
  if (head.device && head.device !== facts.device) throw unsuitable("This file was written for another phone.");
  const entries = lines.filter(({ entry }) => entry).map(({ entry, hash }) => (hash ? { ...entry, hash } : entry));
  const last = entries.at(-1);
  const told = { epoch: head.epoch, revision: last?.revision, digest: last?.hash };
  const answers = lines.filter(({ answer }) => answer).map(({ answer }) => answer);
  const copies = lines.filter(({ copy }) => copy).map(({ copy, base64 }) => [copy, bytesOf(base64)]);
  if (head.epoch !== facts.epoch) await beginEpoch(head.epoch, ...(await sharedWith(entries)));
  else refuseAnother(facts.known, entries);
  await storeAnswers(answers.filter(({ status }) => status !== "waiting"));
  for (const { id, status, findings } of answers.filter((answer) => /^[0-9a-f]{64}$/.test(answer.id))) {
    await notePicture(id, status === "refused" ? { state: "refused", findings } : { state: "sent", lookedAt: true });
  }
  await storePulled(head.epoch, entries, told);
  const gone = lines.find((line) => "taken_out" in line);
  if (gone) await clearTakenOut({ ...gone, entries: entries.filter(({ id }) => gone.ids.includes(id)) });
  await keepCopies(copies);
  return { entries: entries.length, answers: answers.length, copies: copies.length };
}

/** The last revision both epochs share, and its hash where that proves it. */
async function sharedWith(entries) {
  const { entries: here } = await readLedger(["entries"]);
  const differ = here.findIndex(({ id, hash }, at) => entries[at]?.id !== id || (hash && entries[at].hash && entries[at].hash !== hash));
  const shared = differ < 0 ? Math.min(here.length, entries.length) : differ;
  const { hash: digest } = entries[shared - 1] ?? {};
  return /** @type {const} */ ([shared, digest && here[shared - 1].hash === digest ? { revision: shared, digest } : null]);
}

/** A file of this phone's epoch that denies what the phone knows, or does not know it yet, is not mixed in. */
function refuseAnother(known, entries) {
  if (!known?.revision || !entries.some(({ hash }) => hash)) return;
  const { hash } = entries[known.revision - 1] ?? {};
  if (hash === known.digest) return;
  if (hash) throw new Refusal("unsuitable-file", "This file is of a book that was put back from a copy and lacks what this phone knows.", "Carry this phone’s own file to the laptop first, then import a new one; nothing here has changed.");
  throw unsuitable("This file is older than what this phone knows already.");
}

function read(text) {
  const lines = text.split("\n").filter(Boolean);
  let parsed;
  try {
    parsed = lines.map((line) => JSON.parse(line));
  } catch {
    throw unsuitable("This file is damaged, or was not written by a laptop.");
  }
  const end = parsed.pop();
  if (end?.end !== parsed.length) throw unsuitable("The end of the file is missing.");
  return parsed;
}

function unsuitable(reason) {
  return new Refusal("unsuitable-file", reason, "Write it again at the laptop, under Phones; nothing here has changed.");
}

function base64Of(buffer) {
  const bytes = new Uint8Array(buffer);
  let text = "";
  for (let at = 0; at < bytes.length; at += 0x8000) text += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  return btoa(text);
}

function bytesOf(base64) {
  return Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0)).buffer;
}

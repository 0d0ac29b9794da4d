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

export const ENDING = ".fieldbook.jsonl";
const PROTOCOL = 1;

/**
 * All that waits, as a file.
 * @returns {Promise<File>}
 */
export async function writeFile(registry) {
  const [{ book, epoch, device }, { outbox, pictures }] = await Promise.all([readFacts(), readLedger(["outbox", "pictures"])]);
  const at = momentOf();
  const lines = [
    { fieldbook: PROTOCOL, book, epoch, device, way: "back", described: registry.described, made_at: at },
    ...readyToGo(registry, outbox).map(({ entry }) => ({ entry })),
  ].map((line) => JSON.stringify(line));
  for (const { sha256, mediaType } of pictures.filter(({ state }) => state === "waiting")) {
    const bytes = await originalOf(sha256);
    if (bytes) lines.push(JSON.stringify({ photograph: sha256, media_type: mediaType, base64: base64Of(bytes) }));
  }
  lines.push(JSON.stringify({ end: lines.length }));
  const name = `${at.slice(0, 16).replaceAll(":", "")}${ENDING}`;
  return new File(lines.map((line) => `${line}\n`), name, { type: "application/jsonl" });
}

/** Hand a file to the person: to share where the phone can, else to download. */
export async function handOver(file) {
  const plain = new File([file], file.name.replace(ENDING, `${ENDING}.txt`), { type: "text/plain" });
  if (navigator.canShare?.({ files: [plain] })) {
    await navigator.share({ files: [plain], title: file.name });
    return;
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
  if (head.fieldbook !== PROTOCOL || head.way !== "out") throw unsuitable("This is no file a laptop wrote for a phone.");
  if (head.book !== facts.book) throw unsuitable("This file is of another book.");
  if (head.device && head.device !== facts.device) throw unsuitable("This file was written for another phone.");
  const entries = lines.filter(({ entry }) => entry).map(({ entry }) => entry);
  const answers = lines.filter(({ answer }) => answer).map(({ answer }) => answer);
  const copies = lines.filter(({ copy }) => copy).map(({ copy, base64 }) => [copy, bytesOf(base64)]);
  if (head.epoch !== facts.epoch) await beginEpoch(head.epoch, await sharedWith(entries));
  await storeAnswers(answers.filter(({ status }) => status !== "waiting"));
  for (const { id, status } of answers) {
    if (/^[0-9a-f]{64}$/.test(id) && (status === "accepted" || status === "repeated")) await notePicture(id, { state: "sent" });
  }
  await storePulled(head.epoch, entries);
  await keepCopies(copies);
  return { entries: entries.length, answers: answers.length, copies: copies.length };
}

/** How many entries here are the same in the file: the last revision both epochs share. */
async function sharedWith(entries) {
  const { entries: here } = await readLedger(["entries"]);
  const differ = here.findIndex(({ id }, at) => entries[at]?.id !== id);
  return differ < 0 ? Math.min(here.length, entries.length) : differ;
}

function read(text) {
  const lines = text.split("\n").filter(Boolean);
  let parsed;
  try {
    parsed = lines.map((line) => JSON.parse(line));
  } catch {
    throw unsuitable("This file is damaged, or no file of a laptop's.");
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

/** Half-filled forms, kept at every stroke, so that none is lost when the phone puts the app away. */

import { asked, tell, transact } from "./database.js";

/** @typedef {{key: string, route: string, title: string, typed: Record<string, any>, at: string, seen?: number}} Draft  `seen`: up to which revision the book was seen */

/** Those the store did not take; they last as long as the app stays open. @type {Map<string, Draft>} */
const unkept = new Map();

/** @returns {Promise<Draft|undefined>} */
export async function readDraft(key) {
  return unkept.get(key) ?? transact(["drafts"], "readonly", ({ drafts }) => asked(drafts.get(key)));
}

/** @returns {Promise<Draft[]>} */
export async function everyDraft() {
  const kept = await transact(["drafts"], "readonly", ({ drafts }) => asked(drafts.getAll()));
  return [...kept.filter(({ key }) => !unkept.has(key)), ...unkept.values()];
}

/**
 * Keep a draft; where the store does not take it, that is told, and typing goes on.
 * @param {Draft} draft
 */
export async function writeDraft(draft) {
  try {
    await transact(["drafts"], "readwrite", ({ drafts }) => void drafts.put(draft));
    if (unkept.delete(draft.key) && !unkept.size) tell("kept");
  } catch {
    unkept.set(draft.key, draft);
    tell("unkept");
  }
}

/** Try once more to keep what found no room. */
export async function keepUnkept() {
  for (const draft of [...unkept.values()]) await writeDraft(draft);
}

/** Forget a draft that was saved: its row went with the entry. */
export function forgetUnkept(key) {
  unkept.delete(key);
}

export function dropDraft(key) {
  unkept.delete(key);
  return transact(["drafts"], "readwrite", ({ drafts }) => void drafts.delete(key));
}

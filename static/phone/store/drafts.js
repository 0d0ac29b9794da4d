/** Half-filled forms, kept at every stroke, so that none is lost when the phone puts the app away. */

import { asked, transact } from "./database.js";

/** @typedef {{key: string, route: string, title: string, typed: Record<string, any>, at: string}} Draft */

/** @returns {Promise<Draft|undefined>} */
export function readDraft(key) {
  return transact(["drafts"], "readonly", ({ drafts }) => asked(drafts.get(key)));
}

/** @returns {Promise<Draft[]>} */
export function everyDraft() {
  return transact(["drafts"], "readonly", ({ drafts }) => asked(drafts.getAll()));
}

/** @param {Draft} draft */
export function writeDraft(draft) {
  return transact(["drafts"], "readwrite", ({ drafts }) => void drafts.put(draft));
}

export function dropDraft(key) {
  return transact(["drafts"], "readwrite", ({ drafts }) => void drafts.delete(key));
}

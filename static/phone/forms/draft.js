/** Keeping what is typed at every stroke: one write at a time, the last one always written. */

import { momentOf } from "../book/moments.js";
import { dropDraft, readDraft, writeDraft } from "../store/drafts.js";

const GOES_ALONG = ["seen", "was", "withdrawn", "item"];

/**
 * The draft of one form.
 * @param {{cursor: number}} notebook
 * @param {{key: string, route: string, title: string, item?: string, was?: Record<string, any>, withdrawn?: boolean}} about  `item`:
 *   what it makes, the same in every window that has the draft; `was`, `withdrawn`: its item as the form was opened
 */
export async function draftOf(notebook, about) {
  const before = await readDraft(about.key);
  const kept = GOES_ALONG.filter((name) => before?.[name] !== undefined).map((name) => [name, before[name]]);
  /** @type {typeof about & {seen: number}} what is stored beside what was typed; `seen`: up to which revision the book was seen */
  const row = { seen: notebook.cursor, ...about, ...Object.fromEntries(kept) };
  let [next, writing, over] = [null, null, false];

  async function write() {
    while (next && !over) {
      const typed = next;
      next = null;
      await writeDraft({ ...row, typed, at: momentOf() });
    }
    writing = null;
  }

  return {
    key: about.key,
    row,
    /** What was typed when the form was last open, and when. */
    before,
    /** Whether it was saved or thrown away. */
    get over() {
      return over;
    },
    keep(typed) {
      if (over) return Promise.resolve();
      next = typed;
      return (writing ??= write());
    },
    /** Nothing is to be kept any more: it was saved or thrown away. */
    async end() {
      over = true;
      await writing;
    },
    /** It was not saved after all. */
    resume() {
      over = false;
      if (next) writing ??= write();
    },
    async drop() {
      await this.end();
      await dropDraft(about.key);
    },
  };
}

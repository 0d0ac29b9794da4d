/** Keeping what is typed at every stroke: one write at a time, the last one always written. */

import { momentOf } from "../book/moments.js";
import { dropDraft, readDraft, writeDraft } from "../store/drafts.js";

/**
 * The draft of one form.
 * @param {{key: string, route: string, title: string}} about
 */
export async function draftOf(about) {
  const before = await readDraft(about.key);
  let [next, writing, over] = [null, null, false];

  async function write() {
    while (next && !over) {
      const typed = next;
      next = null;
      await writeDraft({ ...about, typed, at: momentOf() });
    }
    writing = null;
  }

  return {
    key: about.key,
    /** What was typed when the form was last open, and when. */
    before,
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

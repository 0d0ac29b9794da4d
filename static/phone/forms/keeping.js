/** Keeping what is typed on a page that is no form of a kind: at every stroke, until it is entered or empty again. */

import { momentOf } from "../book/moments.js";
import { dropDraft, readDraft, writeDraft } from "../store/drafts.js";

const INPUTS = "input[data-slot]:not([type=checkbox]):not([type=file]), textarea[data-slot], select[data-slot]";

/**
 * Bring back what was typed when the page was last open, and keep what is typed from now on.
 * @param {import("../book/registry.js").Context} context
 * @param {HTMLElement} body  inputs are told apart by their slots, and by the nearest `data-of` around them
 * @param {{key: string, title: string}} about
 * @param {Record<string, any>} [more]  what is chosen or drawn beside the inputs; brought back into it
 * @returns {Promise<{key: string, seen: number, keep: () => Promise<void>, drop: () => Promise<void>, isGone: () => Promise<boolean>}>}  `seen`:
 *   up to which revision the book was seen by whoever types; `isGone`: whether another window has entered it
 */
export async function keepTyped(context, body, { key, title }, more = {}) {
  const route = location.hash;
  const before = await readDraft(key);
  const seen = before?.seen ?? context.notebook.cursor;
  const first = stateOf(body, more);
  let last = Promise.resolve();
  const after = (work) => (last = last.then(work).catch(context.fail));
  if (before) {
    const { inputs } = before.typed;
    for (const input of inputsOf(body)) input.value = inputs[nameOf(input)] ?? input.value;
    Object.assign(more, before.typed.more);
    context.say("What you had typed here is back.");
  }
  let lies = Boolean(before);
  const lost = async () => lies && !(await readDraft(key));
  const keep = () =>
    after(async () => {
      if (await lost()) return; // entered elsewhere: it does not come to life again
      lies = !same(stateOf(body, more), first);
      await (lies ? writeDraft({ key, route, title, seen, typed: stateOf(body, more), at: momentOf() }) : dropDraft(key));
    });
  body.addEventListener("input", keep);
  return {
    key,
    seen,
    keep,
    drop: () => after(() => dropDraft(key)),
    isGone: async () => {
      await last;
      return lost();
    },
  };
}

/** @returns {HTMLInputElement[]} */
const inputsOf = (body) => [...body.querySelectorAll(INPUTS)];
const nameOf = (input) => `${input.closest("[data-of]")?.dataset.of ?? ""} ${input.dataset.slot}`.trim();
const stateOf = (body, more) => ({ inputs: Object.fromEntries(inputsOf(body).map((input) => [nameOf(input), input.value])), more: { ...more } });
const same = (one, other) => JSON.stringify(one) === JSON.stringify(other);

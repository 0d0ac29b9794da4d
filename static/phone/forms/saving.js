/** Saving what a form says: once, however often it is pressed, and never at the cost of what was typed. */

import { pageOf } from "../pages/parts.js";

/**
 * Work that a second press does not do again: not while it runs, and not once it went well.
 * @template {any[]} Given
 * @param {(...given: Given) => Promise<boolean>} work  gives whether it went well
 * @returns {(...given: Given) => Promise<boolean>}
 */
export function once(work) {
  /** @type {Promise<boolean>|null} */
  let under = null;
  return (...given) => {
    under ??= work(...given).then(
      (well) => {
        if (!well) under = null;
        return well;
      },
      (error) => {
        under = null;
        throw error;
      },
    );
    return under;
  };
}

/**
 * Write entries that came of a form; where that fails it is told, and what was typed stays.
 * @param {import("../book/registry.js").Context} context
 * @param {any} draft  of the form
 * @param {object[]} changes
 * @param {object} [more]  as `notebook.write` takes it
 * @returns {Promise<boolean>} whether it was written
 */
export async function wrote(context, draft, changes, more = {}) {
  await draft.end();
  const { cursor } = context.notebook;
  // What others did since the form was opened was not seen by whoever filled it in.
  const base = Math.min(draft.row.seen, cursor);
  try {
    await context.notebook.write(changes.map((change) => ({ base, ...change })), { draft: draft.key, ...more });
  } catch (error) {
    draft.resume();
    context.fail(error);
    return false;
  }
  context.runner.nudge();
  return true;
}

/** Those of the values of a form that are not as they were: only they are entered, so that no other is set again. */
export function changedOf(values, before) {
  const told = (value) => JSON.stringify(value ?? null);
  return Object.fromEntries(Object.entries(values).filter(([name, value]) => told(value) !== told(before[name])));
}

/** What a draft makes was entered from another window: it is not entered twice. */
export async function enteredAlready(context, draft, about) {
  await draft.drop().catch(context.fail);
  context.say("This was saved in another window already.");
  await context.go(pageOf(about), { replace: true });
  return true;
}

/** Throw a draft away once it is agreed that it may go; gives whether it was. */
export async function thrownAway(context, draft, asks) {
  if (asks && !confirm("Throw away what you typed here? It cannot be brought back.")) return false;
  await draft.drop().catch(context.fail);
  context.say("Thrown away.");
  history.back();
  return true;
}

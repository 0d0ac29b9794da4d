/** Entering things that no form of their own kind was filled in for: judged as any other, and written together. */

import { numberIn } from "../book/figures.js";
import { uuid7 } from "../book/identity.js";

/**
 * Write changes together, all or none; says what is wrong with the first that does not fit.
 * @param {import("../book/registry.js").Context} context
 * @param {{kind: string, item?: any, values: Record<string, any>}[]} changes  `item` as it stands, where it is changed
 * @param {string} words  said when they are kept
 * @param {Awaited<ReturnType<typeof import("./keeping.js").keepTyped>>} [kept]  what was typed: it goes as they are written
 * @param {number} [seen]  up to which revision the book was seen as the page was opened: what others changed since was not
 * @returns {Promise<string[]|null>} the ids
 */
export async function entered(context, changes, words, kept, seen = kept?.seen) {
  const { notebook } = context;
  if (await kept?.isGone()) {
    context.say("This was entered in another window already, and is not entered twice.");
    return null;
  }
  const written = [];
  for (const { kind, item, values } of changes) {
    const id = item?.id ?? uuid7();
    const before = item?.values ?? {};
    const filled = Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined && value !== "" && (item || value !== null)));
    const judged = notebook.judge({ kind, id, before, values: filled });
    if (judged.findings.length) {
      context.fail(judged.findings[0]);
      return null;
    }
    written.push({ kind, item: id, set: judged.values, base: Math.min(seen ?? notebook.cursor, notebook.cursor) });
  }
  try {
    await notebook.write(written, { draft: kept?.key });
  } catch (error) {
    context.fail(error);
    return null;
  }
  await kept?.drop();
  context.say(words);
  context.runner.nudge();
  return written.map(({ item }) => item);
}

/** A figure as every form reads one, with its unit or without; null where nothing is typed, NaN where it is none or can be read two ways. */
export function figureIn(input, unit = "mm") {
  const number = input.value.trim() ? numberIn(input.value, unit) : null;
  return typeof number === "string" ? NaN : number;
}

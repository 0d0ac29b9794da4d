/** Photographs taken one after the other and entered at once: what of and what for is known from where one stands. */

import { Refusal } from "../../checks/refusal.js";
import { uuid7 } from "../book/identity.js";
import { titleOf } from "../book/site.js";
import { countOf } from "../book/wording.js";
import { REDUCED_PX, TOO_LARGE, fieldsOf, readPhotograph } from "../camera.js";
import { presets } from "../forms/presets.js";
import { notice, unsay } from "../notices.js";
import { made } from "./markup.js";

const EVIDENCE = ["agreement", "decision", "zone", "limit", "reading", "observation", "patch", "hold"];
const BY_STATE = { planned: "at work", fitted: "as fitted", "taken down": "after removal" };

/** What a photograph of an item is for, as it stands now. */
export function purposeOf(item) {
  if (item.values.state in BY_STATE) return BY_STATE[item.values.state];
  if (item.kind === "cost") return "receipt";
  return EVIDENCE.includes(item.kind) ? "evidence" : "as found";
}

/**
 * The action that opens the camera on a page about something: what is taken there is entered at once.
 * @param {import("../book/registry.js").Context} context
 * @param {HTMLElement} body  of the page
 * @param {import("../book/site.js").Item} subject
 * @param {string} [purpose]  where it is not the one its state tells
 */
export function shutter(context, body, subject, purpose) {
  const input = /** @type {HTMLInputElement} */ (made("shutter"));
  body.append(input);
  input.addEventListener("change", async () => {
    const files = [...input.files];
    input.value = "";
    const kept = await enterPhotographs(context, subject, files, undefined, purpose);
    if (kept && !purpose) context.refresh(); // else the page is at work, and what is typed on it stays
  });
  return { words: "Photograph", act: () => input.click() };
}

/**
 * Enter photographs of something, each by itself: what is wrong with one stops no other. Says how many were kept, and
 * offers to reduce those that are too large.
 * @param {import("../book/registry.js").Context} context
 * @param {import("../book/site.js").Item} subject
 * @param {File[]} files
 * @param {number} longestPx  0: as taken
 * @param {string} purpose
 * @returns {Promise<number>} how many were kept
 */
export async function enterPhotographs(context, subject, files, longestPx = context.notebook.facts.longest_px ?? 0, purpose = purposeOf(subject)) {
  /** @type {{file: File, error: any}[]} */
  const failed = [];
  for (const file of files) await enter(context, subject, purpose, file, longestPx).catch((error) => failed.push({ file, error }));
  const count = files.length - failed.length;
  if (count) context.say(`${countOf(count, "photograph")} of ${titleOf(context.registry, subject)}, ${purpose}: saved on this phone.`);
  const tooLarge = failed.filter(({ error }) => error.code === TOO_LARGE);
  const others = failed.filter(({ error }) => error.code !== TOO_LARGE);
  if (tooLarge.length) offerToReduce(context, subject, tooLarge, purpose);
  if (others.length) context.fail(together(others.map(({ error }) => error), files.length));
  context.runner.nudge();
  return count;
}

async function enter({ registry, notebook }, subject, purpose, file, longestPx) {
  const kind = registry.kinds.get("photograph");
  const picture = await readPhotograph(file, longestPx);
  const given = { ...presets({ registry, notebook }, kind, new URLSearchParams({ subject: subject.id, purpose })), ...fieldsOf(picture) };
  const values = Object.fromEntries(Object.entries(given).filter(([, value]) => value !== null && value !== undefined));
  const id = uuid7();
  const judged = notebook.judge({ kind: "photograph", id, values });
  if (judged.findings.length) throw judged.findings[0];
  const waits = ["draft", "refused"].includes(picture.state) ? { ...picture, state: "waiting", findings: undefined } : undefined;
  await notebook.write([{ kind: "photograph", item: id, set: judged.values }], { picture: waits });
}

/** They are not on this phone yet: the notice stays until they are, or are given up. */
function offerToReduce(context, subject, tooLarge, purpose) {
  const words = `${countOf(tooLarge.length, "photograph")} not kept yet. ${tooLarge[0].error.message}`;
  notice("too-large", words, "Reduce and keep", async () => {
    unsay("too-large");
    if (await enterPhotographs(context, subject, tooLarge.map(({ file }) => file), REDUCED_PX, purpose)) context.refresh();
  });
}

/** One refusal for all that were not kept. */
function together(errors, of) {
  const [first] = errors;
  if (of === 1 || !(first instanceof Refusal)) return first;
  return new Refusal(first.code, `${errors.length} of ${countOf(of, "photograph")} not kept: ${first.reason}`, first.remedy);
}

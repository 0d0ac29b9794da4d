/** Photographs taken one after the other and entered at once: what of and what for is known from where one stands. */

import { uuid7 } from "../book/identity.js";
import { titleOf } from "../book/site.js";
import { countOf } from "../book/wording.js";
import { fieldsOf, readPhotograph } from "../camera.js";
import { presets } from "../forms/presets.js";
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
 */
export function shutter(context, body, subject) {
  const input = /** @type {HTMLInputElement} */ (made("shutter"));
  body.append(input);
  input.addEventListener("change", async () => {
    const files = [...input.files];
    input.value = "";
    if (await enterPhotographs(context, subject, files)) context.refresh();
  });
  return { words: "Photograph", act: () => input.click() };
}

/**
 * Enter photographs of something, each by itself; says how many were.
 * @param {import("../book/registry.js").Context} context
 * @param {import("../book/site.js").Item} subject
 * @param {Iterable<File>} files
 */
export async function enterPhotographs(context, subject, files) {
  const { registry, notebook } = context;
  const kind = registry.kinds.get("photograph");
  const purpose = purposeOf(subject);
  let count = 0;
  try {
    for (const file of files) {
      const picture = await readPhotograph(file, notebook.facts.longest_px ?? 0);
      const given = { ...presets(context, kind, new URLSearchParams({ subject: subject.id, purpose })), ...fieldsOf(picture) };
      const values = Object.fromEntries(Object.entries(given).filter(([, value]) => value !== null && value !== undefined));
      const id = uuid7();
      const judged = notebook.judge({ kind: "photograph", id, values });
      if (judged.findings.length) throw judged.findings[0];
      const waits = ["draft", "refused"].includes(picture.state) ? { ...picture, state: "waiting", findings: undefined } : undefined;
      await notebook.write([{ kind: "photograph", item: id, set: judged.values }], { picture: waits });
      count += 1;
    }
  } catch (error) {
    context.fail(error);
  }
  if (count) context.say(`${countOf(count, "photograph")} of ${titleOf(registry, subject)}, ${purpose}: saved on this phone.`);
  context.runner.nudge();
  return count;
}

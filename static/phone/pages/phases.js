/** The phases of the site as the desk answered: what each brings, what it does to earlier ones, and what it makes worse. */

import { dayOf } from "../book/wording.js";
import { titleOf } from "../book/site.js";
import { filled, link, text } from "./markup.js";
import { nothing, pageOf, wordOf } from "./parts.js";

export function phasesPage(context) {
  const { notebook } = context;
  if (!notebook.site) return null;
  const { desk } = notebook.site;
  const told = desk?.phases ?? [];
  const body = filled("phases-page", {
    desk: !desk ? "The desk answers this when phone and desk next meet." : desk.fresh ? null : `As the desk answered on ${dayOf(desk.day)}; something was entered since.`,
    phases: told.length ? told.map((phase, place) => phaseOf(context, phase, place)) : [nothing("No phase is known here yet.")],
  });
  return { title: "Phases", live: () => true, body, actions: [{ words: "Due", href: "#/due" }, { words: "Taking down", href: "#/down" }] };
}

function phaseOf(context, { name, brings, ends, meets, worse }, place) {
  const listed = (nodes) => nodes.map((parts) => filled("phases-line", { words: parts }));
  const named = (id) => nameOf(context, id);
  const joined = (ids) => ids.flatMap((id, at) => [...(at ? [text(", ")] : []), named(id)]);
  return filled("phases-part", {
    name: !name ? "No phase entered" : /^\d/.test(name) ? `Phase ${name}` : name,
    brings: brings.length ? joined(brings) : "It brings nothing.",
    ends: ends.length ? [text("Comes down for it: "), ...joined(ends)] : null,
    meets: meets.length ? listed(meets.map(([later, does, earlier]) => [named(later), text(` ${does} `), named(earlier)])) : null,
    worse: worse.length ? listed(alike(worse).map(({ subjects, question, was, word, sentence }) => [wordOf(word, `${question}: ${word}`), text(" "), ...joined(subjects), text(` (was ${was}): ${sentence}`)])) : null,
    fine: place && !worse.length ? "It makes no finding about what was there before worse." : null,
  });
}

/** What becomes worse in the same words, in one line: the screws of a rail share them. */
function alike(worse) {
  const lines = new Map();
  for (const { subject, ...said } of worse) {
    const words = JSON.stringify(said);
    if (!lines.has(words)) lines.set(words, { ...said, subjects: [] });
    lines.get(words).subjects.push(subject);
  }
  return [...lines.values()];
}

function nameOf({ registry, notebook }, id) {
  const item = notebook.items.get(id);
  return item ? link(titleOf(registry, item), pageOf(item)) : text("something no longer there");
}

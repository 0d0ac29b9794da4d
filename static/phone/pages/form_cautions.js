/** What a form cautions of while it is filled in: a hole that is made, what hangs overhead, a mark that is taken. */

import { makesHole } from "../book/acts.js";
import { overhead } from "../book/places.js";
import { sameMarkWarning } from "../book/same_mark.js";
import { afterKey } from "../forms/after_key.js";
import { meant, typedIn, warningAt } from "../forms/inputs.js";
import { fill, made } from "./markup.js";
import { cautionsOf } from "./parts.js";

/** Keep them in step with what is chosen, below the field each turns on. */
export function addCautions({ context, about, form, fields }) {
  if (about.kind.name !== "fixing" || !context.notebook.site) return;
  const { registry, notebook } = context;
  const turnsOn = {
    hole: (values) => makesHole(notebook.site, { values }),
    overhead: (values) => notebook.site.get(values.face)?.kind === "face" && overhead(notebook.site.get(values.face)),
  };
  const notes = Object.entries(registry.minded).map(([when, keys]) => {
    const note = made("minded");
    fill(note, { cautions: cautionsOf(context, keys) });
    form.elements[when === "hole" ? "hole" : "face"].closest(".input").after(note);
    return { note, when };
  });
  const cautions = afterKey(function* tell() {
    const { values } = meant(fields, typedIn(form, fields));
    yield;
    for (const { note, when } of notes) note.hidden = !turnsOn[when]({ ...about.before, ...values });
  });
  form.addEventListener("input", cautions.later);
  cautions.now();
}

/** Told at once, since two things of one mark cannot be told apart later. */
export function addMarkWarning({ context, about: { kind, id }, form }) {
  const { registry, notebook } = context;
  const warn = warningAt(form, kind.numbered_by);
  const tell = () => warn(sameMarkWarning(registry, notebook.site, kind, form.elements[kind.numbered_by].value, id ?? ""));
  form.elements[kind.numbered_by].addEventListener("input", tell);
  tell();
}

/** The cautions of a fixing's form while what is typed calls for them: a hole is made, or it hangs overhead. */

import { makesHole } from "../book/acts.js";
import { overhead } from "../book/places.js";
import { meant, typedIn } from "../forms/inputs.js";
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
  const tell = () => {
    const { values } = meant(fields, typedIn(form, fields));
    for (const { note, when } of notes) note.hidden = !turnsOn[when]({ ...about.before, ...values });
  };
  form.addEventListener("input", tell);
  tell();
}

/** The verdict about a fixing or a fitting while its form is filled in. */

import { appraising } from "../book/appraisal.js";
import { supposing } from "../book/supposing.js";
import { afterKey } from "../forms/after_key.js";
import { meant, typedIn } from "../forms/inputs.js";
import { showVerdict } from "./verdict_line.js";

/**
 * Show it above the keys, now and after every change; `settled` of the state gives what it was made from.
 * @param {any} state  of a form
 */
export function addVerdict(state) {
  const { context, about, form, fields, draft, under } = state;
  const { registry, notebook } = context;
  if (about.kind.name !== "fixing" && about.kind.name !== "fitting") return;
  const id = draft.row.item;
  let found = /** @type {any[]} */ ([]);
  const verdict = afterKey(function* tell() {
    const { values: typed, findings } = meant(fields, typedIn(form, fields));
    const wrong = findings.some(({ code }) => code !== "missing");
    const values = { ...about.before, ...typed };
    const face = notebook.site?.get(values.face);
    const needed = about.kind.name === "fixing" ? ["x_mm", "z_mm", "contact_radius_mm", "sort", "hole", "fabric"] : ["x_mm", "z_mm", "width_mm", "height_mm"];
    const blank = needed.some((name) => (values[name] ?? null) === null);
    const item = { kind: about.kind.name, id, values, withdrawn: false };
    const asked = !wrong && !blank && face?.kind === "face";
    found = asked ? yield* appraising(registry, supposing(registry, notebook.site, item), item) : [];
    yield;
    showVerdict(under, found);
  });
  state.settled = () => {
    verdict.finish();
    return found;
  };
  form.addEventListener("input", verdict.later);
  verdict.now();
}

/** Ticking off a planned fixing as fitted: where it came to sit, checked again on the spot. */

import { appraise } from "../book/appraisal.js";
import { today } from "../book/moments.js";
import { deviationOf } from "../book/places.js";
import { calledOf, titleOf } from "../book/site.js";
import { figureOf } from "../book/wording.js";
import { roundedUp } from "../../checks/limits.js";
import { draftOf } from "../forms/draft.js";
import { addSignToggles, asTyped, showErrors, meant, show, typedIn } from "../forms/inputs.js";
import { fill, filled, made, rows, slot, wire } from "./markup.js";
import { cautionsOf, findingOf, none, pageOf, titled, trailOf } from "./parts.js";
import { sayDraftKept } from "./form.js";

export async function fittedPage(context, id) {
  const { registry, notebook } = context;
  const fixing = notebook.site?.get(id);
  if (fixing?.kind !== "fixing") return null;
  const kind = registry.kinds.get("fixing");
  const fields = kind.fields.filter(({ ticked }) => ticked);
  const title = titleOf(registry, fixing);
  const draft = await draftOf({ key: `fitted ${id}`, route: location.hash, title: `${title} as fitted` });
  const body = filled("fitted-page", { title, plan: planOf(context, fixing), cautions: cautionsOf(context, ["loads", "overhead work", "hidden services", "dust"]) });
  const form = slot(body, "form");
  form.append(...askedInputs(fields));
  addSignToggles(form, (name) => (kind.byName.get(name)?.low ?? 0) < 0);
  show(form, fields, draft.before?.typed ?? asTyped(fields, usual(notebook, fixing)));
  if (draft.before) sayDraftKept(body, draft.before.at);
  slot(body, "whole").href = `#/change/${id}`;
  const state = { context, fixing, body, form, fields, draft };
  form.addEventListener("input", () => {
    state.touched = true;
    keep(state);
    reckon(state);
  });
  form.addEventListener("submit", (event) => event.preventDefault());
  wire(body, { discard: () => discard(state) });
  reckon(state);
  return {
    title,
    trail: trailOf(context, fixing),
    body,
    writing: true,
    actions: [{ words: "Back", act: () => history.back() }, { words: "Fitted", main: true, act: () => save(state) }],
    leave: () => state.touched && keep(state),
  };
}

/** The inputs of the fixing's own form that are asked for here. */
function askedInputs(fields) {
  const whole = made("form-fixing");
  return fields.map(({ name }) => {
    const input = whole.querySelector(`[id="${name}"]`).closest(".input");
    if (name.startsWith("fitted_") && name.endsWith("_mm")) input.classList.add("big");
    return input;
  });
}

function usual({ facts }, { values }) {
  return {
    ...values,
    fitted_x_mm: values.fitted_x_mm ?? values.x_mm,
    fitted_z_mm: values.fitted_z_mm ?? values.z_mm,
    fitted_on: values.fitted_on ?? today(),
    fitted_by: values.fitted_by ?? facts.fitted_by ?? null,
  };
}

function planOf(context, { values }) {
  const { registry, notebook } = context;
  const place = `x ${figureOf(values.x_mm)}, z ${figureOf(values.z_mm, "mm")}`;
  const hold = notebook.items.get(values.hold);
  return rows("fact", [
    ["Planned at", place],
    ["For", titled(context)(values.fitting)],
    ["What", [values.sort, values.size].filter(Boolean).join(" ")],
    ["Hole", values.hole === "existing" && hold ? `existing, ${calledOf(registry, hold)}` : values.hole],
    ["Into", [values.fabric, values.into].filter(Boolean).join(": ")],
    ["Penetration", figureOf(values.penetration_mm, "mm")],
    ["Torque", figureOf(values.torque_nm, "N m")],
  ]);
}

function keep({ form, fields, draft }) {
  return draft.keep(typedIn(form, fields));
}

/** The deviation and the verdicts, for the place that is typed now. */
function reckon({ context, fixing, body, form, fields }) {
  const { registry, notebook } = context;
  const { values, findings } = meant(fields, typedIn(form, fields));
  if (findings.length) {
    fill(body, { deviation: "Not known yet", findings: none(findings[0].message) });
    return;
  }
  const would = { ...fixing, values: { ...fixing.values, ...values, state: "fitted" } };
  const off = deviationOf(would);
  fill(body, { deviation: off === null ? "Not measured" : figureOf(roundedUp(off), "mm") });
  const { site } = notebook;
  const face = site.get(fixing.values.face);
  const as = { ...site, fixingsOn: (of) => site.fixingsOn(of).map((one) => (one.id === fixing.id ? would : one)) };
  const found = appraise(registry, as, face).filter(({ subject }) => subject.id === fixing.id);
  fill(body, { findings: found.length ? found.map((one) => findingOf(context, one)) : none("No zone or limit of this face is about it.") });
}

async function discard({ context, draft }) {
  await draft.drop();
  context.say("Thrown away.");
  history.back();
}

async function save({ context, fixing, body, form, fields, draft }) {
  const { notebook } = context;
  const read = meant(fields, typedIn(form, fields));
  /** @type {Record<string, any>} */
  const given = { ...read.values, state: "fitted" };
  const judged = read.findings.length ? read : notebook.judge({ kind: "fixing", id: fixing.id, before: fixing.values, values: given });
  if (judged.findings.length) return showErrors(body, form, judged.findings);
  const set = Object.fromEntries(Object.entries(judged.values).filter(([name, value]) => value !== (fixing.values[name] ?? null)));
  await draft.end();
  try {
    await notebook.write([{ kind: "fixing", item: fixing.id, set }], { draft: draft.key });
    if (given.fitted_by) await notebook.choose({ fitted_by: given.fitted_by });
  } catch (error) {
    draft.resume();
    return context.fail(error);
  }
  context.say(`${titleOf(context.registry, fixing)} is fitted. Saved on this phone.`);
  context.runner.nudge();
  return context.go(pageOf(notebook.items.get(fixing.values.face)), { replace: true });
}

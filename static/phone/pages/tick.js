/** Ticking off one planned fixing: where it came to sit, or what is known of that without figures. */

import { Refusal } from "../../checks/refusal.js";
import { roundedUp } from "../../checks/limits.js";
import { appraising } from "../book/appraisal.js";
import { today } from "../book/moments.js";
import { deviationOf } from "../book/places.js";
import { calledOf, titleOf } from "../book/site.js";
import { supposing } from "../book/supposing.js";
import { figureOf } from "../book/wording.js";
import { afterKey } from "../forms/after_key.js";
import { draftOf } from "../forms/draft.js";
import { meanwhile } from "../forms/meanwhile.js";
import { addSignToggles, asTyped, meant, show, showErrors, typedIn } from "../forms/inputs.js";
import { addNumberPad } from "../forms/number_pad.js";
import { once, thrownAway, wrote } from "../forms/saving.js";
import { sayDraftKept } from "./form.js";
import { fill, filled, link, made, rows, slot, text, wire } from "./markup.js";
import { cautionsOf, findingOf, none, pageOf } from "./parts.js";
import { showVerdict, underThumb, wordsNeeded } from "./verdict_line.js";

const FIGURES = ["fitted_x_mm", "fitted_z_mm"];
const AS_PLANNED = "as planned, checked with a tape";
const NOT_MEASURED = "not measured";
const CAUTIONS = ["loads", "overhead work", "hidden services", "dust"];

/**
 * The part of a page that ticks a fixing off.
 * @param {import("../book/registry.js").Context} context
 * @param {import("../book/site.js").Item} fixing
 * @param {(fixing: import("../book/site.js").Item) => unknown} done  where to go when it is saved
 */
export async function tick(context, fixing, done) {
  const { registry, notebook } = context;
  const kind = registry.kinds.get("fixing");
  const fields = kind.fields.filter(({ ticked, name }) => ticked && name !== "fitted_place");
  const title = titleOf(registry, fixing);
  const draft = await draftOf(notebook, { key: `fitted ${fixing.id}`, route: `#/fitted/${fixing.id}`, title: `${title} as fitted`, was: usual(notebook, fixing) });
  const body = filled("tick", { title, what: whatOf(context, fixing), plan: planOf(fixing), facts: factsOf(context, fixing), cautions: cautionsOf(context, CAUTIONS) });
  const form = slot(body, "form");
  const inputs = inputsOf(fields);
  fill(body, { figures: FIGURES.map((name) => inputs.get(name)), others: [...inputs].filter(([name]) => !FIGURES.includes(name)).map(([, input]) => input) });
  addSignToggles(form, (name) => (kind.byName.get(name)?.low ?? 0) < 0);
  const under = underThumb();
  body.append(under);
  addNumberPad(form, under);
  show(form, fields, draft.before?.typed ?? asTyped(fields, usual(notebook, fixing)));
  if (draft.before) sayDraftKept(body, draft.before.at);
  slot(body, "whole").href = `#/change/${fixing.id}`;
  slot(body, "item").href = `#/item/${fixing.id}`;
  const state = { context, fixing, body, form, fields, draft, under, done, found: [], touched: false };
  const reckoning = afterKey(() => reckon(state));
  form.addEventListener("input", () => {
    state.touched = true;
    keep(state);
    reckoning.later();
  });
  form.addEventListener("submit", (event) => event.preventDefault());
  const saveOnce = once((place) => {
    reckoning.finish();
    return save(state, place);
  });
  wire(body, {
    discard: () => thrownAway(context, draft, state.touched || draft.before),
    "as-planned": () => saveOnce(AS_PLANNED),
    "not-measured": () => saveOnce(NOT_MEASURED),
  });
  reckoning.now();
  // One measurement after the other, from the datum: the next figure is typed without a touch.
  const begin = () => requestAnimationFrame(() => body.isConnected && form.elements.fitted_x_mm.focus());
  return { body, begin, save: () => saveOnce(null), leave: () => (state.touched ? keep(state) : undefined) };
}

/** The inputs of the fixing's own form that are asked for here, by their names. */
function inputsOf(fields) {
  const whole = made("form-fixing");
  return new Map(
    fields.map(({ name }) => {
      const input = whole.querySelector(`[id="${name}"]`).closest(".input");
      if (FIGURES.includes(name)) input.classList.add("big");
      return [name, input];
    }),
  );
}

function usual({ facts }, { values }) {
  return { ...values, fitted_on: values.fitted_on ?? today(), fitted_by: values.fitted_by ?? facts.fitted_by ?? null };
}

function whatOf({ registry, notebook }, { values }) {
  const fitting = notebook.items.get(values.fitting);
  const what = `${[values.sort, values.size].filter(Boolean).join(" ")}`;
  return fitting ? [text(`${what} of `), link(titleOf(registry, fitting), pageOf(fitting))] : [text(what)];
}

function planOf({ values }) {
  return rows("large-figure", [
    ["Planned x", figureOf(values.x_mm)],
    ["z", figureOf(values.z_mm)],
    ["Deep", values.penetration_mm ? figureOf(values.penetration_mm) : ""],
  ]);
}

function factsOf({ registry, notebook }, { values }) {
  const hold = notebook.items.get(values.hold);
  return rows("fact", [
    ["Hole", values.hole === "existing" && hold ? `existing, ${calledOf(registry, hold)}` : values.hole],
    ["Into", [values.fabric, values.into].filter(Boolean).join(": ")],
    ["Depth into the wall", figureOf(values.penetration_mm, "mm")],
    ["Torque", figureOf(values.torque_nm, "N m")],
  ]);
}

function keep({ form, fields, draft }) {
  return draft.keep(typedIn(form, fields));
}

/** The deviation and the verdicts, for the place that is typed now. */
function* reckon(state) {
  const { context, fixing, body, form, fields, under } = state;
  const { registry, notebook } = context;
  const { values, findings } = meant(fields, typedIn(form, fields));
  if (findings.length) {
    state.found = [];
    fill(body, { deviation: "not known yet", findings: none(findings[0].message) });
    return showVerdict(under, []);
  }
  yield;
  const would = { ...fixing, values: { ...fixing.values, ...values, state: "fitted" } };
  const off = deviationOf(would);
  state.found = yield* appraising(registry, supposing(registry, notebook.site, would), would);
  yield;
  fill(body, { deviation: off === null ? "not measured" : figureOf(roundedUp(off), "mm"), findings: state.found.map((one) => findingOf(context, one)) });
  return showVerdict(under, state.found);
}

/** @param {any} state @param {string|null} place  what is known of the place without figures; gives whether it was saved */
async function save(state, place) {
  const { context, fixing, body, form, fields, draft, done } = state;
  const { notebook } = context;
  const before = notebook.items.get(fixing.id).values;
  const stands = Object.fromEntries(Object.entries(before).filter(([, value]) => value !== null));
  const { typed } = meanwhile(fields, typedIn(form, fields), draft.row.was, { ...draft.row.was, ...stands });
  const read = meant(fields, typed);
  const known = place ?? (read.values.fitted_x_mm === null && before.fitted_place ? before.fitted_place : null);
  /** @type {Record<string, any>} */
  const given = { ...read.values, state: "fitted", fitted_place: known };
  const judged = read.findings.length ? read : notebook.judge({ kind: "fixing", id: fixing.id, before, values: given });
  const found = [...judged.findings, ...lackOf(given), wordsNeeded(state.found, given.note)].filter(Boolean);
  if (found.some(({ field }) => field && !FIGURES.includes(field))) /** @type {HTMLDetailsElement} */ (slot(body, "more")).open = true;
  if (found.length) {
    showErrors(body, form, found);
    return false;
  }
  const set = Object.fromEntries(Object.entries(judged.values).filter(([name, value]) => value !== (before[name] ?? null)));
  if (!(await wrote(context, draft, [{ kind: "fixing", item: fixing.id, set }]))) return false;
  if (given.fitted_by) await notebook.choose({ fitted_by: given.fitted_by }).catch(context.fail);
  await done(fixing);
  return true;
}

/** The plan is no measurement: something must be said of where it came to sit. */
function lackOf(/** @type {Record<string, any>} */ { fitted_x_mm: x, fitted_place: place }) {
  if (place || (x !== null && x !== undefined)) return [];
  const remedy = "Type x and z, or press: as planned, checked with a tape; or fitted, not measured.";
  return [new Refusal("missing", "Nothing says where it came to sit.", remedy, { field: "fitted_x_mm" })];
}

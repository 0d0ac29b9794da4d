/** A row of fixings like one that is there: so many more, so far apart, all entered together. */

import { Refusal } from "../../checks/refusal.js";
import { appraising } from "../book/appraisal.js";
import { accept } from "../book/fields.js";
import { uuid7 } from "../book/identity.js";
import { nextMark } from "../book/next_mark.js";
import { titleOf } from "../book/site.js";
import { supposing } from "../book/supposing.js";
import { withoutNoise } from "../book/figures.js";
import { fromText } from "../book/typed.js";
import { countOf, figureOf } from "../book/wording.js";
import { afterKey } from "../forms/after_key.js";
import { draftOf } from "../forms/draft.js";
import { addSignToggles, showErrors } from "../forms/inputs.js";
import { addNumberPad } from "../forms/number_pad.js";
import { enteredAlready, once, thrownAway, wrote } from "../forms/saving.js";
import { sayDraftKept } from "./form.js";
import { fill, filled, slot, wire } from "./markup.js";
import { trailOf, wordOf } from "./parts.js";
import { showVerdict, underThumb, wordsNeeded } from "./verdict_line.js";

const MOST = 100;
const STOPS = ["refused", "over"];
const ASKED = {
  count: { name: "count", label: "How many more", type: "whole", low: 1, high: MOST, required: true },
  across: { name: "across", label: "Apart along x", type: "number", unit: "mm", low: -20_000, high: 20_000 },
  up: { name: "up", label: "Apart along z", type: "number", unit: "mm", low: -20_000, high: 20_000 },
};

export async function rowPage(context, id) {
  const { registry, notebook } = context;
  const first = notebook.site?.get(id);
  if (first?.kind !== "fixing") return null;
  const title = `A row like ${titleOf(registry, first)}`;
  const draft = await draftOf(notebook, { key: `row ${id}`, route: location.hash, title, item: uuid7() });
  if (notebook.items.has(draft.row.item)) draft.row.item = uuid7(); // that row was entered
  const body = filled("row-page", { title: titleOf(registry, first) });
  const form = slot(body, "form");
  const under = underThumb();
  body.append(under);
  addSignToggles(form, () => false);
  addNumberPad(form, under);
  for (const [name, typed] of Object.entries(draft.before?.typed ?? {})) form.elements[name].value = typed;
  if (draft.before) sayDraftKept(body, draft.before.at);
  const state = { context, first, body, form, under, draft, touched: false, row: [], found: [], wrong: [] };
  const reckoning = afterKey(() => reckon(state));
  form.addEventListener("input", () => {
    state.touched = true;
    keep(state);
    reckoning.later();
  });
  const saveOnce = once(() => {
    reckoning.finish();
    return save(state);
  });
  wire(body, { discard: () => thrownAway(context, draft, state.touched || draft.before) });
  form.addEventListener("submit", (event) => event.preventDefault());
  reckoning.now();
  return {
    title,
    trail: trailOf(context, first),
    body,
    writing: true,
    actions: [{ words: "Back", act: () => history.back() }, { words: "Enter the row", main: true, act: saveOnce }],
    leave: () => state.touched && keep(state),
  };
}

function keep({ form, draft }) {
  return draft.keep(Object.fromEntries([...Object.keys(ASKED), "note"].map((name) => [name, form.elements[name].value])));
}

/** What the row would be: its places, and the verdict about each, every one held against those before it. */
function* reckon(state) {
  const { context, first, body, form, under, draft } = state;
  const { registry, notebook } = context;
  Object.assign(state, { row: [], found: [], wrong: [] });
  try {
    const [count, across, up] = Object.entries(ASKED).map(([name, field]) => accept(/** @type {any} */ (field), fromText(/** @type {any} */ (field), form.elements[name].value)));
    if (!across && !up) throw new Refusal("missing", "The row has no spacing.", "Say how far they are apart.", { field: "across" });
    let site = notebook.site;
    for (let at = 1; at <= count; at += 1) {
      const item = { kind: "fixing", id: at === 1 ? draft.row.item : uuid7(), values: placed(registry, site, first, at * (across ?? 0), at * (up ?? 0)), withdrawn: false };
      site = supposing(registry, site, item);
      state.row.push(item);
    }
    for (const item of state.row) {
      state.found.push(...(yield* appraising(registry, site, item)));
    }
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    state.wrong = [error];
  }
  const worst = (item) => state.found.find(({ subject }) => subject.id === item.id)?.verdict.word;
  fill(body, { row: state.row.map((item) => placeLine(item, worst(item))) });
  const stop = state.found.find(({ verdict }) => STOPS.includes(verdict.word));
  showVerdict(under, stop ? [stop] : state.found.slice(0, 1));
}

function placed(registry, site, first, across, up) {
  const kind = registry.kinds.get("fixing");
  const copied = kind.fields.filter(({ copied: goesAlong }) => goesAlong).map(({ name }) => [name, first.values[name] ?? null]);
  const { face, fitting, x_mm: x, z_mm: z } = first.values;
  const values = { ...Object.fromEntries(copied.filter(([, value]) => value !== null)), face, fitting, state: "planned", x_mm: withoutNoise(x + across), z_mm: withoutNoise(z + up) };
  return { ...values, mark: nextMark(kind, site, values) };
}

function placeLine({ values }, word) {
  return filled("row-place", { mark: values.mark, place: `x ${figureOf(values.x_mm)}, z ${figureOf(values.z_mm, "mm")}`, word: word ? wordOf(word) : "" });
}

/** Gives whether it was saved. */
async function save({ context, first, body, form, draft, row, found, wrong }) {
  const { notebook } = context;
  if (notebook.items.has(draft.row.item)) return enteredAlready(context, draft, first);
  const note = form.elements.note.value.trim() || null;
  const judged = row.map(({ id, values }) => notebook.judge({ kind: "fixing", id, values: note ? { ...values, note } : values }));
  const findings = [...wrong, ...judged.flatMap((one) => one.findings).slice(0, 3), wordsNeeded(found, note)].filter(Boolean);
  if (findings.length) {
    showErrors(body, form, findings);
    return false;
  }
  if (!(await wrote(context, draft, row.map(({ id }, at) => ({ kind: "fixing", item: id, set: judged[at].values }))))) return false;
  context.say(`${countOf(row.length, "fixing")} like ${titleOf(context.registry, first)}: saved on this phone.`);
  await context.go(`#/face/${first.values.face}`, { replace: true });
  return true;
}

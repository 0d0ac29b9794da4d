/** The form of any kind: a new item, a change of one, or the mending of what was refused. */

import { uuid7 } from "../book/identity.js";
import { momentInWords } from "../book/wording.js";
import { titleOf } from "../book/site.js";
import { inPresentWords } from "../book/versions.js";
import { draftOf } from "../forms/draft.js";
import { addNowButtons, addSignToggles, asTyped, showErrors, fieldsInForm, meant, show, typedIn } from "../forms/inputs.js";
import { offer } from "../forms/options.js";
import { now, presets } from "../forms/presets.js";
import { addChoiceButtons } from "../forms/choice_buttons.js";
import { foldGroups } from "../forms/folding.js";
import { followChoices } from "../forms/implied.js";
import { followOthers } from "../forms/meanwhile.js";
import { easeTyping } from "../forms/typing.js";
import { notMeasured } from "../book/corners.js";
import { addPad, arrangeSigning } from "./signing.js";
import { nextMark } from "../book/next_mark.js";
import { addHelp } from "./form_help.js";
import { changedOf, once, thrownAway, wrote } from "../forms/saving.js";
import { filled, made, slot, wire } from "./markup.js";
import { pageOf, trailOf } from "./parts.js";
import { addCautions, addMarkWarning } from "./form_cautions.js";
import { addFaded } from "./form_colour.js";
import { addPicture } from "./numbered.js";
import { addVerdict } from "./form_verdict.js";
import { underThumb, wordsNeeded } from "./verdict_line.js";

const REFUSED = "The laptop did not take this: correct it, and save it again";

export function newPage(context, kindName, query) {
  const { registry, notebook } = context;
  const kind = registry.kinds.get(kindName);
  if (!kind || kind.with_a_file) return null;
  const values = presets(context, kind, query);
  if (notebook.site && kind.numbered_by) values[kind.numbered_by] ??= nextMark(kind, notebook.site, values) || null;
  const key = `new ${kindName} ${values[kind.parent] ?? ""}`;
  return formPage(context, { kind, id: null, before: {}, values, key, title: `New ${kind.label.toLowerCase()}`, query });
}

export function changePage(context, id) {
  const { registry, notebook } = context;
  const item = notebook.items.get(id);
  if (!item) return null;
  if (Object.keys(item.newer ?? {}).length) return newerPage(trailOf(context, item));
  const kind = registry.kinds.get(item.kind);
  const title = `Change ${titleOf(registry, item)}`;
  return formPage(context, { kind, id, before: item.values, values: item.values, key: `change ${id}`, title });
}

/** What was refused, or waits for something, with the reasons; saved again it goes in its place. */
export async function mendPage(context, place) {
  const { registry, notebook } = context;
  const row = rowToMend(notebook, Number(place));
  if (!row) return null;
  const { findings } = row;
  const entry = inPresentWords(registry, row.entry);
  if (Object.keys(entry.unknown).length) return newerPage();
  const kind = registry.kinds.get(entry.kind);
  const before = notebook.items.get(entry.item)?.values ?? {};
  const values = { ...before, ...entry.set };
  const about = { kind, id: entry.item, before, values, key: `mend ${place}`, title: `Correct ${kind.label.toLowerCase()}`, mends: row.n, refused: entry };
  const view = await formPage(context, about);
  showErrors(view.body, view.body.querySelector("form"), findings);
  slot(view.body, "refused").querySelector("h2").textContent = REFUSED;
  return view;
}

function rowToMend({ shelf, outbox }, place) {
  return [...shelf, ...outbox.filter(({ findings }) => findings?.length)].find(({ n }) => n === place);
}

/** Nothing is entered about what a newer version knows more of: saving could lose that. */
function newerPage(trail = []) {
  return { title: "Not here yet", body: made("newer-page"), trail, actions: [{ words: "Back", act: () => history.back() }] };
}

async function formPage(context, about) {
  const { kind, values, title } = about;
  const item = context.notebook.items.get(about.id);
  const makes = about.id ?? uuid7();
  const draft = await draftOf(context.notebook, { key: about.key, route: location.hash, title, item: makes, was: { ...about.before }, withdrawn: item?.withdrawn });
  if (!about.id && context.notebook.items.has(draft.row.item)) draft.row.item = makes; // that one was saved
  const fields = fieldsInForm(kind);
  const body = filled("form-page", { title });
  const form = slot(body, "form");
  form.append(...made(`form-${kind.name}`).childNodes);
  offer(form, fields, context, values);
  addSignToggles(form, (name) => (kind.byName.get(name)?.low ?? 0) < 0);
  addNowButtons(form, fields, now);
  const typed = draft.before?.typed ?? asTyped(fields, values);
  show(form, fields, typed);
  addChoiceButtons(form, fields);
  foldGroups(form);
  followChoices(form);
  const under = underThumb();
  body.append(under);
  easeTyping(form, kind, fields, context, under);
  const signature = typed.signature ?? values.signature ?? [];
  const state = { context, about, body, form, fields, draft, under, settled: () => [], signature, touched: false };
  const saveOnce = once(() => save(state));
  if (draft.before) sayDraftKept(body, draft.before.at);
  if (kind.byName.has("signature")) addPad(state, () => touch(state));
  if (kind.numbered_by && context.notebook.site) addMarkWarning(state);
  if (about.query && !draft.before) addHelp(state);
  if (kind.name === "agreement" && values.items?.length) arrangeSigning(state);
  addVerdict(state);
  addFaded(state);
  addPicture(state);
  addCautions(state);
  form.addEventListener("input", () => state.following || touch(state));
  const unfollow = followOthers(state);
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    saveOnce();
  });
  wire(body, { discard: () => thrownAway(context, draft, state.touched || draft.before) });
  const lies = item ?? context.notebook.items.get(values[kind.parent] ?? values.face ?? values.room);
  return {
    title,
    trail: lies ? trailOf(context, lies) : [],
    body,
    writing: true,
    actions: [{ words: "Back", act: () => history.back() }, { words: "Save", main: true, act: saveOnce }],
    leave() {
      unfollow();
      return state.touched && keep(state);
    },
  };
}

/** Tell that a form shows what was typed before. */
export function sayDraftKept(body, at) {
  const kept = slot(body, "kept");
  kept.hidden = false;
  kept.textContent = `What you had typed until ${momentInWords(at)} is back.`;
}

function touch(state) {
  state.touched = true;
  return keep(state);
}

function keep({ about, form, fields, draft, signature }) {
  const typed = typedIn(form, fields);
  if (about.kind.byName.has("signature")) typed.signature = signature;
  return draft.keep(typed);
}

/** Gives whether it was saved. */
async function save({ context, about, body, form, fields, draft, signature, settled }) {
  const { notebook } = context;
  const { kind, mends, refused } = about;
  const before = mends === undefined ? draft.row.was : about.before;
  if (mends !== undefined && !rowToMend(notebook, mends)) return mendedAlready(context, draft);
  const typed = typedIn(form, fields);
  const read = meant(fields, typed, about.id && notebook.items.has(about.id) ? before : null);
  const touchedOnly = fields.filter(({ type }) => type === "outline").flatMap((field) => notMeasured(field, typed[field.name]));
  if (touchedOnly.length) read.findings = [...read.findings.filter(({ field }) => touchedOnly.every((one) => one.field !== field)), ...touchedOnly];
  if (kind.byName.has("signature") && signature.length) read.values.signature = signature;
  const id = draft.row.item;
  const judged = read.findings.length ? read : notebook.judge({ kind: kind.name, id, before, values: read.values });
  const stop = wordsNeeded(settled(), judged.values.note ?? before.note);
  if (judged.findings.length || stop) {
    showErrors(body, form, [...judged.findings, stop].filter(Boolean));
    return false;
  }
  const asked = Object.fromEntries(Object.entries(judged.values).filter(([name]) => refused?.set && name in refused.set));
  const set = { ...changedOf(judged.values, before), ...asked };
  if (!Object.keys(set).length && mends === undefined) {
    await draft.drop().catch(context.fail);
    context.say("Nothing was changed.");
    history.back();
    return true;
  }
  if (!(await wrote(context, draft, [{ kind: kind.name, item: id, set }], { mends }))) return false;
  context.say("Saved on this phone.");
  await context.go(pageOf(notebook.items.get(kind.name === "pointer" ? judged.values.photograph : id)), { replace: true });
  return true;
}

async function mendedAlready(context, draft) {
  await draft.drop().catch(context.fail);
  context.say("This was corrected, or given up, in another window.");
  await context.go("#/waiting", { replace: true });
  return true;
}

/** A form stays open for hours, and a draft for days: what others changed of the same item meanwhile is not undone by saving it. */

import { momentOf } from "../book/moments.js";
import { titleOf } from "../book/site.js";
import { joined, labelOf, said } from "../book/wording.js";
import { pageOf, titled } from "../pages/parts.js";
import { slot, tell } from "../pages/markup.js";
import { writeDraft } from "../store/drafts.js";
import { asTyped, show, typedIn } from "./inputs.js";

/**
 * What a form shows where its item has changed since it was opened: what was typed stays, the rest is as it is now.
 * @param {import("../book/registry.js").Field[]} fields
 * @param {Record<string, any>} typed
 * @param {Record<string, any>} was  the item's values when the form was opened, and
 * @param {Record<string, any>} now
 * @returns {{typed: Record<string, any>, taken: string[], both: string[]}}  the names of what is taken over, and of what
 *   was changed here as well
 */
export function meanwhile(fields, typed, was, now) {
  const [before, after] = [asTyped(fields, was), asTyped(fields, now)];
  const names = fields.map(({ name }) => name).filter((name) => !same(before[name], after[name]) && !same(typed[name], after[name]));
  const taken = names.filter((name) => same(typed[name], before[name]));
  const both = names.filter((name) => !taken.includes(name));
  return { typed: { ...typed, ...Object.fromEntries(taken.map((name) => [name, after[name]])) }, taken, both };
}

const same = (one, other) => JSON.stringify(one ?? "") === JSON.stringify(other ?? "");

/**
 * Keep an open form in step with its item, from its draft on; returns what ends that.
 * @param {any} state  of a form
 */
export function followOthers(state) {
  const { context, about } = state;
  if (about.mends !== undefined) return () => {};
  const follow = () => {
    if (about.id) catchUp(state);
    else movedOn(state);
    sayOutOfSight(state);
  };
  follow();
  return context.notebook.onChange(follow);
}

/** The item that is changed here was changed elsewhere as well. */
function catchUp(state) {
  const { context, about, form, fields, draft } = state;
  const { row } = draft;
  const item = context.notebook.items.get(about.id);
  if (draft.over || !item || (!item.withdrawn === !row.withdrawn && same(row.was, item.values))) return;
  const { typed, taken, both } = meanwhile(fields, typedIn(form, fields), row.was, item.values);
  show(form, fields.filter(({ name }) => taken.includes(name)), typed);
  const words = [
    !item.withdrawn === !row.withdrawn ? "" : `It was ${item.withdrawn ? "withdrawn" : "brought back"} elsewhere meanwhile.`,
    told(context, fields, taken, item, "Changed elsewhere meanwhile, and taken over here", ""),
    told(context, fields, both, item, "Set otherwise elsewhere meanwhile", " What you typed stays; once it is saved, it is settled at the desk which of them holds."),
  ].filter(Boolean);
  // Whoever saves now has not seen it where they had typed: then both are kept, to be settled.
  if (!both.length && !item.withdrawn) row.seen = context.notebook.cursor;
  Object.assign(row, { was: { ...item.values }, withdrawn: item.withdrawn });
  about.before = item.values;
  if (!words.length) return;
  const line = slot(state.body, "meanwhile");
  tell(line, words.join(" "));
  if (line.isConnected && line.getBoundingClientRect().top < 0) context.say("This was changed elsewhere meanwhile: what, stands at the top.");
  state.following = true;
  form.dispatchEvent(new Event("input", { bubbles: true }));
  state.following = false;
}

/** What is entered in something that was withdrawn is out of sight with it: told before it is saved. */
function sayOutOfSight({ context, about, body, form, draft }) {
  const { registry, notebook } = context;
  const parentOf = ({ kind, values }) => notebook.items.get(values[registry.kinds.get(kind)?.parent]);
  let lies = notebook.items.get(form.elements.namedItem(about.kind.parent)?.value);
  while (lies && !lies.withdrawn) lies = parentOf(lies);
  const line = slot(body, "out-of-sight");
  line.textContent = lies && !draft.over ? `${titleOf(registry, lies)} was withdrawn: what is entered in it is out of sight until somebody brings that back.` : "";
}

function told(context, fields, names, { values }, words, more) {
  const each = fields.filter(({ name }) => names.includes(name)).map((field) => `${labelOf(field)} “${said(field, values[field.name], titled(context))}”`);
  return each.length ? `${words}: ${joined(each)}.${more}` : "";
}

/** What is entered here was saved in another window: what is typed on belongs to it, and enters nothing twice. */
async function movedOn({ context, form, fields, draft, touched }) {
  const item = context.notebook.items.get(draft.row.item);
  if (draft.over || !item || !form.isConnected) return;
  const typed = typedIn(form, fields);
  const more = touched && !same(typed, asTyped(fields, item.values));
  await draft.drop().catch(context.fail);
  const route = `#/change/${item.id}`;
  if (more) await writeDraft({ ...draft.row, key: `change ${item.id}`, route, typed, was: { ...item.values }, at: momentOf() });
  context.say(more ? "This was saved in another window. What you typed on changes it." : "This was saved in another window.");
  await context.go(more ? route : pageOf(item), { replace: true });
}

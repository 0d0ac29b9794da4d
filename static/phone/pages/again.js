/** What is entered next is mostly like what was entered last: one touch leads to its form, filled in like that. */

import { lastLike } from "../book/next_mark.js";
import { calledOf, titleOf } from "../book/site.js";
import { comeAlike } from "./form_help.js";
import { link } from "./markup.js";

const MOST = 4;

/** The field by which a kind lies on, or belongs to, an item. */
export const linkTo = (kind, item) => kind.fields.find(({ type, to }) => type === "link" && to === item.kind)?.name;
export const aboutIt = (kind, item) => ({ [linkTo(kind, item)]: item.id });

/** What was entered last of a kind there, where several come alike. */
function lastOf({ notebook }, kind, item) {
  return comeAlike(kind) && linkTo(kind, item) ? lastLike(kind, notebook.site, aboutIt(kind, item)) : null;
}

function formLike(kind, item, last, words) {
  return link(`Like ${words}`, `#/new/${kind.name}?${new URLSearchParams({ ...aboutIt(kind, item), like: last.id })}`);
}

/** The form as the last one of a kind left it; none where nothing came before, or nothing is like another. */
export function likeLast(context, kind, item) {
  const last = lastOf(context, kind, item);
  return last ? [formLike(kind, item, last, titleOf(context.registry, last))] : [];
}

/** The forms that are likely next at a face, those of what was entered latest first, and what is seen there. */
export function againAt(context, face) {
  const { registry } = context;
  const kinds = [...registry.kinds.values()].filter((kind) => !kind.with_a_file && kind.numbered_by);
  const before = kinds.map((kind) => ({ kind, last: lastOf(context, kind, face) })).filter(({ last }) => last);
  before.sort((one, other) => (one.last.id < other.last.id ? 1 : -1));
  const seen = link("Observation", `#/new/observation?${new URLSearchParams({ face: face.id })}`);
  const at = Object.assign(document.createElement("span"), { textContent: `At ${calledOf(registry, face)}:` });
  return [at, ...before.slice(0, MOST).map(({ kind, last }) => formLike(kind, face, last, calledOf(registry, last))), seen];
}

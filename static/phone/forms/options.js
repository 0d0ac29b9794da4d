/** The items a link may point to, as an input offers them: mirrors fieldbook/web/forms/options.py. */

import { faceOf } from "../book/in_picture.js";
import { calledOf, titleOf } from "../book/site.js";
import { filled } from "../pages/markup.js";

/**
 * Fill the selects and boxes of a form's links.
 * @param {HTMLElement} form
 * @param {import("../book/registry.js").Field[]} fields
 * @param {import("../book/registry.js").Context} context
 * @param {Record<string, any>} values  what they point to already, which stays offered
 */
export function offer(form, fields, context, values) {
  for (const field of fields) {
    offerRetired(form, field, [values[field.name] ?? []].flat());
    if (field.type !== "link" && field.type !== "links") continue;
    const groups = groupsOf(context.registry, context.notebook.site, field, [values[field.name] ?? []].flat(), values.photograph);
    const place = form.querySelector(`[id="${CSS.escape(field.name)}"]`).closest(".input");
    for (const help of place.querySelectorAll("p.help:not([id])")) help.remove();
    if (field.type === "link") place.querySelector("select").append(...groups.map(optionsOf));
    else place.append(...groups.map((group) => boxesOf(field, group)));
  }
}

/** A word that is no longer offered stays to be chosen where it stands. */
function offerRetired(form, field, chosen) {
  const kept = field.retired_choices.filter((word) => chosen.includes(word));
  if (!kept.length) return;
  const group = { heading: "No longer offered", pairs: kept.map((word) => [word, word]) };
  if (field.type === "choice") form.elements[field.name].append(optionsOf(group));
  else form.querySelector(`[id="${CSS.escape(field.name)}"]`).closest(".input").append(boxesOf(field, group));
}

/**
 * What a link may point to: items of its kind under headings, and what it points to already even if that was withdrawn.
 * @param {import("../book/registry.js").Registry} registry
 * @param {import("../book/site.js").Site|null} site
 * @param {import("../book/registry.js").Field} field
 * @param {string[]} chosen
 * @param {string} [photograph]  where the form is about a place in it: what lies on the face it shows comes first
 * @returns {{heading: string, pairs: [string, string][]}[]}
 */
export function groupsOf(registry, site, field, chosen, photograph) {
  const kinds = field.to === "any" ? [...registry.kinds.values()].filter((kind) => kind.pointed_to).map(({ name }) => name) : [field.to];
  const shown = site?.get(photograph);
  const face = field.to === "any" && shown ? faceOf(site, shown) : null;
  const isOnIt = ({ id, values }) => face !== null && (id === face.id || values.face === face.id);
  const listed = (where, those) =>
    kinds
      .map((kind) => ({ heading: `${registry.kinds.get(kind).plural}${where}`, items: itemsOf(site, kind).filter(those) }))
      .filter(({ items }) => items.length)
      .map(({ heading, items }) => ({ heading, pairs: items.map((item) => [item.id, wordsOf(registry, site, item)]) }));
  const groups = [...(face ? listed(` on ${calledOf(registry, face)}`, isOnIt) : []), ...listed("", (item) => !isOnIt(item))];
  const offered = new Set(groups.flatMap(({ pairs }) => pairs.map(([id]) => id)));
  const absent = chosen.filter((id) => id && !offered.has(id));
  if (absent.length) groups.push({ heading: "No longer on this site", pairs: absent.map((id) => [id, id]) });
  return groups;
}

function itemsOf(site, kind) {
  if (!site) return [];
  return kind === "site" ? [site.item] : site.all(kind);
}

function wordsOf(registry, site, item) {
  const parent = site.parent(item);
  const title = titleOf(registry, item);
  return parent && parent.kind !== "site" ? `${title} (${calledOf(registry, parent)})` : title;
}

function optionsOf({ heading, pairs }) {
  const group = document.createElement("optgroup");
  group.label = heading;
  group.append(...pairs.map(([id, words]) => new Option(words, id)));
  return group;
}

function boxesOf(field, { heading, pairs }) {
  const boxes = pairs.map(([id, words]) => {
    const box = filled("box", { words });
    const input = box.querySelector("input");
    Object.assign(input, { name: field.name, value: id });
    return box;
  });
  return filled("boxes", { heading: `${heading} (${pairs.length})`, boxes });
}

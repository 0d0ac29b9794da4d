/** What a new form shows before anyone has typed in it: mirrors fieldbook/web/forms/presets.py. */

import { Refusal } from "../../checks/refusal.js";
import { accept } from "../book/fields.js";
import { nextNumber } from "../book/next_mark.js";
import { momentOf, today } from "../book/moments.js";
import { fromText } from "../book/typed.js";

/**
 * @param {import("../book/registry.js").Context} context
 * @param {import("../book/registry.js").Kind} kind
 * @param {URLSearchParams} query  values its address gives, and the item it is made `like`
 * @returns {Record<string, any>}
 */
export function presets({ registry, notebook }, kind, query) {
  const { site, items } = notebook;
  /** @type {Record<string, any>} */
  const values = {};
  for (const field of kind.fields) {
    if (field.choices.length && field.choices.join() === registry.states.join()) values[field.name] = registry.states[0];
    else if (field.type === "moment" && (field.required || kind.pictured)) values[field.name] = now();
    else if (field.type === "date" && field.required) values[field.name] = today();
    else if (field.name === "site" && site) values.site = site.item.id;
    else if (field.name === "currency" && site) values.currency = site.item.values.currency ?? null;
  }
  const like = items.get(query.get("like"));
  if (like?.kind === kind.name) {
    for (const { name } of kind.fields.filter(({ copied }) => copied)) values[name] = like.values[name] ?? null;
  }
  for (const field of kind.fields) if (query.has(field.name)) Object.assign(values, given(field, query));
  if (site && kind.name === "pointer") values.number ??= nextNumber(site, values.photograph);
  return withSurroundings(notebook, kind, values);
}

/** This phone's clock to the minute. */
export function now() {
  const moment = momentOf();
  return `${moment.slice(0, 16)}${moment.slice(23)}`;
}

function given(field, query) {
  try {
    const list = field.type === "choices" || field.type === "links";
    return { [field.name]: accept(field, list ? query.getAll(field.name) : fromText(field, query.get(field.name))) };
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    return {};
  }
}

/** Where a link is not given, the one that what is given has: a fixing lies on its fitting's face. */
function withSurroundings({ items }, kind, values) {
  const links = kind.fields.filter(({ type }) => type === "link").map(({ name }) => name);
  for (const name of links) {
    const target = items.get(values[name]);
    for (const other of target ? links : []) values[other] ??= target.values[other] ?? null;
  }
  return values;
}

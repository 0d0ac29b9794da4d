/** Words that were entered before in the same field of a kind are offered again, with what is ordinary in it: less is typed, and it is spelled alike. */

import { offerSaid } from "./said_before.js";

const MOST = 20;
const OFFERED = ["line", "note"]; // of a date it is today
const LONGEST = 200; // what is longer is not chosen from a list

/**
 * @param {HTMLFormElement} form
 * @param {import("../book/registry.js").Registry} registry
 * @param {import("../book/registry.js").Kind} kind
 * @param {import("../book/registry.js").Field[]} fields
 * @param {import("../book/site.js").Site} site
 */
export function offerWordsBefore(form, registry, kind, fields, site) {
  for (const field of fields.filter(({ name, type }) => OFFERED.includes(type) && name !== kind.numbered_by)) {
    const words = wordsBefore(registry, kind, field, site);
    const input = /** @type {any} */ (form.elements.namedItem(field.name));
    if (!input || !words.length) continue;
    if (field.type === "note") {
      offerSaid(input, words);
      continue;
    }
    const list = document.createElement("datalist");
    list.id = `${field.name}-before`;
    list.append(...words.map((word) => new Option("", word)));
    input.setAttribute("list", list.id);
    input.after(list);
  }
}

/**
 * What was entered in a field, the latest first; who somebody is was perhaps entered in another kind.
 * @param {import("../book/registry.js").Registry} registry
 * @param {import("../book/registry.js").Kind} kind
 * @param {import("../book/registry.js").Field} field
 * @param {import("../book/site.js").Site} site
 * @returns {string[]}
 */
export function wordsBefore({ kinds }, kind, { name, personal, ordinary }, site) {
  const said = (one, other) => [...site.all(one.name)].sort((item, next) => (item.id < next.id ? 1 : -1)).map(({ values }) => values[other]);
  const people = (one) => one.fields.filter((other) => other.personal && other.type === "line" && !other.retired);
  const others = personal ? [...kinds.values()].flatMap((one) => people(one).flatMap((other) => said(one, other.name))) : [];
  const short = (words) => words && words.length <= LONGEST && !words.includes("\n");
  const before = [...new Set([...said(kind, name), ...others].filter(short))].slice(0, MOST);
  return [...new Set([...before, ...[...(ordinary ?? [])].reverse()])];
}

/**
 * What was entered in each column of a small table, the latest first; none for figures and choices.
 * @param {import("../book/registry.js").Kind} kind
 * @param {import("../book/registry.js").Field} field
 * @param {import("../book/site.js").Site} site
 * @returns {string[][]}
 */
export function cellsBefore(kind, { name, columns }, site) {
  const tables = [...site.all(kind.name)].sort((item, next) => (item.id < next.id ? 1 : -1)).map(({ values }) => values[name] ?? []);
  return columns.map(({ type }, at) => (type === "line" ? [...new Set(tables.flat().map((row) => row[at]).filter(Boolean))].slice(0, MOST) : []));
}

/** Words that were entered before in the same field of a kind are offered again: less is typed, and it is spelled alike. */

const MOST = 20;

/**
 * @param {HTMLFormElement} form
 * @param {import("../book/registry.js").Kind} kind
 * @param {import("../book/registry.js").Field[]} fields
 * @param {import("../book/site.js").Site} site
 */
export function offerWordsBefore(form, kind, fields, site) {
  for (const { name } of fields.filter((field) => field.type === "line" && field.name !== kind.numbered_by)) {
    const newestFirst = [...site.all(kind.name)].sort((one, other) => (one.id < other.id ? 1 : -1));
    const words = [...new Set(newestFirst.map(({ values }) => values[name]).filter(Boolean))].slice(0, MOST);
    const input = /** @type {HTMLInputElement|null} */ (form.elements.namedItem(name));
    if (!input || !words.length) continue;
    const list = document.createElement("datalist");
    list.id = `${name}-before`;
    list.append(...words.map((word) => new Option("", word)));
    input.setAttribute("list", list.id);
    input.after(list);
  }
}

/** Words that were entered before in the same field of a kind are offered again, with what is ordinary in it: less is typed, and it is spelled alike. */

const MOST = 20;

/**
 * @param {HTMLFormElement} form
 * @param {import("../book/registry.js").Kind} kind
 * @param {import("../book/registry.js").Field[]} fields
 * @param {import("../book/site.js").Site} site
 */
export function offerWordsBefore(form, kind, fields, site) {
  for (const { name, ordinary } of fields.filter((field) => field.type === "line" && field.name !== kind.numbered_by)) {
    const newestFirst = [...site.all(kind.name)].sort((one, other) => (one.id < other.id ? 1 : -1));
    const before = [...new Set(newestFirst.map(({ values }) => values[name]).filter(Boolean))].slice(0, MOST);
    const words = [...new Set([...before, ...[...(ordinary ?? [])].reverse()])];
    const input = /** @type {HTMLInputElement|null} */ (form.elements.namedItem(name));
    if (!input || !words.length) continue;
    const list = document.createElement("datalist");
    list.id = `${name}-before`;
    list.append(...words.map((word) => new Option("", word)));
    input.setAttribute("list", list.id);
    input.after(list);
  }
}

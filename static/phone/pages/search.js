/** Looking for anything on the site by its mark, its name, or any word entered about it. */

import { calledOf } from "../book/site.js";
import { countOf, dayOf, figureOf } from "../book/wording.js";
import { afterKey } from "../forms/after_key.js";
import { fill, filled, slot } from "./markup.js";
import { lineOf } from "./parts.js";

const MOST = 40;
const WORDS = ["line", "note", "choice"];
const NOTED = ["reading", "log", "observation", "photograph", "visit", "cost"]; // of which there are many, and which are about something

export function searchPage(context) {
  const body = filled("search-page", {});
  const sought = /** @type {HTMLInputElement} */ (slot(body, "sought"));
  const all = everyItem(context);
  const searching = afterKey(function* () {
    const list = found(all, sought.value);
    yield;
    tell(context, body, list);
  });
  sought.addEventListener("input", searching.later);
  requestAnimationFrame(() => sought.isConnected && sought.focus());
  return { title: "Search", body, actions: [] };
}

/** Every item of the site with all the words about it. */
function everyItem({ registry, notebook }) {
  const { site } = notebook;
  if (!site) return [];
  return [...registry.kinds.values()].flatMap((kind) => {
    const fields = kind.fields.filter(({ type }) => WORDS.includes(type));
    return (kind.parent ? site.all(kind.name) : [site.item]).map((item) => ({
      item,
      called: calledOf(registry, item).toLowerCase(),
      words: fields.map(({ name }) => item.values[name] ?? "").join(" ").toLowerCase(),
    }));
  });
}

/** Those that hold all words sought: things before what was read of them, and in each those called so first. */
export function found(all, text) {
  const parts = text.toLowerCase().split(/\s+/).filter(Boolean);
  if (!parts.length) return [];
  const rank = ({ called, item }) => (called === parts.join(" ") ? 0 : called.startsWith(parts[0]) ? 1 : 2) + (NOTED.includes(item.kind) ? 3 : 0);
  return all.filter(({ words }) => parts.every((part) => words.includes(part))).sort((one, other) => rank(one) - rank(other));
}

function tell(context, body, list) {
  const { registry, notebook } = context;
  const aside = (item) => {
    const parent = notebook.site.parent(item);
    const { value, unit, at, on } = NOTED.includes(item.kind) ? item.values : {}; // many are called alike
    return [registry.kinds.get(item.kind).label, parent ? calledOf(registry, parent) : "", figureOf(value ?? null, unit), dayOf(at ?? on)].filter(Boolean).join(" · ");
  };
  const more = list.length > MOST ? `, the first ${MOST} are shown` : "";
  fill(body, {
    count: list.length ? `${countOf(list.length, "found", "found")}${more}` : "Nothing found.",
    found: list.slice(0, MOST).map(({ item }) => lineOf(context, item, aside(item))),
  });
}

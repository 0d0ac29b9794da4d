/** Pieces several pages show: lists of items, findings, cautions, photographs, and the trail of where one is. */

import { sign } from "../drawing/signs.js";
import { classOf } from "../drawing/signs.js";
import { calledOf, titleOf } from "../book/site.js";
import { copyOf, originalOf } from "../store/photographs.js";
import { filled, link, made, rows, slot, tell } from "./markup.js";

const MOST_OPEN = 12; // lines of a list; readings come by the hundred, and are folded at once
const PAGES = { site: "site", room: "room", face: "face", photograph: "picture" };

/** The address of the page that shows an item. */
export function pageOf(item) {
  return `#/${PAGES[item.kind] ?? "item"}/${item.id}`;
}

/** How an item is called where it is referred to. */
export function titled({ registry, notebook }) {
  return (id) => {
    const item = notebook.items.get(id);
    return !item ? "(not here yet)" : item.withdrawn ? "(withdrawn)" : titleOf(registry, item);
  };
}

/** What an item lies in, from the room down, as links; the site is the first page's. */
export function trailOf({ registry, notebook }, item) {
  const trail = [];
  for (let at = item; at && at.kind !== "site"; at = notebook.site?.parent(at)) {
    trail.unshift({ words: calledOf(registry, at), href: pageOf(at) });
  }
  return trail;
}

/** One line of a list of items. */
export function lineOf({ registry, notebook }, item, aside = "", href = pageOf(item)) {
  const { mark } = item.values;
  const name = titleOf(registry, { ...item, values: { ...item.values, mark: undefined } });
  const unsent = notebook.waits(item.id) ? "not sent yet" : "";
  const line = filled("line", { mark: mark ?? "", name, aside: [aside, unsent].filter(Boolean).join(" · ") });
  slot(line, "link").href = href;
  return line;
}

/** Lists of what belongs to an item, kind by kind, those that are not empty. */
export function listsOf(context, parent, kinds, asides = {}) {
  const { registry, notebook } = context;
  return kinds.flatMap((kind) => {
    const items = notebook.site.of(parent, kind);
    if (!items.length) return [];
    const lines = items.map((item) => lineOf(context, item, asides[kind]?.(item) ?? item.values.state ?? ""));
    const { plural } = registry.kinds.get(kind);
    const long = lines.length > MOST_OPEN || kind === "reading";
    return [long ? filled("folded-list", { heading: `${plural} (${lines.length})`, lines }) : filled("list-part", { heading: plural, lines })];
  });
}

/** The names of the kinds whose items belong to an item, those that are shown in lists. */
export function childrenOf(registry, item) {
  return [...registry.kinds.values()]
    .filter((kind) => !kind.pictured && kind.parent && kind.byName.get(kind.parent).to === item.kind)
    .map(({ name }) => name);
}

/** A verdict's sign and word. */
export function wordOf(word, said = word) {
  const shown = filled("word", { sign: sign(word), word: said });
  shown.classList.add(classOf(word));
  return shown;
}

/** One finding, with its working. */
export function findingOf({ registry }, { against, verdict }) {
  const steps = rows("fact", verdict.working);
  const line = filled("finding", {
    word: wordOf(verdict.word),
    against: against ? link(`against ${titleOf(registry, against)}`, pageOf(against)) : "",
    sentence: verdict.sentence,
    steps,
    source: verdict.source,
  });
  line.classList.add(classOf(verdict.word));
  return line;
}

/** The titles of cautions by their keys, in one line. */
export function cautionTitles({ registry }, keys) {
  return registry.cautions.filter(({ key }) => keys.includes(key)).map(({ title }) => title.toLowerCase()).join(", ");
}

/** Cautions by their keys. */
export function cautionsOf({ registry }, keys) {
  return registry.cautions
    .filter(({ key }) => keys.includes(key))
    .map(({ title, text, left_to: leftTo }) => filled("caution", { title, text, "left-to": leftTo }));
}

/** Photographs in rows; pictures come in as they are read from the store. */
export function picturesOf(context, subject) {
  const photographs = context.notebook.site.photographsOf(subject);
  if (!photographs.length) return [none("No photographs yet.")];
  return photographs.map(({ id, values }) => {
    const item = filled("picture", { words: values.caption || values.purpose });
    slot(item, "link").href = `#/picture/${id}`;
    showPicture(slot(item, "image"), values.sha256); // the words under it say what it shows
    return item;
  });
}

/** Let an image show a photograph, small or whole, if it is here; says what came of it. */
export async function showPicture(image, sha256, whole = false) {
  const bytes = (whole && (await originalOf(sha256))) || (await copyOf(sha256)) || (await originalOf(sha256));
  if (!bytes) {
    image.alt = `${image.alt} (not on this phone)`.trim();
    return false;
  }
  const address = URL.createObjectURL(new Blob([bytes]));
  image.addEventListener("load", () => URL.revokeObjectURL(address), { once: true });
  image.src = address;
  return true;
}

/** A line that says there is nothing. */
export function nothing(words) {
  const line = made("nothing");
  tell(line, words);
  return line;
}

/** The same, as the one line of a list. */
export function none(words) {
  const line = made("none");
  tell(line, words);
  return line;
}

/**
 * What an entry means that another version of the description was used for: mirrors fieldbook/model/versions.py.
 * Older names and words are read as the present ones; what only a newer version knows is told apart.
 */

/** @typedef {import("../projection.js").Entry} Entry */
/** @typedef {import("./registry.js").Field} Field */

const HOLDS = {
  number: (value) => typeof value === "number" || typeof value === "boolean",
  whole: (value) => Number.isInteger(value) || typeof value === "boolean",
  "yes-no": (value) => Number.isInteger(value) || typeof value === "boolean",
  choices: Array.isArray,
  links: Array.isArray,
  outline: Array.isArray,
  rows: (value) => Array.isArray(value) && value.every(Array.isArray),
};
const isText = (value) => typeof value === "string";
const is = (value) => value !== null && value !== undefined;

/** @type {WeakMap<Field, string[]>} */
const words = new WeakMap();

/** Every word a field may hold, those no longer offered included. @returns {string[]} */
export function wordsOf(/** @type {Field} */ field) {
  if (!words.has(field)) words.set(field, [...field.choices, ...field.retired_choices]);
  return words.get(field);
}

/** The word that says the same now, for one the field had before; any other as it is. */
export function presentWord({ renamed_choices: renamed }, word) {
  return renamed.find(([before]) => before === word)?.[1] ?? word;
}

/**
 * An entry by the present names, in present words; `unknown` holds what this version cannot account for.
 * @param {{kinds: Map<string, any>}} registry
 * @param {any} entry
 * @returns {Entry & {unknown: Record<string, any>}}
 */
export function inPresentWords({ kinds }, entry) {
  const kind = kinds.get(entry.kind);
  if (!kind) return { ...entry, unknown: { "": entry.set ?? null } };
  if (isPresent(kind, entry)) return { ...entry, unknown: {} };
  const [set, unknown] = [{}, {}];
  for (const [name, value] of Object.entries(entry.set)) {
    const field = kind.byAnyName.get(name);
    if (!field || !isKnown(field, value)) unknown[name] = value;
    if (field) set[field.name] = present(field, value);
  }
  return { ...entry, set, unknown };
}

/** Whether all that is set stands in present names and words already, as nearly all of a book does. */
export function isPresent({ byName }, { set }) {
  for (const name in set) {
    const [field, value] = [byName.get(name), set[name]];
    if (!field || value === undefined) return false;
    if (value === null) continue;
    if (field.type === "choices" || field.type === "rows" || !holds(field, value)) return false;
    if (field.type === "choice" && (presentWord(field, value) !== value || !wordsOf(field).includes(value))) return false;
  }
  return true;
}

/** Whether this version knows all that an entry says. */
export function isUnderstood(registry, entry) {
  return !Object.keys(inPresentWords(registry, entry).unknown).length;
}

/**
 * The rows of an outbox that may go up: what this version does not know was made by a newer one and waits for it,
 * and so does what was entered about the same item after it (S14, S17).
 * @template {{entry: any, returned?: boolean}} Row
 * @param {{kinds: Map<string, any>}} registry
 * @param {Row[]} outbox
 * @returns {Row[]}
 */
export function readyToGo(registry, outbox) {
  const held = new Set();
  return outbox.filter(({ entry }) => {
    if (!isUnderstood(registry, entry)) held.add(entry.item);
    return !held.has(entry.item);
  });
}

function present(field, value) {
  if (!is(value) || !holds(field, value)) return null;
  if (field.type === "choice") return wordsOf(field).find((word) => word === presentWord(field, value)) ?? null;
  if (field.type === "choices") {
    const meant = value.map((word) => presentWord(field, word));
    const known = wordsOf(field).filter((word) => meant.includes(word));
    return known.length ? known : null;
  }
  if (field.type === "rows") return value.map((row) => field.columns.map((column, at) => present(column, row[at])));
  return value;
}

function isKnown(field, value) {
  if (!is(value)) return true;
  if (!holds(field, value)) return false;
  if (field.type === "choice") return wordsOf(field).includes(presentWord(field, value));
  if (field.type === "choices") return value.every((word) => wordsOf(field).includes(presentWord(field, word)));
  if (field.type !== "rows") return true;
  return value.every((row) => row.length <= field.columns.length && row.every((cell, at) => isKnown(field.columns[at], cell)));
}

function holds(field, value) {
  return (HOLDS[field.type] ?? isText)(value);
}

/**
 * The order people put numbered things in: D2 before D10, whatever the case, accents and leading zeros.
 * Does what fieldbook/model/order.py does; tests/cases/order.json holds the two together.
 */

const PLAIN = /^[ -~]*$/; // as nearly all marks are: nothing to normalise
const PARTS = /[0-9]+|(?:(?![0-9])[\p{L}\p{N}])+/gu;
const read = new Map();

/**
 * Which of two marks comes first: below 0 for the first, above 0 for the other, 0 only for the same mark.
 * @param {string|null|undefined} one
 * @param {string|null|undefined} other
 * @returns {number}
 */
export function byCounting(one, other) {
  return byParts(parted(one), parted(other));
}

/**
 * Items by their marks as people count; alike ones, and those without, by id, as recorded. Each mark is read once.
 * @template {{id: string}} One
 * @param {One[]} items
 * @param {(item: One) => string|null|undefined} markOf
 * @returns {One[]}
 */
export function inOrder(items, markOf) {
  const marked = items.map((item) => ({ item, mark: parted(markOf(item)) }));
  marked.sort((one, other) => byParts(one.mark, other.mark) || (one.item.id < other.item.id ? -1 : 1));
  return marked.map(({ item }) => item);
}

function parted(mark) {
  return { mark: mark || "", parts: mark ? partsOf(mark) : [] };
}

function byParts({ mark: one, parts }, { mark: other, parts: otherParts }) {
  if (!one !== !other) return one ? -1 : 1;
  return bySteps(parts, otherParts, byPart) || (one === other ? 0 : bySteps([...one], [...other], byCodePoint));
}

/** What people take a mark for: D2, d2, D-2 and D02 read alike, and nobody at a wall tells them apart. "" for none. */
export function takenFor(mark) {
  return mark ? partsOf(mark).join(" ") || mark : "";
}

/** Marks read once are kept: a book is put in order again after every entry, and has the same ones. */
function partsOf(mark) {
  let parts = read.get(mark);
  if (!parts) read.set(mark, (parts = readParts(mark)));
  return parts;
}

function readParts(mark) {
  const bare = (PLAIN.test(mark) ? mark : mark.normalize("NFKD").replace(/\p{M}/gu, "")).toLowerCase();
  return (bare.match(PARTS) ?? []).map((part) => (/^[0-9]/.test(part) ? BigInt(part) : part));
}

function byPart(one, other) {
  if (typeof one !== typeof other) return typeof one === "bigint" ? -1 : 1;
  if (typeof one === "string") return bySteps([...one], [...other], byCodePoint);
  return one < other ? -1 : Number(one > other);
}

function byCodePoint(one, other) {
  return one.codePointAt(0) - other.codePointAt(0);
}

function bySteps(one, other, compare) {
  for (let at = 0; at < Math.min(one.length, other.length); at += 1) {
    const found = compare(one[at], other[at]);
    if (found) return found;
  }
  return one.length - other.length;
}

/**
 * The order people put numbered things in: D2 before D10, whatever the case, accents and leading zeros.
 * Does what fieldbook/model/order.py does; tests/cases/order.json holds the two together.
 */

const PARTS = /[0-9]+|(?:(?![0-9])[\p{L}\p{N}])+/gu;

/**
 * Which of two marks comes first: below 0 for the first, above 0 for the other, 0 only for the same mark.
 * @param {string|null|undefined} one
 * @param {string|null|undefined} other
 * @returns {number}
 */
export function byCounting(one, other) {
  const [a, b] = [one || "", other || ""];
  if (!a !== !b) return a ? -1 : 1;
  return bySteps(partsOf(a), partsOf(b), byPart) || bySteps([...a], [...b], byCodePoint);
}

/** What people take a mark for: D2, d2, D-2 and D02 read alike, and nobody at a wall tells them apart. "" for none. */
export function takenFor(mark) {
  return mark ? partsOf(mark).join(" ") || mark : "";
}

function partsOf(mark) {
  const bare = mark.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();
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

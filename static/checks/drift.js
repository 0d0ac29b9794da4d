/** What was measured again: how far it has changed, and how sure that is. Mirrors fieldbook/checks/drift.py. */

const TAPE_MM = 1;

/**
 * How far something has changed; null where there are fewer than two readings.
 * @param {[number, number|null|undefined][]} readings  value and uncertainty in mm, the oldest first
 */
export function drift(readings) {
  if (readings.length < 2) return null;
  const [by, unsure] = between(readings[0], readings.at(-1));
  const [step, stepUnsure] = between(readings.at(-2), readings.at(-1));
  const moved = Math.abs(by) > unsure;
  return { by, unsure, moved, still: moved && Math.abs(step) > stepUnsure };
}

/** The same in one line. */
export function driftWords({ by, unsure, moved, still }) {
  const change = `${by < 0 || Object.is(by, -0) ? "-" : "+"}${Math.abs(by).toFixed(1)} mm (± ${unsure.toFixed(1)} mm)`;
  if (!moved) return `${change} since the first: no more than the readings are unsure by`;
  return `${change} since the first: it has moved, and ${still ? "still moves" : "has come to rest"}`;
}

function between([one, onePlus], [other, otherPlus]) {
  return [other - one, Math.hypot(onePlus ?? TAPE_MM, otherPlus ?? TAPE_MM)];
}

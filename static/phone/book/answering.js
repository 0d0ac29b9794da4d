/**
 * One question about one thing, and what a field that is not entered does to the answer: its ordinary values are tried.
 * Mirrors fieldbook/findings/answering.py.
 */

import { roundedUp } from "../../checks/limits.js";
import { Refusal } from "../../checks/refusal.js";
import { FINE, STOP, WORDS, left, notKnown, notKnownBecause } from "../../checks/verdict.js";
import { NotEntered, keyOf } from "./asking.js";
import { capped } from "./beyond.js";
import { blankInWords } from "./looked.js";

const MOST_TRIES = 64; // beyond that too much is missing for an answer

/** @typedef {import("./asking.js").Asked} Asked */
/** @typedef {{against: import("./site.js").Item|null, verdict: import("../../checks/verdict.js").Verdict}} Outcome */
/** @typedef {{taken: Map<string, any>, outcome: Outcome|null, lacking: NotEntered|null}} Try */

/**
 * The one finding of a question about a thing.
 * @param {string} check  name of the question
 * @param {(asked: Asked, subject: any) => Outcome} ask
 * @param {Asked} asked
 * @param {import("./site.js").Item} subject
 */
export function find(check, ask, asked, subject) {
  const found = answered(check, ask, asked, subject);
  return { subject, ...found, verdict: capped(asked.site, found.verdict) };
}

function answered(check, ask, asked, subject) {
  try {
    return ask(asked, subject);
  } catch (error) {
    if (error instanceof NotEntered) return tried(check, ask, asked, subject, error);
    if (!(error instanceof Refusal)) throw error;
    return { against: null, verdict: notKnownBecause(check, error, "") };
  }
}

function tried(check, ask, asked, subject, first) {
  if (!valuesOf(asked.registry, first.blank).length) return notEntered(check, asked.registry, [first.blank], null, first);
  const blanks = new Map();
  /** @type {Try[]} */
  const tries = [];
  for (const one of triesOf(check, ask, asked, subject, new Map(), blanks)) {
    tries.push(one);
    if ((one.lacking && one.taken.size === 1) || tries.length >= MOST_TRIES) break;
  }
  const ranked = [...tries].sort((one, other) => badness(one)[0] - badness(other)[0] || compare(badness(one)[1], badness(other)[1]));
  const settled = !tries.some(({ lacking }) => lacking) && tries.length < MOST_TRIES;
  const words = tries.map(wordOf);
  if (settled && words.every((word) => FINE.includes(word))) return ranked[0].outcome;
  // Which tells of no more than is so in any case.
  if (settled && (words.every((word) => STOP.includes(word)) || words.every((word) => word === "not agreed"))) return ranked.at(-1)?.outcome;
  if (settled && words.every((word) => word === words[0])) return ranked[0].outcome;
  const missing = thatMatter(tries).map((key) => blanks.get(key));
  const lack = tries.find(({ lacking }) => lacking)?.lacking ?? null;
  const worst = lack ? null : ranked.find(({ outcome }) => outcome)?.outcome ?? null;
  return notEntered(check, asked.registry, missing.length ? missing : [...blanks.values()], worst, lack);
}

function compare(one, other) {
  return one === other ? 0 : one - other;
}

/** Answers with every ordinary value of what is missing, as they come to be needed. */
function* triesOf(check, ask, asked, subject, taken, blanks) {
  try {
    yield { taken, outcome: ask({ ...asked, taken }, subject), lacking: null };
  } catch (error) {
    if (error instanceof Refusal) return yield { taken, outcome: { against: null, verdict: notKnownBecause(check, error, "") }, lacking: null };
    if (!(error instanceof NotEntered)) throw error;
    const key = keyOf(error.blank);
    blanks.set(key, error.blank);
    const values = taken.has(key) ? [] : valuesOf(asked.registry, error.blank);
    if (!values.length) yield { taken: new Map([...taken, [key, null]]), outcome: null, lacking: error };
    for (const value of values) yield* triesOf(check, ask, asked, subject, new Map([...taken, [key, value]]), blanks);
  }
  return undefined;
}

/** What may ordinarily stand where nothing is entered; none where that is not known. */
function valuesOf({ kinds }, { item, field: name }) {
  const field = kinds.get(item.kind).byName.get(name);
  if (field?.ordinary) return field.ordinary;
  return { "yes-no": [1, 0], choice: field?.choices }[field?.type] ?? [];
}

function wordOf({ outcome }) {
  return outcome?.verdict.word ?? "not known";
}

function badness(one) {
  return [WORDS.indexOf(wordOf(one)), one.outcome ? left(one.outcome.verdict) : Infinity];
}

/** The missing entries on which the answer turns: two tries that differ in nothing else come to another word. */
function thatMatter(/** @type {Try[]} */ tries) {
  const matter = new Set(tries.filter(({ lacking }) => lacking).map((one) => askedFirst(one, tries)));
  tries.forEach((one, place) => {
    for (const other of tries.slice(place + 1)) {
      const differing = [...one.taken.keys()].filter((key) => other.taken.has(key) && one.taken.get(key) !== other.taken.get(key));
      if (differing.length === 1 && FINE.includes(wordOf(one)) !== FINE.includes(wordOf(other))) matter.add(differing[0]);
    }
  });
  return [...matter];
}

/** What to ask for where an entry lacks: what was tried before it, if with another value of that nothing lacks. */
function askedFirst(lacking, tries) {
  const keys = [...lacking.taken.keys()];
  const before = keys.slice(0, -1);
  for (const [place, key] of before.entries()) {
    const same = ({ taken }, one) => taken.get(one) === lacking.taken.get(one);
    const alike = (other) =>
      before.slice(0, place).every((one) => same(other, one)) &&
      before.slice(place + 1).every((one) => !other.taken.has(one) || same(other, one));
    const otherwise = (one) => ![undefined, null, lacking.taken.get(key)].includes(one.taken.get(key));
    if (tries.some((one) => !one.lacking && alike(one) && otherwise(one))) return key;
  }
  return keys.at(-1);
}

function notEntered(check, registry, missing, worst, lack) {
  const names = missing.map((blank) => blankInWords(registry, blank)).join("; ");
  const known = lack && lack.figure !== null ? lack : worst?.verdict ?? { figure: null, unit: "" };
  const figure = known.figure === null ? "" : ` The figure is ${Number(roundedUp(known.figure, step(known.figure)).toPrecision(10))} ${known.unit}.`;
  const why = lack?.why && missing.some((blank) => keyOf(blank) === keyOf(lack.blank)) ? ` ${lack.why}` : "";
  const found = notKnown(check, missing.map(({ field }) => field), `Not entered: ${names}.${figure}${why}`, worst?.verdict.source ?? "");
  return { against: worst?.against ?? null, verdict: { ...found, figure: known.figure, unit: known.figure === null ? "" : known.unit } };
}

/** The step of the third figure of a number that is told in words. */
function step(figure) {
  return figure ? 10 ** (Math.floor(Math.log10(Math.abs(figure))) - 2) : 1;
}

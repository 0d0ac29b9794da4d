/** What is answered about the things on a face, at the wall as at the desk: place, mark, keep-off, clearance and what is looked for before a hole. */

import { Refusal } from "../../checks/refusal.js";
import { WORDS, notKnownBecause } from "../../checks/verdict.js";
import { beforeHole } from "./before_hole.js";
import { capped } from "./beyond.js";
import { clearanceOfFitting, clearanceOfFixing } from "./clearance.js";
import { keepOffOfFitting, keepOffOfFixing } from "./keep_off.js";
import { ownMark } from "./own_mark.js";
import { placeOfFitting, placeOfFixing } from "./place.js";
import { stands } from "./site.js";

/** @typedef {{subject: import("./site.js").Item, against: import("./site.js").Item|null, verdict: import("../../checks/verdict.js").Verdict}} Finding */

const QUESTIONS = {
  fixing: [["place", placeOfFixing], ["mark", ownMark], ["keep-off", keepOffOfFixing], ["clearance", clearanceOfFixing], ["before-hole", beforeHole]],
  fitting: [["place", placeOfFitting], ["mark", ownMark], ["keep-off", keepOffOfFitting], ["clearance", clearanceOfFitting]],
};

/**
 * All findings about what is on a face, worst first: one for each question of each thing.
 * @returns {Finding[]}
 */
export function appraise(registry, site, face) {
  const things = [...site.fixingsOn(face), ...site.of(face, "fitting")].filter(stands);
  return worstFirst(things.flatMap((one) => answers(registry, site, one, QUESTIONS[one.kind])));
}

/** The same about one fixing or fitting alone. */
export function appraiseOne(registry, site, item) {
  return worstFirst(answers(registry, site, item, QUESTIONS[item.kind]));
}

function worstFirst(found) {
  const rank = ({ verdict }) => [WORDS.indexOf(verdict.word), verdict.margin ?? Infinity];
  return found.sort((one, other) => {
    const [[word, margin], [otherWord, otherMargin]] = [rank(one), rank(other)];
    return word - otherWord || (margin === otherMargin ? 0 : margin - otherMargin);
  });
}

function answers(registry, site, subject, questions) {
  return questions.map(([check, ask]) => {
    try {
      const found = ask(registry, site, subject);
      return { subject, ...found, verdict: capped(site, found.verdict) };
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      return { subject, against: null, verdict: notKnownBecause(check, error, "") };
    }
  });
}

/** The worst word found about each item, by its id. */
export function worstWords(findings) {
  const words = new Map();
  for (const { subject, verdict } of findings) {
    const before = words.get(subject.id);
    if (!before || WORDS.indexOf(verdict.word) < WORDS.indexOf(before)) words.set(subject.id, verdict.word);
  }
  return words;
}

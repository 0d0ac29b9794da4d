/** What is answered about the things on a face, at the wall as at the desk: place, mark, keep-off, clearance, standing out and what is looked for before a hole. */

import { WORDS, left } from "../../checks/verdict.js";
import { find } from "./answering.js";
import { beforeHole } from "./before_hole.js";
import { clearanceOfFitting, clearanceOfFixing } from "./clearance.js";
import { consentOfFitting, consentOfFixing } from "./consent.js";
import { keepOffOfFitting, keepOffOfFixing } from "./keep_off.js";
import { today } from "./moments.js";
import { ownMark } from "./own_mark.js";
import { placeOfFitting, placeOfFixing } from "./place.js";
import { stands } from "./site.js";
import { standsOut } from "./standing_out.js";

/** @typedef {{subject: import("./site.js").Item, against: import("./site.js").Item|null, verdict: import("../../checks/verdict.js").Verdict}} Finding */

const QUESTIONS = {
  fixing: [["place", placeOfFixing], ["mark", ownMark], ["keep-off", keepOffOfFixing], ["clearance", clearanceOfFixing], ["before-hole", beforeHole]],
  fitting: [["place", placeOfFitting], ["mark", ownMark], ["keep-off", keepOffOfFitting], ["clearance", clearanceOfFitting], ["projection", standsOut]],
};

/**
 * All findings about what is on a face, worst first: one for each question of each thing, as it is on a day.
 * @returns {Finding[]}
 */
export function appraise(registry, site, face, day = today()) {
  const things = [...site.fixingsOn(face), ...site.of(face, "fitting")].filter(stands);
  return worstFirst(things.flatMap((one) => [...answers(registry, site, one, day)]));
}

/** The same about one fixing or fitting alone. */
export function appraiseOne(registry, site, item) {
  const asking = appraising(registry, site, item);
  for (let step = asking.next(); ; step = asking.next()) if (step.done) return step.value;
}

/** The same question by question, so that whoever asks can do something else between them. */
export function* appraising(registry, site, item, day = today()) {
  const found = [];
  for (const answer of answers(registry, site, item, day)) {
    found.push(answer);
    yield;
  }
  return worstFirst(found);
}

function worstFirst(found) {
  const rank = ({ verdict }) => [WORDS.indexOf(verdict.word), left(verdict)];
  return found.sort((one, other) => {
    const [[word, margin], [otherWord, otherMargin]] = [rank(one), rank(other)];
    return word - otherWord || (margin === otherMargin ? 0 : margin - otherMargin);
  });
}

function* answers(registry, site, subject, day) {
  const asked = { registry, site, today: day };
  for (const [check, ask] of QUESTIONS[subject.kind]) yield find(check, ask, asked, subject);
}

/** Whether the keeper has agreed to a fixing or a fitting as it is: told by itself, since it is not about the place. */
export function consentOf(registry, site, item, day = today()) {
  const ask = item.kind === "fixing" ? consentOfFixing : consentOfFitting;
  return find("consent", ask, { registry, site, today: day }, item);
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

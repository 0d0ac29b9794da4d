/** The answer of a check, in one of a few words. Mirrors fieldbook/checks/verdict.py. */

/** What a question can come to, from worst to best. */
export const WORDS = ["refused", "over", "not agreed", "not known", "close", "within", "agreed", "does not apply"];

export const STOP = ["refused", "over"];
export const FINE = ["close", "within", "agreed", "does not apply"];

/**
 * @typedef {object} Verdict
 * @property {string} check  name of the check
 * @property {string} word  one of WORDS
 * @property {number|null} figure  what was reckoned, in unit
 * @property {number|null} limit  what it is held against, in unit
 * @property {number|null} margin  how much is left, in unit; negative when over
 * @property {string} unit
 * @property {string} sentence  the answer in plain words
 * @property {string} source  edition, equation or table of the method
 * @property {string[]} missing  inputs that were not there or outside the method's range
 * @property {[string, string][]} working  label and figure with unit, in order
 */

/**
 * @param {string} check
 * @param {string} word
 * @param {(number|null)[]} figures  figure, limit, margin, in mm
 * @param {string} sentence
 * @param {string} source
 * @param {[string, string][]} working
 * @returns {Verdict}
 */
export function verdict(check, word, [figure, limit, margin], sentence, source, working = []) {
  return { check, word, figure, limit, margin, unit: "mm", sentence, source, missing: [], working };
}

/**
 * Over below zero, close below `close`, else within. A margin that is no number is over.
 * @param {number} margin  in the unit of close
 * @param {number} close
 * @returns {string} one of WORDS
 */
export function wordFor(margin, close) {
  if (!(margin >= 0)) return "over";
  return margin < close ? "close" : "within";
}

/**
 * The verdict when inputs are missing.
 * @param {string} check
 * @param {string[]} missing
 * @param {string} sentence
 * @param {string} source
 * @returns {Verdict}
 */
export function notKnown(check, missing, sentence, source) {
  return { ...verdict(check, "not known", [null, null, null], sentence, source), missing };
}

/**
 * The verdict when a method refused its inputs: the refusal says why.
 * @param {string} check
 * @param {import("./refusal.js").Refusal} refusal
 * @param {string} source
 * @returns {Verdict}
 */
export function notKnownBecause(check, refusal, source) {
  return notKnown(check, [refusal.field ?? ""], `${refusal.reason} ${refusal.remedy}`, source);
}

/**
 * The margin as it is compared: what is over without one is further over than any figure says.
 * @param {Verdict} verdict
 * @returns {number}
 */
export function left({ word, margin }) {
  return margin ?? (word === "over" ? -Infinity : Infinity);
}

/**
 * The worst of some words; null when there are none.
 * @param {string[]} words
 * @returns {string|null}
 */
export function worst(words) {
  return WORDS.find((word) => words.includes(word)) ?? null;
}

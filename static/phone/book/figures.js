/**
 * Numbers as people write them: either decimal sign, thousands marked by spaces, points, commas or apostrophes, a unit.
 * Does what fieldbook/model/figures.py does; tests/cases/figures.json holds the two together.
 */

import { Refusal } from "../../checks/refusal.js";
import { stripped } from "./text.js";

const FIGURES = /^[+-]?(?:\d+(?:_\d+)*\.?(?:\d+(?:_\d+)*)?|\.\d+(?:_\d+)*)(?:e[+-]?\d+(?:_\d+)*)?$/i;
const SPACES = /(\d)[\s\u00a0\u202f'’](?=\d{3}\b)/g;
const GROUPED = /^(?:[+-]?\d{1,3}(?:\.\d{3})+,\d*|[+-]?\d{1,3}(?:,\d{3})+\.\d*)$/;
const THOUSANDS = /^[+-]?\d{1,3}(?:(?:\.\d{3}){2,}|(?:,\d{3}){2,})$/;
const TWO_WAYS = /^[+-]?[1-9]\d{0,2}[.,]\d{3}$/;
/**
 * Unit asked for -> other units that it may be given in, and what one of them is.
 * @type {Record<string, Record<string, number>>}
 */
const OTHER_UNITS = { mm: { cm: 10, m: 1000 }, kg: { g: 0.001 }, N: { kN: 1000 } };
const UNIT_BEHIND = /(\d)\s+(?=(?:mm|cm|m|kg|g|kN|N|°|%)(?:[\s;,/×]|$))/g;
const PARTED = /(,\s+|\s*[;/×x]\s*|\s+)/;

/**
 * The number that a text means; the text itself where it is none, or can be read in two ways.
 * @param {string} text
 * @returns {number|string}
 */
export function numberFrom(text) {
  const plain = plainOf(text);
  if (TWO_WAYS.test(plain)) return text;
  const pointed = withAPoint(plain);
  const number = FIGURES.test(pointed) ? Number(pointed.replaceAll("_", "")) : NaN;
  return Number.isFinite(number) ? number : text;
}

/**
 * The same, with a unit behind it or none: the one asked for, or another of its sort, as 4.2 m where mm are asked.
 * @param {string} text
 * @param {string} unit
 * @returns {number|string}
 */
export function numberIn(text, unit) {
  const number = numberFrom(text);
  const [figures, name, factor] = measured(text, unit);
  if (typeof number === "number" || !name) return number;
  const read = numberFrom(figures);
  return typeof read === "number" ? Number((read * factor).toFixed(9)) : text;
}

/**
 * Figures typed together, each in one piece with its unit: where a space parts the figures it parts no unit.
 * @param {string} text
 * @param {string} [between]  what stands before the unit then
 */
export function tied(text, between = "") {
  return text.replace(UNIT_BEHIND, `$1${between}`);
}

/**
 * Whether some of the figures typed together have another unit than the one asked for, and some have none.
 * @param {string[]} words
 * @param {string[]} units  what each is asked in
 */
export function inMixedUnits(words, units) {
  return Object.entries(OTHER_UNITS).some(([unit, others]) => {
    const names = words.flatMap((word, at) => (units[at] === unit && /\d/.test(word) ? [measured(word, unit)[1]] : []));
    return names.includes("") && names.some((name) => name in others);
  });
}

/**
 * The lengths of a line with spaces or semicolons between, mm; what is none as it stands.
 * @param {string} line
 * @returns {(number|string)[]}
 */
export function lengthsIn(line) {
  const words = tied(line).split(/[\s;]+/).filter(Boolean);
  return inMixedUnits(words, words.map(() => "mm")) ? [line] : words.map((word) => numberIn(word, "mm"));
}

/** Whether a word is a figure, with or without any unit that can be behind one. @param {string} word */
export const isMeasure = (word) => ["°", "%", ...Object.keys(OTHER_UNITS)].some((unit) => typeof numberIn(word, unit) === "number");

/** Whether nobody can tell what some of these are in, whatever is asked for. @param {string[]} words */
export const areMixed = (words) => Object.keys(OTHER_UNITS).some((unit) => inMixedUnits(words, words.map(() => unit)));

/**
 * The figures of a text, its unit and what one of that is in the unit asked for; no unit where none is known.
 * @param {string} text
 * @param {string} unit
 * @returns {[string, string, number]}
 */
function measured(text, unit) {
  const known = unit ? { [unit]: 1, ...OTHER_UNITS[unit] } : {};
  const ends = Object.keys(known).filter((name) => stripped(text).endsWith(name));
  const name = ends.reduce((longest, one) => (one.length > longest.length ? one : longest), "");
  return [name ? stripped(text).slice(0, -name.length) : text, name, known[name] ?? 1];
}

function plainOf(text) {
  return stripped(text).replace(SPACES, "$1").replaceAll("−", "-");
}

function withAPoint(plain) {
  if (GROUPED.test(plain)) {
    const [thousands, decimal] = plain.lastIndexOf(",") > plain.lastIndexOf(".") ? [".", ","] : [",", "."];
    return plain.replaceAll(thousands, "").replace(decimal, ".");
  }
  if (THOUSANDS.test(plain)) return plain.replaceAll(/[.,]/g, "");
  return plain.split(",").length === 2 && !plain.includes(".") ? plain.replace(",", ".") : plain;
}

/**
 * How to write either number that a text can be read as, 1.500 as 1.5 or 1500; null where there is one at most.
 * @param {unknown} text
 * @param {string} [unit]
 * @returns {[string, string] | null}
 */
export function twoReadings(text, unit = "") {
  if (typeof text !== "string") return null;
  const [figures, name] = measured(text, unit);
  const plain = plainOf(figures);
  if (!TWO_WAYS.test(plain)) return inTwoUnits(text, unit);
  const ways = /** @type {[string, string]} */ ([typedNumber(Number(plain.replace(",", "."))), plain.replace(/[.,]/, "")]);
  return /** @type {[string, string]} */ (ways.map((way) => (name ? `${way} ${name}` : way)));
}

/** Figures typed together of which some have another unit and some none, with either behind those. @returns {[string, string] | null} */
function inTwoUnits(text, unit) {
  const pieces = tied(stripped(text)).split(PARTED);
  const read = pieces.map((piece, at) => (at % 2 ? null : measured(piece, unit)));
  const figures = read.filter(Boolean);
  const words = pieces.filter((_, at) => at % 2 === 0);
  if (!figures.every(([number]) => typeof numberFrom(number) === "number") || !inMixedUnits(words, words.map(() => unit))) return null;
  const [, other] = figures.find(([, name]) => name && name !== unit);
  const way = (meant) => pieces.map((piece, at) => (at % 2 ? piece : `${stripped(read[at][0])} ${read[at][1] || meant}`)).join("");
  return [way(other), way(unit)];
}

/**
 * @param {{label: string, unit: string}} field
 * @param {unknown} value
 * @param {{field: string, value: unknown}} about
 * @throws {Refusal} a text that can be read in two ways, with how to write either
 */
export function refuseTwoReadings(field, value, about) {
  const ways = twoReadings(value, field.unit);
  if (!ways) return;
  throw new Refusal("not-a-number", `${field.label} is “${value}”, which can be read in two ways.`, `Write ${ways[1]}, or ${ways[0]}.`, about);
}

/**
 * A number without needless decimals and without an exponent.
 * @param {number} value
 * @returns {string}
 */
export function numberTo(value) {
  if (Number.isInteger(value)) return String(value + 0);
  return value.toFixed(Math.abs(value) >= 0.001 ? 6 : 12).replace(/\.?0+$/, "");
}

/** A figure reckoned of others, without the noise of their sum: 100.1 and 200.2 are 300.3. @param {number} value */
export const withoutNoise = (value) => Number(value.toFixed(6));

/**
 * A number so that `numberFrom` reads it back: one that could be read in two ways has a nought more.
 * @param {number} value
 * @returns {string}
 */
export function typedNumber(value) {
  const text = numberTo(value);
  return TWO_WAYS.test(text) ? `${text}0` : text;
}

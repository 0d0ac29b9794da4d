/** Text as a field takes it: normalised, without what cannot be seen. Mirrors fieldbook/model/fields.py. */

import { Refusal } from "../../checks/refusal.js";

const LINE_LENGTH = 200;
const NOTE_LENGTH = 20_000;
// The server's idea of white space at the ends, which is not quite that of String.trim.
const SPACE = "[\\t-\\r\\x1c-\\x20\\x85\\xa0\\u1680\\u2000-\\u200a\\u2028\\u2029\\u202f\\u205f\\u3000]";
const ENDS = new RegExp(`^${SPACE}+|${SPACE}+$`, "g");
const INVISIBLE = /[\p{Cc}\p{Cf}\p{Cs}\p{Co}]/u;
const INVISIBLE_IN_A_NOTE = /(?![\n\t])[\p{Cc}\p{Cf}\p{Cs}\p{Co}]/u;
const MARKUP = /<[a-zA-Z/!?][^>]*>?/;

/** @returns {string} text without white space at its ends */
export function stripped(text) {
  return text.replace(ENDS, "");
}

/**
 * @param {import("./registry.js").Field} field  of the registry, of type line or note
 * @param {any} value
 * @returns {string}
 * @throws {Refusal} unsuitable-text
 */
export function acceptText(field, value) {
  if (typeof value !== "string") throw unsuitable(field, value, "is not text", "Write it in words.");
  const text = stripped(value.replaceAll("\r\n", "\n").normalize("NFC"));
  const length = [...text].length;
  const longest = field.type === "note" ? NOTE_LENGTH : LINE_LENGTH;
  if (length > longest) {
    throw unsuitable(field, value, `has ${length} characters; at most ${longest} fit`, "Shorten it.");
  }
  const [letter] = text.match(field.type === "note" ? INVISIBLE_IN_A_NOTE : INVISIBLE) ?? [];
  if (letter) {
    const code = letter.codePointAt(0).toString(16).toUpperCase().padStart(4, "0");
    throw unsuitable(field, value, `holds an invisible character (U+${code})`, "Delete it, or type the text again.");
  }
  const [markup] = (field.type === "line" && text.match(MARKUP)) || [];
  if (markup) {
    throw unsuitable(field, value, `holds “${markup}”, which looks like markup`, "Write it in plain words.");
  }
  return text;
}

function unsuitable(field, value, why, remedy) {
  return new Refusal("unsuitable-text", `${field.label} ${why}.`, remedy, { field: field.name, value });
}

/** Whether nothing is entered: no value, an empty list, or a text of blanks. */
export function isEmpty(value) {
  if (typeof value === "string") return !stripped(value);
  return value === null || value === undefined || (Array.isArray(value) && !value.length);
}

/** Values as people read them: with their unit, a true minus, dates in words. Mirrors fieldbook/book/wording.py. */

import { numberTo } from "./typed.js";

const NO_BREAK = "\u00a0";
const MONTHS = [
  ...["January", "February", "March", "April", "May", "June", "July"],
  ...["August", "September", "October", "November", "December"],
];
const MOST_CORNERS = 8;
const UNITS = [
  ...["mm/m", "mm²", "mm", "cm", "m²", "m³", "ml", "min", "m", "kg/m³", "kg", "g", "N/mm²", "N·mm", "N·m", "N m", "kN/m²"],
  ...["kN", "N", "MPa", "klx h", "lx h", "lx", "h", "K", "°C", "%", "µW/lm", "litres", "l", "V"],
];
const UNIT_BEHIND = new RegExp(`(\\d) (${UNITS.join("|")})(?![\\p{L}\\p{N}_²³/·])`, "gu");

/** A number with its unit, which it never parts from; nothing for null. */
export function figureOf(value, unit = "") {
  if (value === null || value === undefined) return "";
  const text = numberTo(value).replace("-", "−");
  if (unit === "±") return `±${NO_BREAK}${text}`;
  return unit === "" || unit === "°" ? `${text}${unit}` : `${text}${NO_BREAK}${unit.replaceAll(" ", NO_BREAK)}`;
}

/** Words for the screen, in which no figure is parted from its unit; what is data keeps plain spaces. @param {string} words */
export function keptTogether(words) {
  return words.replace(UNIT_BEHIND, (_, digit, unit) => `${digit}${NO_BREAK}${unit.replaceAll(" ", NO_BREAK)}`);
}

/** A date, or the date of a moment, in words. */
export function dayOf(iso) {
  if (!iso) return "";
  const [year, month, day] = iso.slice(0, 10).split("-").map(Number);
  return `${day}${NO_BREAK}${MONTHS[month - 1]} ${year}`;
}

/** A moment in words, at the clock where it was noted. */
export function momentInWords(iso) {
  return iso ? `${dayOf(iso)}, ${iso.slice(11, 16)}` : "";
}

/** A size in bytes in words. */
export function sizeOf(bytes) {
  if (bytes < 1e6) return `${Math.max(1, Math.round(bytes / 1e3))}${NO_BREAK}kB`;
  return bytes < 1e9 ? `${(bytes / 1e6).toFixed(1)}${NO_BREAK}MB` : `${(bytes / 1e9).toFixed(1)}${NO_BREAK}GB`;
}

/** So many of something: no entries, 1 entry, 2 entries. */
export function countOf(count, one, several = `${one}s`) {
  return `${count || "no"}${NO_BREAK}${count === 1 ? one : several}`;
}

/** A list as a sentence holds it: a, b and c. */
export function joined(words, last = "and") {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} ${last} ${words.at(-1)}`;
}

/**
 * The value of a field in words; nothing when there is none.
 * @param {import("./registry.js").Field} field
 * @param {any} value
 * @param {(id: string) => string} titled  how an item is called
 */
export function said(field, value, titled) {
  if (value === null || value === undefined || (Array.isArray(value) && !value.length)) return "";
  return SAID[field.type]?.(field, value, titled) ?? wordOf(field, String(value));
}

/** A field's label as it stands beside a value: one that is no longer asked for says so. */
export function labelOf({ label, retired }) {
  return retired ? `${label} (no longer asked)` : label;
}

function wordOf(/** @type {import("./registry.js").Field} */ { retired_choices: retired }, word) {
  return retired?.includes(word) ? `${word} (no longer offered)` : word;
}

const SAID = {
  number: ({ unit }, value) => figureOf(value, unit),
  whole: ({ unit }, value) => figureOf(value, unit),
  "yes-no": (_, value) => (value ? "yes" : "no"),
  choices: (field, value) => value.map((word) => wordOf(field, word)).join(", "),
  date: (_, value) => dayOf(value),
  moment: (_, value) => momentInWords(value),
  link: (_, value, titled) => titled(value),
  links: (_, value, titled) => joined(value.map(titled)),
  rows: ({ columns }, rows, titled) =>
    rows.map((row) => row.map((cell, at) => [sign(columns[at]), said(columns[at], cell, titled)]).filter(([, words]) => words).map((cell) => cell.join("")).join(" ")).join("; "),
  outline: (_, corners) => outlineInWords(corners),
};

/** What stands before a figure of a column, where no heading says so. */
const sign = ({ label }) => (label?.endsWith("±") ? "±" : "");

/** From one figure to another, either of them open. */
export function span(low, high) {
  return `${figureOf(low) || "…"} to ${figureOf(high) || "…"}`;
}

/** Corners where they are few; else the rectangle they lie in. */
function outlineInWords(corners) {
  const [xs, zs] = [corners.map(([x]) => x), corners.map(([, z]) => z)];
  const within = `x ${span(Math.min(...xs), Math.max(...xs))}, z ${span(Math.min(...zs), Math.max(...zs))}`;
  const upright = corners.every((corner, at) => {
    const next = corners[(at + 1) % corners.length];
    return (corner[0] === next[0]) !== (corner[1] === next[1]);
  });
  if (corners.length === 4 && upright) return within;
  if (corners.length > MOST_CORNERS) return `${corners.length} corners, ${within}`;
  return corners.map(([x, z]) => `${figureOf(x)} / ${figureOf(z)}`).join("; ");
}

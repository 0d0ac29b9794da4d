/** Values as a person types and reads them: the text of an input, and back. Mirrors fieldbook/model/typed.py. */

import { Refusal } from "../../checks/refusal.js";
import { inMixedUnits, numberIn, tied, typedNumber } from "./figures.js";
import { momentOf, usualMoment } from "./moments.js";
import { stripped } from "./text.js";

export { numberFrom, numberTo } from "./figures.js";

const CIRCLE_CORNERS = 64;
/** A rectangle as it is noted: where it begins, and its size. */
export const SIZED = /^(\S+\s+\S+\s+[^\s×x]+)\s*[×x]\s*([^\s×x]+)$/i;
const DITTO = new Set(['"', "″", "”", "〃"]);

/**
 * What the text of one input means, before `accept` judges it. Text that cannot be read is handed on as it is.
 * @param {import("./registry.js").Field} field  of the registry
 * @param {string} text
 * @returns {any}
 * @throws {Refusal} an outline in words that are not known
 */
export function fromText(field, text) {
  const plain = stripped(text);
  if (!plain) return null;
  return READ[field.type]?.(field, plain) ?? plain;
}

const READ = {
  number: (field, text) => numberIn(text, field.unit),
  whole: (field, text) => numberIn(text, field.unit),
  "yes-no": (_, text) => ({ yes: 1, no: 0 })[wholeWord(text, ["yes", "no"])],
  choice: (field, text) => wholeWord(text, field.choices),
  moment: (_, text) => withOffset(text),
  outline: outlineFrom,
  rows: rowsFrom,
};

/**
 * The text an input shows for a stored value; `fromText` reads it back the same.
 * @param {import("./registry.js").Field} field
 * @param {any} value
 * @returns {string}
 */
export function toText(field, value) {
  if (value === null || value === undefined) return "";
  if (field.type === "yes-no") return value ? "yes" : "no";
  if (field.type === "number" || field.type === "whole") return typedNumber(value);
  if (field.type === "moment") return atThisClock(value);
  if (field.type === "rows" || field.type === "outline") {
    const between = numeric(field) ? " " : "; ";
    // A semicolon within a cell parts nothing: such a row stands with tabs.
    return value.map((row) => row.map(cellTo)).map((cells) => cells.join(cells.some((cell) => cell.includes(";")) ? "\t" : between)).join("\n");
  }
  return Array.isArray(value) ? value.join(", ") : String(value);
}

/**
 * The word that a text is, or of which alone it is the beginning; else the text.
 * @param {string} text
 * @param {string[]} words
 */
export function wholeWord(text, words) {
  const meant = words.filter((word) => word.toLowerCase() === text.toLowerCase());
  const begun = words.filter((word) => text && word.toLowerCase().startsWith(text.toLowerCase()));
  return [meant, begun].find(({ length }) => length === 1)?.[0] ?? text;
}

/** The four corners of a rectangle from its lower left one, mm. */
export function rectangle(x, z, width, height) {
  return [[x, z], [x + width, z], [x + width, z + height], [x, z + height]];
}

/** A polygon around a circle: its sides touch the circle from outside, so no room is given away; mm. */
export function circle(x, z, radius) {
  const outer = Math.abs(radius) / Math.cos(Math.PI / CIRCLE_CORNERS) + 0.001; // what rounding may take away
  const angles = Array.from({ length: CIRCLE_CORNERS }, (_, corner) => (2 * Math.PI * corner) / CIRCLE_CORNERS);
  return angles.map((angle) => [x + outer * Math.cos(angle), z + outer * Math.sin(angle)].map((part) => Number(part.toFixed(3))));
}

/** A moment typed without its offset is meant as this phone's clock shows it. */
function withOffset(text) {
  const [, date, time = "00:00"] = text.match(/^(\d{4}-\d{2}-\d{2})(?:[T ](\d{2}:\d{2}(?::\d{2})?))?$/) ?? [];
  const local = date && new Date(`${date}T${time}`);
  return local && !Number.isNaN(local.getTime()) ? momentOf(local) : text;
}

/** A moment as the clock on the wall said it, where it is read back as the same; else with its offset. */
function atThisClock(moment) {
  const plain = moment.slice(0, 16).replace("T", " ");
  return usualMoment(withOffset(plain)) === usualMoment(moment) ? plain : moment;
}

function rowsFrom(field, text) {
  if (/^grid\s/i.test(text) && field.columns.length === 3) return gridFrom(field, text);
  const rows = text.split(/\r\n|[\n\r]/).filter(stripped).map((line) => rowFrom(field, line));
  for (const [at, row] of rows.entries()) row.forEach((cell, place) => DITTO.has(cell) && at && (row[place] = rows[at - 1][place] ?? cell));
  return rows;
}

/** Rows from a grid: `grid` and the places along, then a line for each height with its figures, - for none. */
function gridFrom(field, text) {
  const [[, ...across], ...lines] = text.split(/[\n\r]+/).filter(stripped).map((line) => tied(stripped(line)).split(/\s+/));
  return lines.flatMap(([up, ...figures]) => {
    if (figures.length > across.length) {
      const reason = `${field.label}: at ${up} there are ${figures.length} figures for ${across.length} places.`;
      throw new Refusal("unsuitable-shape", reason, "Give a place along for each.", { field: field.name, value: figures.join(" ") });
    }
    return figures.map((read, at) => [across[at], up, read]).filter(([, , read]) => read !== "-").map((row) => row.map((text, at) => numberIn(text, field.columns[at].unit)));
  });
}

function rowFrom(field, line) {
  const cells = line.includes("\t") ? line.split("\t") : line.includes(";") || !numeric(field) ? line.split(";") : tied(stripped(line)).split(/,\s+|\s+/);
  if (cells.length > field.columns.length) return cells.map(stripped);
  return cells.map((cell, at) => fromText(field.columns[at], cell));
}

function outlineFrom(field, text) {
  const [word, ...rest] = tied(text).replace(SIZED, "rectangle $1 $2").split(/\s+/);
  const { unit } = field.columns[0];
  const figures = rest.map((figure) => numberIn(figure, unit));
  const allNumbers = !inMixedUnits(rest, rest.map(() => unit)) && figures.every((figure) => typeof figure === "number");
  if (word.toLowerCase() === "rectangle" && figures.length === 4 && allNumbers) return rectangle(...figures);
  if (word.toLowerCase() === "circle" && figures.length === 3 && allNumbers) return circle(...figures);
  if (/^\p{L}+$/u.test(word)) {
    const reason = `${field.label}: “${text.slice(0, 40)}” cannot be read.`;
    const remedy = "Write “x z width × height”, “circle x z radius”, or one corner a line.";
    throw new Refusal("unsuitable-shape", reason, remedy, { field: field.name, value: text });
  }
  return rowsFrom(field, text);
}

function numeric(field) {
  return field.columns.every((column) => column.type === "number");
}

function cellTo(cell) {
  if (cell === null) return "";
  return typeof cell === "number" ? typedNumber(cell) : String(cell);
}

/** Small tables at the wall: a row's cells each in an input of its own, written into the lines that are sent as they are typed. */

import { byName, called } from "../book/build_ups.js";
import { today } from "../book/moments.js";
import { toText } from "../book/typed.js";
import { filled, made, slot, wire } from "../pages/markup.js";
import { rowsOf } from "./lines.js";
import { FIGURE_DONE } from "./number_pad.js";
import { cellsBefore } from "./words_before.js";

/** @typedef {import("../book/registry.js").Field} Field */

/**
 * Put the cells of a row before every table of a form.
 * @param {HTMLFormElement} form
 * @param {import("../book/registry.js").Kind} kind
 * @param {Field[]} fields
 * @param {import("../book/registry.js").Context} context
 */
export function addTables(form, kind, fields, context) {
  for (const field of fields.filter(({ type }) => type === "rows")) {
    const area = /** @type {HTMLTextAreaElement|null} */ (/** @type {unknown} */ (form.elements.namedItem(field.name)));
    if (area) addCells(area, kind, field, context);
  }
}

function addCells(/** @type {HTMLTextAreaElement} */ area, kind, /** @type {Field} */ field, { notebook }) {
  const { columns } = field;
  const numeric = columns.every(({ type }) => type === "number");
  const parts = area.dataset.parts ? JSON.parse(area.dataset.parts) : null;
  const words = notebook.site ? cellsBefore(kind, field, notebook.site) : columns.map(() => []);
  const named = notebook.site ? byName(notebook.site, kind.name, field.name) : new Map();
  words[0].unshift(...named.keys());
  const cells = columns.map((column, at) => cellOf(column, `${field.name}-${at}`, words[at]));
  const part = filled("row-cells", { cells: cells.map(({ place }) => place) });
  part.setAttribute("aria-label", `${field.label}: the next row`);
  const inputs = cells.map(({ input }) => input);
  const each = field.columns[0].choices;
  let [at, number, own, begun] = [0, 0, false, false];

  const lines = () => area.value.split("\n").filter((line) => line.trim());
  const put = (/** @type {string[]} */ written) => {
    own = true;
    area.value = written.join("\n");
    area.dispatchEvent(new Event("input", { bubbles: true }));
    own = false;
  };
  /** In the place of the row that is being typed. */
  const lay = (/** @type {string[][]} */ rows) => {
    const there = lines();
    put([...there.slice(0, at), ...rows.map((row) => lineOf(row, numeric)), ...there.slice(at + number)]);
  };
  /** To a new row after the last, with what is usual in it: it counts once something is typed. */
  const begin = () => {
    [at, number, begun] = [lines().length, 0, false];
    inputs.forEach((input, place) => (input.value = usualIn(columns[place], notebook.facts)));
  };
  /** What is typed is among the lines at once: a row that is not finished is asked for, never left out. */
  const typed = () => {
    const row = inputs.map((input) => input.value.trim());
    const rows = !begun || !row.some(Boolean) ? [] : row[0] === ALL ? each.map((word) => [word, ...row.slice(1)]) : [row];
    lay(rows);
    number = rows.length;
  };
  /** The rows of a line: of the build-up that it names, or as it is written on a drawing, "ash upright 32 ±0.5". */
  const rowsIn = (/** @type {string} */ line) =>
    called(named, line)?.map((row) => row.map((cell, place) => toText(columns[place], cell))) ?? (parts && rowsOf(line, parts, numeric));
  const partFirst = () => {
    const free = inputs.slice(1).every((input) => !input.value);
    const rows = free ? rowsIn(inputs[0].value) : null;
    if (!rows) return;
    lay(rows);
    begin();
  };
  const next = () => {
    begin();
    inputs[0].focus();
  };
  for (const input of inputs) {
    input.addEventListener("input", (event) => {
      event.stopPropagation(); // what is kept is the line
      begun = true;
      typed();
    });
  }
  inputs[0].addEventListener("change", partFirst);
  inputs.at(-1).addEventListener(FIGURE_DONE, (event) => {
    if (inputs.some((input, place) => columns[place].required && !input.value.trim())) return;
    event.preventDefault();
    next();
  });
  area.addEventListener("input", () => own || begin());
  area.addEventListener("change", () => {
    if (/^\s*grid\s/i.test(area.value)) return;
    put(lines().flatMap((line) => partedLine(line, rowsIn, numeric)));
    begin();
  });
  wire(part, { next });
  area.before(part);
  begin();
}

export const ALL = "all of these";

/** An input or a list for the cell of a column. @param {Field} column @param {string[]} words */
function cellOf(column, id, words) {
  const place = column.type === "choice" ? made("cell-choice") : made("cell-line");
  const input = /** @type {HTMLInputElement} */ (slot(place, "cell"));
  slot(place, "words").textContent = column.label;
  slot(place, "unit").textContent = column.unit;
  if (column.type === "choice") {
    const offered = column.required ? [...column.choices, ALL] : column.choices;
    input.append(...["", ...offered].map((word) => new Option(word || "–", word)));
  } else if (column.type === "date") input.type = "date";
  else if (column.type === "number" || column.type === "whole") {
    input.inputMode = "decimal";
    if (column.low < 0) input.dataset.signed = "";
  } else if (words.length) {
    const list = document.createElement("datalist");
    list.id = `${id}-before`;
    list.append(...words.map((word) => new Option("", word)));
    input.setAttribute("list", list.id);
    input.after(list);
  }
  return { place, input };
}

/** What stands in the cell of a new row: whoever is at work, and today. */
function usualIn(/** @type {Field} */ { type, personal, required }, facts) {
  if (type === "date" && required) return today();
  return personal ? facts.inspected_by ?? facts.fitted_by ?? "" : "";
}

/**
 * A row as it is sent; a semicolon within a cell parts nothing.
 * @param {string[]} row
 * @param {boolean} numeric
 */
export function lineOf(row, numeric) {
  if (numeric && row.every(Boolean)) return row.join(" ");
  return row.join(row.some((cell) => cell.includes(";")) ? "\t" : "; ");
}

/**
 * The lines of one that is not parted into cells yet; itself where it is no row.
 * @param {string} line
 * @param {(line: string) => string[][]|null} rowsIn
 * @param {boolean} numeric
 */
export function partedLine(line, rowsIn, numeric) {
  return (/[;\t]/.test(line) ? null : rowsIn(line))?.map((row) => lineOf(row, numeric)) ?? [line];
}

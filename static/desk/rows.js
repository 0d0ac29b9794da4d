/** A table typed as lines of text, offered as cells; the text stays what is sent. */

import { offerAgain, offerWords, wholeWords } from "./cell_words.js";
import { offerGrid } from "./grid.js";
import { partLines } from "./parting.js";
import { rowForEach } from "./row_for_each.js";
import { tied } from "../phone/book/figures.js";
import { fill } from "../phone/forms/written_together.js";

const DITTO = '"';
const LEFT_OUT = "A row in grey says only what was carried on, and is not entered. Enter in it keeps it as it is; so does typing.";

/**
 * @param {HTMLTextAreaElement} text  with data-columns (headings, one a line), data-numeric, data-single for one row, and
 *   data-ditto where a ditto mark says what stands above: a 1 for each column that another of the kind takes over, else 0,
 *   data-parts where a line typed into the first cell parts by itself, and data-choices with the words of each column
 */
export function offerCells(text) {
  const columns = text.dataset.columns.split("\n");
  const numeric = text.dataset.numeric === "yes";
  const rows = rowsFrom(text.value, numeric);
  if (rows.some((row) => row.length > columns.length)) return; // stays as it was typed
  const table = document.createElement("table");
  table.className = "cells";
  const head = table.createTHead().insertRow();
  for (const column of columns) head.append(Object.assign(document.createElement("th"), { scope: "col", textContent: column }));
  head.append(document.createElement("td"));
  const body = table.createTBody();
  const left = Object.assign(document.createElement("p"), { className: "help", textContent: LEFT_OUT, hidden: true });
  left.setAttribute("role", "status");
  const write = () => {
    text.value = textFrom(body, numeric);
    for (const row of body.rows) row.classList.toggle("left-out", isCarriedAlone(row));
    left.hidden = !body.querySelector(".left-out");
  };
  const add = (row) => addRow(body, columns, row, write, text.id);
  for (const row of rows.length ? rows : [[]]) add(row);
  const another = Object.assign(document.createElement("button"), { type: "button", textContent: "Add a row" });
  another.addEventListener("click", () => add([]).querySelector("input").focus());
  body.addEventListener("input", write);
  const single = "single" in text.dataset;
  if (!single) goOnByEnter(body, add, write, text.dataset.ditto);
  const more = single ? null : add;
  if (text.dataset.parts) partLines(text, body, JSON.parse(text.dataset.parts), numeric, (row, block) => lay(block, row, 0, body, more));
  if (text.dataset.together) partCells(body, JSON.parse(text.dataset.together));
  if (text.dataset.choices) wholeWords(body, JSON.parse(text.dataset.choices));
  if (!numeric) offerAgain(text, body);
  body.addEventListener("paste", (event) => pasteBlock(event, body, more, write));
  text.classList.add("away");
  text.after(table, ...(single ? [] : [another, ...rowForEach(text, body, add), left]));
  const label = text.labels[0];
  table.setAttribute("aria-label", label?.textContent.trim() ?? "");
  if (text.hasAttribute("aria-describedby")) table.setAttribute("aria-describedby", text.getAttribute("aria-describedby"));
  label?.addEventListener("click", () => body.querySelector("input")?.focus());
  if (numeric && columns.length === 3 && !single) offerGrid(text, table, another, columns);
}

/**
 * @param {string} text
 * @param {boolean} numeric  whether spaces part the cells as well
 * @returns {string[][]}
 */
export function rowsFrom(text, numeric) {
  const lines = text.split("\n").filter((line) => line.trim());
  return lines.map((line) => cellsOf(line, numeric).map((cell) => cell.trim()));
}

function cellsOf(line, numeric) {
  if (line.includes("\t")) return line.split("\t");
  return line.includes(";") || !numeric ? line.split(";") : tied(line.trim()).split(/,\s+|\s+/);
}

/**
 * The cells of a block as a spreadsheet puts it on the clipboard; null where there is but one.
 * @param {string} text
 * @returns {string[][] | null}
 */
export function blockFrom(text) {
  const lines = text.replace(/\r?\n$/, "").split(/\r?\n/);
  const cells = lines.map((line) => line.split("\t").map((cell) => cell.trim()));
  return lines.length > 1 || cells[0].length > 1 ? cells : null;
}

/**
 * What a new row says by ditto marks: what another of the kind takes over, and what the last two rows agree in besides.
 * A blank is carried on nowhere.
 * @param {string[]} last
 * @param {string[]} before
 * @param {string} copied  a 1 for each column that is taken over
 */
export function carriedOn(last, before, copied) {
  return last.map((cell, place) => (cell && (copied[place] === "1" || cell === DITTO || cell === before[place]) ? DITTO : ""));
}

/** Enter leads to the next row, and makes one after the last that says something; what was carried on it keeps as it is. */
function goOnByEnter(body, add, write, copied) {
  body.addEventListener("keydown", (event) => {
    const row = /** @type {Element} */ (event.target).closest("tr");
    if (event.key !== "Enter" || event.target.tagName !== "INPUT" || !row) return;
    event.preventDefault();
    if (isCarriedAlone(row) && copied !== undefined) for (const input of row.querySelectorAll("input")) delete input.dataset.carried;
    const next = row.nextElementSibling ?? (wordsIn(row).some(Boolean) ? add([]) : row);
    if (copied !== undefined && next !== row && !wordsIn(next).some(Boolean)) carryOn(next, copied);
    write();
    next.querySelector("input").focus();
  });
}

/** Fill a new row by what is carried on; it counts as empty until something of its own is typed. */
function carryOn(row, copied) {
  const last = row.previousElementSibling;
  const said = (one) => [...(one?.querySelectorAll("input") ?? [])].map((input) => input.value.trim());
  carriedOn(said(last), said(last.previousElementSibling), copied).forEach((words, place) => {
    const input = row.querySelectorAll("input")[place];
    input.value = words;
    if (!words) return;
    input.dataset.carried = "yes";
    input.addEventListener("input", () => delete input.dataset.carried, { once: true });
  });
}

/** Whether a row says something, and nothing of its own. */
function isCarriedAlone(row) {
  const filled = [...row.querySelectorAll("input")].filter((input) => input.value.trim());
  return filled.length > 0 && filled.every((input) => input.dataset.carried);
}

/** The cells of a row, none where nothing but what was carried on stands in it. */
function wordsIn(row) {
  return isCarriedAlone(row) ? [] : [...row.querySelectorAll("input")].map((input) => input.value.trim());
}

/** A block is laid over the cells from the one that has the focus, with as many rows as it takes. */
function pasteBlock(event, body, add, write) {
  const block = blockFrom(event.clipboardData?.getData("text/plain") ?? "");
  const cell = /** @type {Element} */ (event.target).closest("td");
  const row = /** @type {HTMLTableRowElement} */ (cell?.parentElement);
  if (!block || !cell) return;
  event.preventDefault();
  lay(block, row, cell.cellIndex, body, add);
  write();
}

/** Lay rows of words over the cells from one on, with as many rows as that takes. */
function lay(block, row, from, body, add) {
  const first = row.sectionRowIndex;
  block.forEach((line, at) => {
    const other = body.rows[first + at] ?? add?.([]);
    const inputs = other ? [...other.querySelectorAll("input")].slice(from) : [];
    line.slice(0, inputs.length).forEach((words, place) => (inputs[place].value = words));
  });
  body.dispatchEvent(new Event("input", { bubbles: true }));
}

/** Figures of several columns, typed into the cell of the first, go each into its own. */
function partCells(body, groups) {
  body.addEventListener("change", ({ target }) => {
    const cells = [.../** @type {Element} */ (target).closest("tr").querySelectorAll("input")];
    for (const group of groups) if (cells[group.into[0]] === target) fill(group, group.into.map((place) => cells[place]));
  });
}

function textFrom(body, numeric) {
  const rows = [...body.rows].map(wordsIn);
  const plain = (row) => (row.some((cell) => cell.includes(";")) ? "\t" : "; "); // a semicolon within a cell parts nothing
  const between = (row) => (numeric && row.every(Boolean) && row.length > 1 ? " " : plain(row));
  return rows.filter((row) => row.some(Boolean)).map((row) => row.join(between(row))).join("\n");
}

function addRow(body, columns, cells, write, name) {
  const row = body.insertRow();
  columns.forEach((column, index) => {
    const input = Object.assign(document.createElement("input"), { value: cells[index] ?? "", autocomplete: "off", dir: "auto" });
    input.setAttribute("aria-label", `${column}, row ${body.rows.length}`);
    offerWords(input, name, index);
    row.insertCell().append(input);
  });
  const away = Object.assign(document.createElement("button"), { type: "button", textContent: "✕" });
  away.setAttribute("aria-label", "Remove this row");
  away.addEventListener("click", () => {
    row.remove();
    write();
  });
  row.insertCell().append(away);
  return row;
}

/** Readings of a surface entered as they are booked: places along the top, heights at the side, figures between. */

import { figuresOfLine } from "../phone/forms/lines.js";

const SMALLEST = { across: 3, down: 2 };
const LINES = "A whole line can be typed into its first cell, its figures separated by spaces or slashes.";

/**
 * @param {HTMLTextAreaElement} text  what is sent
 * @param {HTMLTableElement} table  its rows
 * @param {HTMLButtonElement} more  adds a row to them
 * @param {string[]} columns  along, up, and what was read
 */
export function offerGrid(text, table, more, columns) {
  const [begin, back] = ["Enter as a grid", "Enter row by row"].map((words) => Object.assign(document.createElement("button"), { type: "button", textContent: words }));
  const rows = [table, more, begin];
  more.after(begin);
  const show = () => {
    const grid = gridFor(text, columns);
    const help = Object.assign(document.createElement("p"), { className: "help", textContent: LINES });
    for (const one of rows) one.remove();
    text.after(grid, help, back);
    back.onclick = () => {
      for (const one of [grid, help, back]) one.remove();
      text.value = "";
      text.after(...rows);
      remember(false);
    };
    return grid;
  };
  begin.addEventListener("click", () => {
    remember(true);
    show().querySelectorAll("input")[1].focus();
  });
  if (!text.value.trim() && wasLastUsed()) show();
}

// Whoever booked the last readings as a grid books the next so.
const LAST = "readings as a grid";
const remember = (used) => {
  try {
    localStorage.setItem(LAST, used ? "yes" : "no");
  } catch {
    // a browser that keeps nothing asks each time
  }
};
const wasLastUsed = () => {
  try {
    return localStorage.getItem(LAST) === "yes";
  } catch {
    return false;
  }
};

/** An empty grid that writes what is typed in it into `text`. */
function gridFor(text, columns) {
  const [along, up, read] = columns;
  const grid = document.createElement("table");
  grid.className = "cells grid";
  grid.setAttribute("aria-label", `${read}: ${along} along the top, ${up} at the side`);
  for (let at = 0; at <= SMALLEST.down; at += 1) addLine(grid, SMALLEST.across + 1, columns);
  grid.addEventListener("input", () => {
    grow(grid, columns);
    text.value = gridText(cellsIn(grid));
    text.dispatchEvent(new Event("input", { bubbles: true }));
  });
  grid.addEventListener("change", ({ target }) => spread(grid, /** @type {HTMLInputElement} */ (target), columns));
  grid.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || /** @type {Element} */ (event.target).tagName !== "INPUT") return;
    event.preventDefault();
    const row = /** @type {Element} */ (event.target).closest("tr");
    /** @type {HTMLElement} */ ((row.nextElementSibling ?? row).querySelector("input")).focus();
  });
  return grid;
}

/**
 * What a grid says, as `fieldbook/model/typed.py` reads it.
 * @param {string[][]} cells  the first line holds the places along, each further one its height and figures
 * @returns {string}
 */
export function gridText(cells) {
  const across = cells[0].slice(1).filter(Boolean).length;
  const lines = cells.slice(1).filter((line) => line[0]);
  if (!across || !lines.length) return "";
  const figures = (line) => line.slice(1, across + 1).map((figure) => figure || "-");
  return [["grid", ...cells[0].slice(1, across + 1)], ...lines.map((line) => [line[0], ...figures(line)])].map((line) => line.join(" ")).join("\n");
}

const cellsIn = (grid) => [...grid.rows].map((row) => [...row.querySelectorAll("input")].map((input) => input.value.trim().replaceAll(/\s/g, "")));

/** A line of figures typed into one cell goes on into those to its right that are empty, as many as it takes. */
function spread(grid, typed, columns) {
  const figures = figuresOfLine(typed.value);
  const { cellIndex } = /** @type {HTMLTableCellElement} */ (typed.closest("td"));
  const inputs = () => [...typed.closest("tr").querySelectorAll("input")].slice(cellIndex);
  if (figures.length < 2 || inputs().slice(1).some((input) => input.value.trim())) return;
  while (inputs().length < figures.length) for (const row of grid.rows) addCell(row, columns);
  figures.forEach((figure, at) => (inputs()[at].value = figure));
  grid.dispatchEvent(new Event("input", { bubbles: true }));
}

/** There is always a place more and a height more than are filled in. */
function grow(grid, columns) {
  const cells = cellsIn(grid);
  if (cells[0].at(-1)) for (const row of grid.rows) addCell(row, columns);
  if (cells.at(-1)[0]) addLine(grid, grid.rows[0].cells.length, columns);
}

function addLine(grid, length, columns) {
  const row = grid.insertRow();
  for (let at = 0; at < length; at += 1) addCell(row, columns);
}

function addCell(row, [along, up, read]) {
  const at = row.cells.length;
  const first = row.rowIndex === 0;
  const cell = row.insertCell();
  if (first && at === 0) {
    cell.textContent = `${up} \\ ${along}`;
    cell.append(Object.assign(document.createElement("input"), { type: "hidden" }));
    return;
  }
  const words = first ? `${along}, ${at}` : at === 0 ? `${up}, ${row.rowIndex}` : `${read}, ${at} along, ${row.rowIndex} up`;
  const input = Object.assign(document.createElement("input"), { autocomplete: "off" });
  input.setAttribute("aria-label", words);
  cell.append(input);
}

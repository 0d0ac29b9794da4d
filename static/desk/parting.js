/** A line typed into the first cell of a row goes into its cells, and the name of a build-up gives its layers. */

import { called } from "../phone/book/build_ups.js";
import { rowsOf } from "../phone/forms/lines.js";

/**
 * Part what is typed as the first cell is left; of a row that says more already, only a line for all of its cells.
 * @param {HTMLTextAreaElement} text  with data-named where layers have a name
 * @param {HTMLTableSectionElement} body
 * @param {string[][]} columns
 * @param {boolean} numeric  whether it takes figures alone
 * @param {(row: HTMLTableRowElement, rows: string[][]) => void} lay  lays rows over a row and those after it
 */
export function partLines(text, body, columns, numeric, lay) {
  const named = new Map(Object.entries(JSON.parse(text.dataset.named ?? "{}")));
  const saysSomething = (input) => input.value.trim();
  body.addEventListener("change", ({ target }) => {
    const typed = /** @type {HTMLInputElement} */ (target);
    const row = typed.closest("tr");
    const [first, ...others] = row?.querySelectorAll("input") ?? [];
    const rows = typed === first ? called(named, typed.value) ?? rowsOf(typed.value, columns, numeric) : null;
    const below = [...body.rows].slice(row.sectionRowIndex + 1).flatMap((one) => [...one.querySelectorAll("input")]);
    if (!rows || (rows[0].length <= columns.length && others.some(saysSomething))) return;
    if (rows.length > 1 && ("single" in text.dataset || below.some(saysSomething))) return;
    lay(row, rows);
  });
  const slash = "single" in text.dataset ? "" : `; a slash${numeric ? "" : " between spaces"} starts the next row`;
  text.before(Object.assign(document.createElement("p"), {
    className: "help",
    textContent: `A whole line can be typed into the first cell, ${numeric ? "its figures separated by spaces" : "words first"}: it goes into the others by itself${slash}.`,
  }));
}

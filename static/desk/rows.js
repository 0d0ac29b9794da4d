/** A table typed as lines of text, offered as cells; the text stays what is sent. */

/** @param {HTMLTextAreaElement} text  with data-columns (headings, one a line), data-numeric, and data-single for one row */
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
  const write = () => (text.value = textFrom(body, numeric));
  const add = (row) => addRow(body, columns, row, write);
  for (const row of rows.length ? rows : [[]]) add(row);
  const more = Object.assign(document.createElement("button"), { type: "button", textContent: "Add a row" });
  more.addEventListener("click", () => add([]).querySelector("input").focus());
  body.addEventListener("input", write);
  text.classList.add("away");
  text.after(table, ...("single" in text.dataset ? [] : [more]));
  const label = text.labels[0];
  table.setAttribute("aria-label", label?.textContent.trim() ?? "");
  if (text.hasAttribute("aria-describedby")) table.setAttribute("aria-describedby", text.getAttribute("aria-describedby"));
  label?.addEventListener("click", () => body.querySelector("input")?.focus());
}

/**
 * @param {string} text
 * @param {boolean} numeric  whether spaces part the cells as well
 * @returns {string[][]}
 */
export function rowsFrom(text, numeric) {
  const lines = text.split("\n").filter((line) => line.trim());
  return lines.map((line) => (line.includes(";") || !numeric ? line.split(";") : line.trim().split(/,\s+|\s+/)).map((cell) => cell.trim()));
}

function textFrom(body, numeric) {
  const rows = [...body.rows].map((row) => [...row.querySelectorAll("input")].map((input) => input.value.trim()));
  const between = (row) => (numeric && row.every(Boolean) ? " " : "; ");
  return rows.filter((row) => row.some(Boolean)).map((row) => row.join(between(row))).join("\n");
}

function addRow(body, columns, cells, write) {
  const row = body.insertRow();
  columns.forEach((column, index) => {
    const input = Object.assign(document.createElement("input"), { value: cells[index] ?? "", autocomplete: "off", dir: "auto" });
    input.setAttribute("aria-label", `${column}, row ${body.rows.length}`);
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

/** A table whose first column has its words: a row for each of them at once, which says the rest as the row above. */

const DITTO = '"';

/**
 * @param {HTMLTextAreaElement} text  with data-each, the words of the first column, one a line
 * @param {HTMLTableSectionElement} body
 * @param {(cells: string[]) => HTMLTableRowElement} add
 * @returns {HTMLButtonElement[]}  none where it has no words of its own
 */
export function rowForEach(text, body, add) {
  if (!text.dataset.each) return [];
  const words = text.dataset.each.split("\n");
  const inputsOf = (row) => [...row.querySelectorAll("input")];
  const isEmpty = (row) => !inputsOf(row).some((input) => input.value.trim());
  const button = Object.assign(document.createElement("button"), { type: "button", textContent: `Add a row for each: ${words.join("; ")}` });
  button.addEventListener("click", () => {
    for (const row of [...body.rows].filter(isEmpty)) row.remove();
    const there = [...body.rows].map((row) => inputsOf(row)[0].value.trim());
    for (const word of words.filter((one) => !there.includes(one))) {
      const same = body.rows.length ? DITTO : "";
      inputsOf(add([])).forEach((input, place) => (input.value = place ? same : word));
    }
    body.dispatchEvent(new Event("input", { bubbles: true }));
    [...body.rows].flatMap(inputsOf).find((input) => !input.value)?.focus();
  });
  return [button];
}

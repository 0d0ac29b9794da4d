/** Words in the cells of a table: those of its column that the page came with, and those typed into a cell before. */

import { numberFrom } from "../phone/book/figures.js";
import { wholeWord } from "../phone/book/typed.js";

const idOf = (name, place) => `${name}-${place}-before`;

/** Let a cell offer the words of its column. @param {HTMLInputElement} input @param {string} name  of the table */
export function offerWords(input, name, place) {
  if (document.getElementById(idOf(name, place))) input.setAttribute("list", idOf(name, place));
}

/**
 * What is typed into a cell is offered in all of its column from then on.
 * @param {HTMLTextAreaElement} text  what the table stands for
 * @param {HTMLTableSectionElement} body
 */
export function offerAgain(text, body) {
  body.addEventListener("change", ({ target }) => {
    const typed = /** @type {HTMLInputElement} */ (target);
    const place = /** @type {HTMLTableCellElement} */ (typed.closest("td")).cellIndex;
    if (isWorthOffering(typed.value.trim())) add(text, place, typed.value.trim());
    for (const row of body.rows) offerWords(row.querySelectorAll("input")[place], text.id, place);
  });
}

/**
 * A word that is chosen may be typed by its beginning: the whole of it is seen as the cell is left.
 * @param {HTMLTableSectionElement} body
 * @param {string[][]} choices  for each column the words there are; none where it is not one of some
 */
export function wholeWords(body, choices) {
  body.addEventListener("change", ({ target }) => {
    const typed = /** @type {HTMLInputElement} */ (target);
    const words = choices[/** @type {HTMLTableCellElement} */ (typed.closest("td")).cellIndex];
    const whole = words?.length ? typed.value.split(",").map((word) => wholeWord(word.trim(), words)).join(", ") : typed.value;
    if (whole === typed.value) return;
    typed.value = whole;
    typed.dispatchEvent(new Event("input", { bubbles: true }));
  });
}

/** No ditto mark, no letter by itself, no figures: those are typed as fast as they are chosen. */
export function isWorthOffering(words) {
  return words.length > 1 && !words.split(/\s+/).every((word) => typeof numberFrom(word) === "number");
}

function add(text, place, words) {
  let list = /** @type {HTMLDataListElement|null} */ (document.getElementById(idOf(text.id, place)));
  if (!list) {
    list = document.createElement("datalist");
    list.id = idOf(text.id, place);
    text.before(list);
  }
  if (![...list.options].some((one) => one.value === words)) list.prepend(new Option("", words));
}

/**
 * Figures that are read off together, typed into the input of the first: x and z, width and height.
 * Does what fieldbook/model/written_together.py does; tests/cases/written_together.json holds the two together.
 */

import { inMixedUnits, numberIn, tied } from "../book/figures.js";

/**
 * @typedef {object} Group  as the server tells it
 * @property {(string|number)[]} into  where the figures go: names of inputs, or places of cells in a row
 * @property {string[]} units  what each is asked in
 * @property {number} low
 * @property {number} high  between these a text is one figure
 * @property {boolean} own  whether figures may be a run of several things: of one thing they are parted by semicolons then
 */

/**
 * What a text of the first says of the whole group, a list for each thing; none where it is one figure, or a run.
 * @param {string} text
 * @param {Group} group
 * @returns {string[][]}
 */
export function listsIn(text, { into, units, low, high, own }) {
  const isOne = (piece) => {
    const figure = numberIn(piece, units[0]);
    return typeof figure === "number" && figure >= low && figure <= high;
  };
  const pieces = tied(text.trim()).split(/\s*\/\s*/);
  const ofOne = pieces.every(isOne);
  const lists = ofOne ? [pieces] : pieces.map((piece) => piece.split(/,\s+|\s*[;×x]\s*|\s+/));
  if ((ofOne || (lists.length === 1 && !text.includes(";"))) && own) return [];
  if (lists.some((list) => list.length !== into.length)) return [];
  const isFigure = (word, at) => word === "-" || typeof numberIn(word, units[at]) === "number";
  return lists.every((list) => list.every(isFigure)) && !inMixedUnits(lists.flat(), lists.flatMap(() => units)) ? lists : [];
}

/**
 * What each input of the group says once what was typed for all stands each in its own; none where it stays.
 * @param {string[]} texts  of the group's inputs
 * @param {Group} group
 * @returns {string[]}
 */
export function parted([first, ...others], group) {
  const lists = listsIn(first, group);
  if (!lists.length || (!group.own && lists.length > 1)) return [];
  if (lists.length > 1 && others.some((text) => text.trim())) return [];
  return group.into.map((_, at) => lists.map((list) => list[at]).join(" / "));
}

/**
 * Part it as the input is left, so that it is seen.
 * @param {HTMLElement} form
 */
export function partTogether(form) {
  form.addEventListener("change", ({ target }) => {
    const typed = /** @type {HTMLInputElement} */ (target);
    if (!typed.dataset.together) return;
    const group = JSON.parse(typed.dataset.together);
    if (group.down) return; // of several things: see static/desk/going_down.js
    const near = typed.closest("li, tr, form");
    fill(group, group.into.map((name) => near.querySelector(`[name="${typed.name.replace(group.into[0], name)}"]`)));
  });
}

/** @param {Group} group @param {HTMLInputElement[]} inputs */
export function fill(group, inputs) {
  if (!inputs.includes(null)) write(inputs, parted(inputs.map((input) => input.value), group));
}

/** @param {HTMLInputElement[]} inputs @param {string[]} texts */
export function write(inputs, texts) {
  texts.forEach((text, at) => {
    inputs[at].value = text;
    inputs[at].dispatchEvent(new Event("input", { bubbles: true }));
  });
}

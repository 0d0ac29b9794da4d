/** A few short words to choose from stand as buttons: one touch, where a list takes two. */

import { filled, wire } from "../pages/markup.js";

const MOST_WORDS = 5;
const LONGEST = 3;
const SHORT = 2; // as classes are

/**
 * Put buttons beside the lists of a form that have only a few short words; the list itself stays, out of sight.
 * @param {HTMLFormElement} form
 * @param {import("../book/registry.js").Field[]} fields
 */
export function addChoiceButtons(form, fields) {
  for (const { name, type } of fields) {
    const list = /** @type {HTMLSelectElement|null} */ (form.elements.namedItem(name));
    if ((type === "choice" || type === "yes-no") && list) buttonsFor(list, (words) => words.length <= MOST_WORDS && words.every((word) => word.length <= LONGEST));
  }
}

/**
 * Buttons in the place of one list.
 * @param {HTMLSelectElement} list
 * @param {(words: string[]) => boolean} fits
 */
export function buttonsFor(list, fits = () => true) {
  const options = [...list.options].filter(({ value }) => value);
  if (!fits(options.map(({ text }) => text))) return;
  const buttons = options.map(({ value, text }) => {
    const button = filled("answer-button", { word: text });
    button.dataset.value = value;
    return button;
  });
  const part = filled("answers", { answers: buttons });
  part.classList.toggle("short", options.every(({ text }) => text.length <= SHORT));
  const label = list.closest(".input").querySelector("label");
  part.setAttribute("aria-label", label?.textContent.trim() ?? list.name);
  const show = () => buttons.forEach((button) => button.setAttribute("aria-pressed", String(button.dataset.value === list.value)));
  wire(part, {
    answer: (_, pressed) => {
      list.value = list.value === pressed.dataset.value ? "" : pressed.dataset.value; // pressed again: nothing chosen
      list.dispatchEvent(new Event("input", { bubbles: true }));
    },
  });
  list.form.addEventListener("input", show);
  list.hidden = true;
  list.closest(".input").append(part);
  show();
}

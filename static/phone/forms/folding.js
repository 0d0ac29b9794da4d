/** The parts of a long form that are seldom filled in are folded; whatever says something, or must, stays open. */

import { filled } from "../pages/markup.js";

/** @param {HTMLFormElement} form  that shows what was typed already */
export function foldGroups(form) {
  for (const group of /** @type {NodeListOf<HTMLFieldSetElement>} */ (form.querySelectorAll("fieldset.group"))) {
    if (group.querySelector("[aria-required]") || [...group.querySelectorAll("input, select, textarea")].some(says)) continue;
    const heading = group.querySelector("legend").textContent;
    group.querySelector("legend").remove();
    group.replaceWith(filled("folded-group", { heading, inputs: [...group.children] }));
  }
}

function says(/** @type {any} */ input) {
  return input.type === "checkbox" ? input.checked : Boolean(input.value);
}

/** Open whatever an input is folded into. */
export function unfold(/** @type {Element} */ input) {
  for (let fold = input.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true;
}

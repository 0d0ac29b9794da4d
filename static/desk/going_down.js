/** Places of several fixings of one fitting, typed into the first of them, go down the rows of a page that ticks off. */

import { listsIn, write } from "../phone/forms/written_together.js";

/** Part them as the cell is left. @param {HTMLElement} form */
export function goDownTogether(form) {
  form.addEventListener("change", ({ target }) => {
    const typed = /** @type {HTMLInputElement} */ (target);
    const group = JSON.parse(typed.dataset.together ?? "null");
    if (group?.down) goDown(form, typed, group);
  });
}

/** As far as these are ticked and empty. */
function goDown(form, typed, group) {
  /** @type {HTMLInputElement[]} */
  const all = [...form.querySelectorAll("input[data-together]")];
  const isTicked = (input) => input.closest("tr").querySelector("input[type=checkbox]").checked;
  const down = all.slice(all.indexOf(typed)).filter((input) => input.dataset.of === typed.dataset.of && isTicked(input));
  const cells = down.map((input) => JSON.parse(input.dataset.together).into.map((name) => form.elements.namedItem(name)));
  const lists = listsIn(typed.value, group);
  const free = cells.slice(0, lists.length).flat().filter((input) => input !== typed).every((input) => !input.value);
  if (lists.length > cells.length || !free) return; // is refused where it stands
  lists.forEach((list, at) => write(cells[at], list.map((figure) => (figure === "-" ? "" : figure))));
}

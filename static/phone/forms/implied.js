/** What can have one value alone, by what else stands in a form, is shown as soon as it follows: see fieldbook/model/implied.py. */

import { showOfSort } from "./of_sort.js";

/**
 * Let a form follow what is chosen in it: the fields of the sort alone, and what then can have one value.
 * @param {HTMLFormElement} form
 */
export function followChoices(form) {
  showOfSort(form);
  showImplied(form);
}

/**
 * @param {[Record<string, string>, string][]} cases  what other inputs say, and what then follows
 * @param {(name: string) => string|undefined} said  what stands in an input
 * @returns {string} "" where nothing follows
 */
export function following(cases, said) {
  return cases.find(([others]) => Object.entries(others).every(([name, word]) => said(name) === word))?.[1] ?? "";
}

/**
 * Fill in what follows, at the desk as on the phone; what somebody chose or typed stays.
 * @param {HTMLFormElement} form
 */
function showImplied(form) {
  const said = (name) => /** @type {any} */ (form.elements.namedItem(name))?.value;
  const look = ({ target }) => {
    for (const input of /** @type {NodeListOf<HTMLInputElement>} */ (form.querySelectorAll("[data-implied]"))) {
      const place = /** @type {HTMLElement} */ (input.closest(".input"));
      const cases = JSON.parse(input.dataset.implied);
      if (target !== input && !cases.some(([others]) => target.name in others)) continue; // nothing it rests on was touched
      if (input.value && input.value !== place.dataset.follows) {
        delete place.dataset.follows;
        continue;
      }
      const value = following(cases, said);
      input.value = value;
      if (value) place.dataset.follows = value;
      else delete place.dataset.follows;
    }
  };
  for (const input of /** @type {NodeListOf<HTMLInputElement>} */ (form.querySelectorAll("[data-implied]"))) {
    const value = following(JSON.parse(input.dataset.implied), said);
    // What stands there already and follows, as taken over from another, goes on following.
    if (value && input.value === value) /** @type {HTMLElement} */ (input.closest(".input")).dataset.follows = value;
  }
  form.addEventListener("input", look);
  form.addEventListener("change", look);
}

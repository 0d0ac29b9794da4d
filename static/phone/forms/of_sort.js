/** Of a kind with sorts only the fields of the chosen one are shown, at the desk as on the phone; what says something stays. */

/** @param {HTMLFormElement} form */
export function showOfSort(form) {
  const sort = /** @type {HTMLSelectElement|null} */ (form.elements.namedItem("sort"));
  const parts = /** @type {HTMLElement[]} */ ([...form.querySelectorAll("[data-sorts]")]);
  if (!sort || !parts.length) return;
  const look = () => {
    for (const part of parts) part.hidden = Boolean(sort.value) && !part.dataset.sorts.split("\n").includes(sort.value) && !says(part);
    for (const group of /** @type {NodeListOf<HTMLElement>} */ (form.querySelectorAll("details, fieldset.group"))) {
      const inputs = /** @type {HTMLElement[]} */ ([...group.querySelectorAll(".input")]);
      if (inputs.length) group.hidden = inputs.every((input) => input.hidden);
      if (group.matches("details.group") && sort.value && inputs.some((input) => input.dataset.sorts && !input.hidden)) group.setAttribute("open", "");
    }
  };
  form.addEventListener("change", look);
  form.addEventListener("input", look);
  look();
}

/** @param {HTMLElement} part */
function says(part) {
  return [...part.querySelectorAll("input, select, textarea")].some((/** @type {any} */ input) => (input.type === "checkbox" ? input.checked : input.value));
}

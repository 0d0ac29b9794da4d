/** From one input of a form to the next, without looking for it: by the keys, and to the first that is to be filled in. */

const CONTROLS = "input, select, textarea";

/** To the input after one, as they stand on the page. */
export function moveOn(/** @type {HTMLElement} */ form, /** @type {HTMLElement} */ field) {
  const all = /** @type {HTMLElement[]} */ ([...form.querySelectorAll(CONTROLS)]).filter((one) => one.checkVisibility() && one.getAttribute("type") !== "file");
  const after = all[all.indexOf(field) + 1];
  if (after) after.focus();
  else field.blur();
}

/** The key for Enter goes on to the next input, and does not save what is half filled in. */
export function addMovingOn(/** @type {HTMLFormElement} */ form) {
  for (const input of form.querySelectorAll("input")) input.setAttribute("enterkeyhint", "next");
  form.addEventListener("keydown", (event) => {
    const field = /** @type {HTMLElement} */ (event.target);
    if (event.key !== "Enter" || event.isComposing || !field.matches("input")) return;
    event.preventDefault();
    moveOn(form, field);
  });
}

/** To the first input that cannot stay empty. */
export function beginAtFirst(/** @type {HTMLFormElement} */ form, /** @type {import("../book/registry.js").Field[]} */ fields) {
  requestAnimationFrame(() => {
    if (!form.isConnected) return;
    const first = fields.filter(({ required }) => required).map(({ name }) => emptyInput(form, name)).find(Boolean);
    first?.focus();
  });
}

/** What is typed into for a field that is empty; nothing for one that is chosen. */
function emptyInput(form, name) {
  const input = form.elements.namedItem(name);
  if (!input?.matches?.("input:not([type=checkbox]), textarea") || input.value.trim() || !input.checkVisibility()) return null;
  return input.parentElement.querySelector("[data-corner]") ?? input;
}

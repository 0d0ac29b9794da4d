/** What a form begins like is taken over as soon as it is chosen with a pointer; by keys, by its button or Enter. */

/** @param {HTMLFormElement | null} form  the one above, with what can be chosen */
export function beginAtOnce(form) {
  const select = form?.querySelector("select");
  if (!select) return;
  let byKeys = false; // an arrow key passes over one after the other, and none of them is meant yet
  select.addEventListener("keydown", () => (byKeys = true));
  select.addEventListener("pointerdown", () => (byKeys = false));
  select.addEventListener("change", () => {
    if (select.value && !byKeys) form.requestSubmit();
  });
}

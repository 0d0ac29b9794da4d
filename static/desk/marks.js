/** A mark that something else carries already is told while it is typed; it may be saved all the same. */

/** @param {HTMLFormElement} form  names the input of the mark, and the address that answers for it */
export function tellOfMark(form) {
  const { mark, marked, item } = form.dataset;
  const input = /** @type {HTMLInputElement} */ (form.elements.namedItem(mark));
  const told = /** @type {HTMLElement} */ (document.getElementById(`${mark}-told`));
  let asked = 0;
  input.addEventListener("input", async () => {
    asked += 1;
    const mine = asked;
    const answer = await fetch(`${marked}?${new URLSearchParams({ mark: input.value, item })}`).catch(() => null);
    if (mine === asked && answer?.ok) told.textContent = await answer.text();
  });
}

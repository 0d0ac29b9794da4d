/** A mark that something else carries already is warned of while it is typed; it may be saved all the same. */

/** @param {HTMLFormElement} form  names the input of the mark, and the address that answers for it */
export function warnOfSameMark(form) {
  const { mark, marked, item } = form.dataset;
  const input = /** @type {HTMLInputElement} */ (form.elements.namedItem(mark));
  const warning = /** @type {HTMLElement} */ (document.getElementById(`${mark}-warning`));
  let asked = 0;
  input.addEventListener("input", async () => {
    asked += 1;
    const mine = asked;
    const answer = await fetch(`${marked}?${new URLSearchParams({ mark: input.value, item })}`).catch(() => null);
    if (mine === asked && answer?.ok) warning.textContent = await answer.text();
  });
}

/** A form that was typed in is not left by mistake. */

/** @param {HTMLFormElement} form */
export function warnBeforeLeaving(form) {
  let typed = Boolean(document.querySelector("#refused"));
  const warn = (event) => {
    if (typed) event.preventDefault();
  };
  form.addEventListener("input", () => (typed = true));
  form.addEventListener("submit", () => (typed = false));
  window.addEventListener("beforeunload", warn);
}

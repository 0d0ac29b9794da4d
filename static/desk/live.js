/** A form whose plan follows what is typed: the page is asked for it, and its plan is put in here. */

const PAUSE_MS = 400;
const form = /** @type {HTMLFormElement} */ (document.querySelector("form[data-live]"));
/** @type {ReturnType<typeof setTimeout> | undefined} */
let waits;

async function look() {
  const typed = new FormData(form);
  typed.set("show", "yes");
  try {
    const body = form.enctype === "multipart/form-data" ? typed : new URLSearchParams(/** @type {any} */ (typed));
    const answer = await fetch(form.action || location.href, { method: "POST", body });
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    const plan = page.querySelector("[data-plan]");
    if (answer.ok && plan) document.querySelector("[data-plan]").replaceChildren(...plan.childNodes);
  } catch {
    // the button shows it as well, once the server answers again
  }
}

form.addEventListener("input", () => {
  clearTimeout(waits);
  waits = setTimeout(look, PAUSE_MS);
});
/** @type {HTMLElement|null} */ (document.querySelector("#refused"))?.focus();

export {};

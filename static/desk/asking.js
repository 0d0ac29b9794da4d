/** What may be done at a place: the answer is fetched as a page and its parts put in here. */

import { placeUnder } from "./scale.js";

/**
 * @param {SVGSVGElement} svg
 * @param {HTMLElement} around  holds the form, and afterwards the answer
 */
export function ask(svg, around) {
  svg.addEventListener("click", (event) => {
    if (/** @type {Element} */ (event.target).closest("[data-item]")) return;
    const place = placeUnder(svg, event);
    const form = formIn(around);
    form.elements.x_mm.value = place.x;
    form.elements.z_mm.value = place.z;
    answer(around);
  });
  around.addEventListener("submit", (event) => {
    event.preventDefault();
    answer(around);
  });
}

/** @param {HTMLElement} around */
async function answer(around) {
  const form = formIn(around);
  const address = `${form.action}?${new URLSearchParams(/** @type {any} */ (new FormData(form)))}`;
  const page = await fetched(address);
  if (!page) {
    location.assign(address);
    return;
  }
  around.querySelector("[data-answer]")?.remove();
  form.replaceWith(formIn(page));
  const said = page.querySelector("[data-answer]");
  if (said) around.append(said);
}

/**
 * @param {string} address
 * @returns {Promise<Document | null>}  null when the server cannot be reached
 */
async function fetched(address) {
  try {
    const response = await fetch(address, { headers: { Accept: "text/html" } });
    return new DOMParser().parseFromString(await response.text(), "text/html");
  } catch {
    return null;
  }
}

const formIn = (around) => around.querySelector("form[data-ask]");

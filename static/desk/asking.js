/** What may be done at a place: the answer is fetched as a page and its parts put in here. */

import { drawn, placeUnder, pointOf } from "./scale.js";

const CROSS_MM = 3; // of the drawing, to either side

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
    tell();
  });
  around.addEventListener("submit", (event) => {
    event.preventDefault();
    tell();
  });
  async function tell() {
    markAt(svg, formIn(around));
    await answer(around);
    around.scrollIntoView({ block: "nearest" });
  }
}

/** A cross on the drawing where it is asked about; none where the figures are no place. */
function markAt(svg, { elements: { x_mm: x, z_mm: z } }) {
  svg.querySelector(".asked-at")?.remove();
  const place = { x: Number(x.value || NaN), z: Number(z.value || NaN) };
  if (Number.isNaN(place.x + place.z)) return;
  const { x: across, y: down } = pointOf(svg, place);
  const d = `M${across - CROSS_MM} ${down}h${2 * CROSS_MM}M${across} ${down - CROSS_MM}v${2 * CROSS_MM}`;
  svg.append(drawn("path", { class: "asked-at", d }));
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

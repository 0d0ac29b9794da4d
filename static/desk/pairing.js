/** A thing on the drawing and its line in the booking: a tap on either finds the other. */

import { drawn } from "./scale.js";

const MARKED = "marked";
const AIR_MM = 1;

/**
 * @param {SVGSVGElement} svg
 * @param {HTMLTableElement} booking
 */
export function pair(svg, booking) {
  svg.addEventListener("click", (event) => {
    const link = near(event, "[data-item]");
    const line = link && lineOf(booking, link.dataset.item);
    if (!line) return;
    event.preventDefault();
    mark(svg, booking, link.dataset.item);
    line.closest("details")?.setAttribute("open", "");
    line.scrollIntoView({ block: "center" });
    line.querySelector("a")?.focus({ preventScroll: true });
  });
  booking.addEventListener("click", (event) => {
    const line = near(event, "[data-item]");
    if (!line || near(event, "a, button, summary")) return;
    mark(svg, booking, line.dataset.item);
    linkOf(svg, line.dataset.item)?.scrollIntoView({ block: "center", inline: "center" });
  });
}

/**
 * @param {SVGSVGElement} svg
 * @param {HTMLTableElement} booking
 * @param {string} item
 */
function mark(svg, booking, item) {
  svg.querySelector(".halo")?.remove();
  for (const line of booking.querySelectorAll(`.${MARKED}`)) line.classList.remove(MARKED);
  lineOf(booking, item)?.classList.add(MARKED);
  const link = linkOf(svg, item);
  if (link) svg.append(haloAround(link.getBBox()));
}

/** @param {DOMRect} box */
function haloAround(box) {
  return drawn("rect", {
    class: "halo",
    x: box.x - AIR_MM,
    y: box.y - AIR_MM,
    width: box.width + 2 * AIR_MM,
    height: box.height + 2 * AIR_MM,
  });
}

const lineOf = (booking, item) => booking.querySelector(`tr[data-item="${CSS.escape(item)}"]`);
const linkOf = (svg, item) => svg.querySelector(`[data-item="${CSS.escape(item)}"]`);

/**
 * What was pressed, or what holds it, that fits a selector.
 * @param {Event} event
 * @param {string} selector
 * @returns {HTMLElement|null}
 */
function near(event, selector) {
  return /** @type {Element} */ (event.target).closest(selector);
}

/** The page of a face. */

import { ask } from "./asking.js";
import { pair } from "./pairing.js";
import { zoom } from "./zooming.js";

document.documentElement.classList.add("scripted");
const drawing = document.querySelector(".drawing[data-face]");
const svg = drawing?.querySelector("svg");
const booking = /** @type {HTMLTableElement|null} */ (document.querySelector("table.booking"));
const around = /** @type {HTMLElement|null} */ (document.querySelector("[data-asking]"));
if (svg && booking) pair(svg, booking);
if (svg && around) {
  drawing.classList.add("asked");
  ask(svg, around);
}
const tools = /** @type {HTMLElement|null} */ (document.querySelector("[data-zooming]"));
if (svg && tools) zoom(/** @type {HTMLElement} */ (drawing), svg, tools);

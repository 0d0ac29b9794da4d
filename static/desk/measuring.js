/** The page of measuring in a photograph: a click measures, or with four marks still to come, begins one. */

import { asked, planeFrom } from "../phone/book/in_picture.js";
import { numberFrom, numberTo } from "../phone/book/typed.js";
import { cross, pointUnder } from "../phone/drawing/over_picture.js";

const LEAST = 4;
document.documentElement.classList.add("scripted");
const around = /** @type {HTMLElement} */ (document.querySelector("[data-measure]"));
const svg = /** @type {SVGSVGElement} */ (around.querySelector("svg[data-over]"));
const marks = /** @type {HTMLTextAreaElement} */ (document.getElementById("plane_marks"));
const markPx = /** @type {HTMLInputElement} */ (document.getElementById("mark_px"));
const said = document.querySelector("[data-said]");
const size = { width: Number(around.dataset.width), height: Number(around.dataset.height) };
const tool = document.createElement("label");
const marking = Object.assign(document.createElement("input"), { type: "checkbox" });
tool.className = "box";
tool.append(marking, " A click adds a mark");
around.before(tool);

/** @returns {any[][]} */
const rows = () => marks.value.split("\n").filter((line) => line.trim()).map((line) => line.trim().split(/[;\s]+/).map(numberFrom));
marking.checked = rows().length < LEAST;

svg.addEventListener("click", (event) => {
  const point = pointUnder(svg, event);
  svg.append(cross(point, marking.checked ? String(rows().length + 1) : "", size.width / Math.max(320, svg.clientWidth)));
  if (marking.checked) addMark(point);
  else ask(point);
});

/** A new line, its place on the face still to be typed. */
function addMark(point) {
  const before = marks.value.trimEnd();
  marks.value = `${before}${before ? "\n" : ""}${point.map(numberTo).join(" ")} `;
  marks.focus();
  said.textContent = "Type x and z of this point behind its pixels, in mm.";
}

function ask(point) {
  ["across_px", "down_px"].forEach((name, at) => (/** @type {HTMLInputElement} */ (document.getElementById(name)).value = numberTo(point[at])));
  const { plane, refusal } = planeFrom(rows(), markPx.value.trim() ? Number(numberFrom(markPx.value)) : null);
  const found = plane ? asked(plane, point, size) : { refusal };
  said.textContent = "words" in found ? `${found.words} Press Answer to enter something there.` : `${found.refusal.reason} ${found.refusal.remedy}`;
}

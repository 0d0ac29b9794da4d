/** The page of measuring in a photograph: a click marks, measures or sets a corner; marks are moved by dragging them. */

import { asked, planeFrom } from "../phone/book/in_picture.js";
import { numberFrom, numberTo } from "../phone/book/typed.js";
import { cross, grip, hearTouches } from "../phone/drawing/over_picture.js";
import { askBeside } from "./beside_point.js";

const LEAST = 4;
const WAYS = { mark: "A click adds a mark", measure: "A click measures", corner: "A click sets a corner of a zone" };
document.documentElement.classList.add("scripted");
const around = /** @type {HTMLElement} */ (document.querySelector("[data-measure]"));
const svg = /** @type {SVGSVGElement} */ (around.querySelector("svg[data-over]"));
const marks = /** @type {HTMLTextAreaElement} */ (document.getElementById("plane_marks"));
const corners = /** @type {HTMLTextAreaElement|null} */ (document.getElementById("corners"));
const markPx = /** @type {HTMLInputElement} */ (document.getElementById("mark_px"));
const said = document.querySelector("[data-said]");
const size = { width: Number(around.dataset.width), height: Number(around.dataset.height) };
const unit = () => size.width / Math.max(320, svg.clientWidth);
let point = null;

const linesOf = (area) => (area?.value ?? "").split("\n").filter((line) => line.trim());
/** @returns {any[][]} */
const rowsOf = (area) => linesOf(area).map((line) => line.trim().split(/[;\s]+/).map(numberFrom));
/** @returns {[number, number][]} */
const pointsOf = (area) => rowsOf(area).filter(([across, down]) => typeof across === "number" && typeof down === "number").map(([across, down]) => [across, down]);

const choosing = document.createElement("p");
choosing.className = "choosing";
choosing.append(...Object.entries(WAYS).filter(([way]) => corners || way !== "corner").map(([way, words]) => {
  const label = Object.assign(document.createElement("label"), { className: "box" });
  const usual = rowsOf(marks).length < LEAST ? "mark" : "measure";
  label.append(Object.assign(document.createElement("input"), { type: "radio", name: "way", value: way, checked: way === usual }), ` ${words}`);
  return label;
}));
around.before(choosing);
const chosen = () => /** @type {HTMLInputElement} */ (choosing.querySelector(":checked")).value;

choosing.addEventListener("change", draw);
marks.addEventListener("input", draw);
corners?.addEventListener("input", draw);
hearTouches(svg, {
  touched: (touched) => ({ mark: addMark, measure: ask, corner: addCorner })[chosen()](touched),
  chosen: askPlace,
  moved: (at, to) => {
    around.querySelector("form")?.remove(); // it stands beside where the mark was
    setLine(at, [...to.map(numberTo), ...partsOf(at).slice(2)]);
  },
  ended: () => (said.textContent = stateOfMarks("The mark was moved. Save the marks to keep it.")),
});
draw();

/** The marks and what was touched, as they stand in the fields. */
function draw() {
  svg.querySelectorAll("[data-mark], [data-touched]").forEach((drawn) => drawn.remove());
  const marking = chosen() === "mark";
  const points = pointsOf(marks);
  const drawn = points.flatMap((at, n) => [tagged(cross(at, String(n + 1), unit())), ...(marking ? [grip(at, n, unit())] : [])]);
  const asides = [...(point ? [point] : []), ...pointsOf(corners)].map((at) => tagged(cross(at, "", unit(), "asked")));
  svg.append(...asides, ...drawn);
}

function tagged(drawn) {
  drawn.setAttribute("data-touched", "");
  return drawn;
}

/** A new line, its place on the face still to be typed. */
function addMark(touched) {
  add(marks, touched);
  askPlace(linesOf(marks).length - 1);
  said.textContent = "Type x and z of this point, in mm, beside it.";
}

/** Beside a mark: where on the face it is, which its line takes over as it is typed. */
function askPlace(at) {
  const point = /** @type {[number, number]} */ (rowsOf(marks)[at].slice(0, 2));
  const mark = { name: `Mark ${at + 1}`, at: point, size, values: partsOf(at).slice(2) };
  askBeside(around, mark, {
    typed: (values) => {
      setLine(at, [...partsOf(at).slice(0, 2), ...values]);
      said.textContent = stateOfMarks("Save the marks to keep them.");
    },
    removed: () => {
      marks.value = linesOf(marks).toSpliced(at, 1).join("\n");
      draw();
    },
  });
}

const partsOf = (at) => linesOf(marks)[at].trim().split(/[;\s]+/);

function setLine(at, parts) {
  marks.value = linesOf(marks).with(at, parts.join(" ").trimEnd()).join("\n");
  draw();
}

/** Why the marks do not make the photograph measure, or else what is to be done. */
function stateOfMarks(done) {
  return planeFrom(rowsOf(marks), px()).refusal?.reason ?? done;
}

function addCorner(touched) {
  add(corners, touched);
  said.textContent = `Corners set: ${rowsOf(corners).length}. Press “Place the corners” when all are there.`;
}

function add(area, touched) {
  area.value = [...linesOf(area), `${touched.map(numberTo).join(" ")} `].join("\n");
  draw();
}

const px = () => (markPx.value.trim() ? Number(numberFrom(markPx.value)) : null);

function ask(touched) {
  point = touched;
  draw();
  ["across_px", "down_px"].forEach((name, at) => (/** @type {HTMLInputElement} */ (document.getElementById(name)).value = numberTo(touched[at])));
  const { plane, refusal } = planeFrom(rowsOf(marks), px());
  const found = plane ? asked(plane, touched, size) : { refusal };
  said.textContent = "words" in found ? `${found.words} Press Answer to enter something there.` : `${found.refusal.reason} ${found.refusal.remedy}`;
}

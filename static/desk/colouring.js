/** The page of a colour from a photograph: a click sets the finish, or the next patch of the card; what is set is shown. */

import { numberFrom, numberTo } from "../phone/book/typed.js";
import { overPicture, pointUnder, squareOver } from "../phone/drawing/over_picture.js";

const WAYS = { finish: "A click sets the finish", patch: "A click adds a patch of the card" };
document.documentElement.classList.add("scripted");
const around = /** @type {HTMLElement} */ (document.querySelector("[data-colour]"));
const input = (name) => /** @type {HTMLInputElement} */ (document.getElementById(name));
const card = /** @type {any} */ (document.getElementById("card_patches"));
const width = Number(around.dataset.width) || 1600;
const svg = /** @type {any} */ (overPicture(width, Number(around.dataset.height) || 1200));
around.append(svg);
const usualReach = numberTo(Math.round(width / 80));

const choosing = document.createElement("p");
choosing.className = "choosing";
choosing.append(...Object.entries(WAYS).map(([way, words]) => {
  const label = Object.assign(document.createElement("label"), { className: "box" });
  label.append(Object.assign(document.createElement("input"), { type: "radio", name: "way", value: way, checked: way === "finish" }), ` ${words}`);
  return label;
}));
around.before(choosing);

svg.addEventListener("click", (event) => {
  const [across, down] = pointUnder(svg, event).map((part) => numberTo(Math.round(part)));
  if (/** @type {HTMLInputElement} */ (choosing.querySelector(":checked")).value === "finish") setFinish(across, down);
  else addPatch(across, down);
  draw();
});
for (const field of [card, input("across_px"), input("down_px"), input("reach_px")]) field.addEventListener("input", draw);
draw();

function setFinish(across, down) {
  input("across_px").value = across;
  input("down_px").value = down;
  input("reach_px").value ||= usualReach;
}

/** A new line, its known colour still to be typed. */
function addPatch(across, down) {
  const before = card.value.trimEnd();
  card.value = `${before}${before ? "\n" : ""}${across} ${down} ${input("reach_px").value || usualReach} `;
  card.focus(); // the page goes there: its known colour is typed
}

/** A square where each colour is taken, and the number of its patch. */
function draw() {
  const patches = card.value.split("\n").filter((line) => line.trim()).map((line) => line.trim().split(/[;\s]+/).slice(0, 3));
  const finish = ["across_px", "down_px", "reach_px"].map((name) => input(name).value);
  const squares = [...patches.map((row, at) => [row, String(at + 1)]), [finish, ""]];
  svg.replaceChildren(...squares.flatMap(([row, words]) => squareOver(row.map(numberFrom), words, width / Math.max(320, svg.clientWidth))));
}

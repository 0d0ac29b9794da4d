/** An outline entered by its corners: figures one after the other, of corners walked to or touched on the drawing first. */

import { cornerOf, linesOf, rectangleOf, sizeOf, toMeasure, touchedLine } from "../book/corners.js";
import { figureOf } from "../book/wording.js";
import { fill, filled, made, slot, wire } from "../pages/markup.js";
import { FIGURE_DONE } from "./number_pad.js";
import { outlineDrawing } from "./outline_drawing.js";

/**
 * Put the corners before every outline of a form; those of one that is needed are open at once.
 * @param {HTMLFormElement} form
 * @param {import("../book/registry.js").Field[]} fields
 * @param {import("../book/registry.js").Context} context
 * @param {HTMLElement} under  what stands under the thumb
 */
export function addCorners(form, fields, context, under) {
  for (const { name, required } of fields.filter(({ type }) => type === "outline")) {
    const area = /** @type {HTMLTextAreaElement} */ (/** @type {unknown} */ (form.elements.namedItem(name)));
    const walk = cornersOf(area, context, under);
    if (required) walk();
  }
}

/** Gives what opens them. */
function cornersOf(/** @type {HTMLTextAreaElement} */ area, context, under) {
  const part = made("corners");
  const [x, z] = ["x", "z"].map((axis) => /** @type {HTMLInputElement} */ (part.querySelector(`[data-corner=${axis}]`)));
  let [at, before, own] = [0, "", false];

  const put = (/** @type {string[]} */ lines) => {
    own = true;
    area.value = lines.join("\n");
    area.dispatchEvent(new Event("input", { bubbles: true }));
    own = false;
  };
  /** To the first corner that is to be measured. */
  const begin = (words = "") => {
    const lines = linesOf(area.value);
    [at, before] = [toMeasure(lines), lines[toMeasure(lines)] ?? ""];
    x.value = z.value = "";
    fill(part, { said: words || saidOf(at, before) });
  };
  /** What is typed is in the outline at once: a corner that was not finished is asked for, never left out. */
  const typed = () => {
    const lines = linesOf(area.value);
    const [one, other] = [x.value.trim(), z.value.trim()];
    lines.splice(at, 1, one || other ? `${one || "?"} ${other || "?"}` : before);
    put(lines.filter(Boolean));
  };
  const corner = () => {
    if (!x.value.trim() || !z.value.trim()) return fill(part, { said: "A corner has both figures: x and z." });
    begin();
    x.focus();
    return undefined;
  };
  const rectangle = () => {
    const four = rectangleOf(linesOf(area.value));
    if (!four) return fill(part, { said: "A rectangle is made of two measured corners that lie across from each other." });
    put(four.map((corner) => corner.join(" ")));
    begin("Four corners: a rectangle.");
    return undefined;
  };
  /** Two corners are no outline yet: under the thumb stands what they would make, and saves it. */
  const offer = () => {
    const four = rectangleOf(linesOf(area.value));
    fill(under, { offer: four ? [filled("save-rectangle", { words: `Save the rectangle, ${sizeOf(four)}` })] : [] });
  };
  const touched = (/** @type {number[]} */ point, /** @type {number} */ missed) => {
    put([...linesOf(area.value), touchedLine(point, missed)]);
    if (!x.value && !z.value) begin();
  };
  const rub = () => {
    put(linesOf(area.value).slice(0, -1));
    begin();
  };
  const walk = () => {
    slot(part, "walking").hidden = false;
    slot(part, "walk").hidden = true;
    begin();
    outlineDrawing(context, area, slot(part, "drawing"), touched);
  };
  for (const input of [x, z]) input.addEventListener("input", typed);
  z.addEventListener(FIGURE_DONE, (event) => {
    if (!x.value.trim() || !z.value.trim()) return;
    event.preventDefault();
    corner();
  });
  area.addEventListener("input", () => own || begin());
  area.addEventListener("input", offer);
  wire(part, { corner, rectangle, rub, walk });
  wire(slot(under, "offer"), {
    rectangle() {
      rectangle();
      area.form.requestSubmit();
    },
  });
  area.before(part);
  return walk;
}

function saidOf(at, line) {
  const { at: point, missed } = cornerOf(line);
  if (!point || !missed) return `Corner ${at + 1}: from the datum, one way round. Or touch the corners on the drawing first, and measure each then.`;
  return `Corner ${at + 1}, touched near x ${figureOf(point[0])}, z ${figureOf(point[1])}, which may be ${figureOf(missed, "mm")} out: measure it.`;
}

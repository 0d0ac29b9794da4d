/** A place or a rectangle entered by pointing at the drawing; figures typed move what is drawn. */

import { Pencil } from "./pencil.js";
import { drawnLength, placeUnder } from "./scale.js";
import { dragOf, numberFrom } from "./shape.js";

const GRIP_MM = 4; // on paper, round a corner

/** Names of the inputs a click fills, by what they mean; the first pair that is there. */
const PAIRS = [
  { label: "the planned place", x: "x_mm", z: "z_mm" },
  { label: "the place as fitted", x: "fitted_x_mm", z: "fitted_z_mm" },
];

/**
 * @param {SVGSVGElement} svg
 * @param {HTMLFormElement} form
 * @param {HTMLElement} tools  where a choice of what a click means is put
 */
export function placePoint(svg, form, tools) {
  const pairs = PAIRS.filter((pair) => form.elements[pair.x] && form.elements[pair.z]);
  const chosen = pairs.length > 1 ? choiceOf(tools, pairs) : () => pairs[0];
  const pencil = new Pencil(svg);
  const draw = () => {
    const { x, z } = chosen();
    const place = { x: figureIn(form, x), z: figureIn(form, z) };
    if (Number.isNaN(place.x + place.z)) pencil.clear();
    else pencil.point(place, figureIn(form, "contact_radius_mm") || 0);
  };
  svg.addEventListener("click", (event) => {
    event.preventDefault();
    const place = placeUnder(svg, event);
    const { x, z } = chosen();
    fill(form, { [x]: place.x, [z]: place.z });
    draw();
  });
  form.addEventListener("input", draw);
  tools.addEventListener("change", draw);
  draw();
}

/**
 * A box is drawn once; from then on dragging it moves it, and only its corners size it.
 * @param {SVGSVGElement} svg
 * @param {HTMLFormElement} form
 * @param {{x: string, z: string, width?: string, height?: string, toX?: string, toZ?: string}} names
 */
export function placeBox(svg, form, names) {
  const pencil = new Pencil(svg);
  const draw = () => pencil.shape(boxIn(form, names));
  let drag = null;
  const dragged = (event) => drag(placeUnder(svg, event));
  svg.addEventListener("click", (event) => event.preventDefault());
  svg.addEventListener("pointerdown", (event) => {
    event.preventDefault();
    drag = dragOf(boxIn(form, names), placeUnder(svg, event), GRIP_MM / drawnLength(svg, 1));
    svg.setPointerCapture(event.pointerId);
  });
  svg.addEventListener("pointermove", (event) => drag && pencil.shape(dragged(event)));
  svg.addEventListener("pointerup", (event) => {
    if (!drag) return;
    const { x, z, width, height } = dragged(event);
    drag = null;
    const far = names.width
      ? { [names.width]: width, [names.height]: height }
      : { [names.toX]: x + width, [names.toZ]: z + height };
    fill(form, { [names.x]: x, [names.z]: z, ...(width && height ? far : {}) }); // a click alone sets its corner
    draw();
  });
  form.addEventListener("input", draw);
  draw();
}

/** @returns {import("./shape.js").Rectangle|null} */
function boxIn(form, names) {
  const [x, z] = [figureIn(form, names.x), figureIn(form, names.z)];
  const width = names.width ? figureIn(form, names.width) : figureIn(form, names.toX) - x;
  const height = names.height ? figureIn(form, names.height) : figureIn(form, names.toZ) - z;
  return Number.isNaN(x + z + width + height) ? null : { sort: "rectangle", x, z, width, height };
}

const figureIn = (form, name) => (form.elements[name] ? numberFrom(form.elements[name].value) : NaN);

/**
 * Write figures into inputs as if they had been typed.
 * @param {HTMLFormElement} form
 * @param {Record<string, number>} figures
 */
export function fill(form, figures) {
  for (const [name, figure] of Object.entries(figures)) {
    form.elements[name].value = figure;
    form.elements[name].closest("details")?.setAttribute("open", "");
    form.elements[name].dispatchEvent(new Event("input", { bubbles: true }));
  }
}

/** Radio buttons for what a click sets; gives a function that tells the pair chosen. */
function choiceOf(tools, pairs) {
  const group = document.createElement("fieldset");
  group.className = "tools";
  const legend = document.createElement("legend");
  legend.textContent = "A click sets";
  group.append(legend);
  const radios = pairs.map((pair, index) => {
    const radio = Object.assign(document.createElement("input"), { type: "radio", name: "click-sets", checked: index === 0 });
    const label = document.createElement("label");
    label.className = "box";
    label.append(radio, ` ${pair.label}`);
    group.append(label);
    return radio;
  });
  tools.append(group);
  return () => pairs[radios.findIndex((radio) => radio.checked)];
}

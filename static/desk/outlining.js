/** The outline of a zone, drawn with the pointer: a rectangle, a circle, or corner by corner. */

import { Pencil } from "./pencil.js";
import { placeUnder } from "./scale.js";
import { circleTo, rectangleBetween, shapeFrom, textOf } from "./shape.js";

const WAYS = {
  rectangle: { label: "Rectangle: press and drag", make: rectangleBetween },
  circle: { label: "Circle: press in its middle and drag", make: circleTo },
  corners: { label: "Corners: click one after the other" },
};

/**
 * @param {SVGSVGElement} svg
 * @param {HTMLTextAreaElement} outline
 * @param {HTMLElement} tools  where the choice of way is put
 */
export function drawOutline(svg, outline, tools) {
  const pencil = new Pencil(svg);
  const show = () => pencil.shape(shapeFrom(outline.value));
  const write = (shape) => {
    outline.value = shape ? textOf(shape) : "";
    outline.dispatchEvent(new Event("input", { bubbles: true }));
  };
  const way = toolsIn(tools, () => write(null));
  let from = null;
  svg.addEventListener("click", (event) => {
    event.preventDefault();
    if (way() !== "corners") return;
    const known = shapeFrom(outline.value);
    const corners = known?.sort === "corners" ? known.corners : [];
    write({ sort: "corners", corners: [...corners, placeUnder(svg, event)] });
  });
  svg.addEventListener("pointerdown", (event) => {
    event.preventDefault();
    if (way() === "corners") return;
    from = placeUnder(svg, event);
    svg.setPointerCapture(event.pointerId);
  });
  svg.addEventListener("pointermove", (event) => {
    if (from) pencil.shape(WAYS[way()].make(from, placeUnder(svg, event)));
  });
  svg.addEventListener("pointerup", (event) => {
    if (!from) return;
    const shape = WAYS[way()].make(from, placeUnder(svg, event));
    from = null;
    if (shape.radius || (shape.width && shape.height)) write(shape);
    else show();
  });
  outline.addEventListener("input", show);
  show();
}

/**
 * @param {HTMLElement} tools
 * @param {() => void} onClear
 * @returns {() => keyof typeof WAYS}  tells which way is chosen
 */
function toolsIn(tools, onClear) {
  const group = document.createElement("fieldset");
  group.className = "tools";
  const legend = document.createElement("legend");
  legend.textContent = "Draw the outline on the drawing";
  group.append(legend);
  for (const [name, { label }] of Object.entries(WAYS)) {
    const radio = Object.assign(document.createElement("input"), { type: "radio", name: "way", value: name, checked: name === "rectangle" });
    const words = document.createElement("label");
    words.className = "box";
    words.append(radio, ` ${label}`);
    group.append(words);
  }
  const clear = Object.assign(document.createElement("button"), { type: "button", textContent: "Begin again" });
  clear.addEventListener("click", onClear);
  tools.append(group, clear);
  return () => /** @type {any} */ (group.querySelector("input:checked")).value;
}

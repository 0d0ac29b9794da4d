/** The face an outline lies on, drawn in its form: corners are touched there, and seen as they are measured. */

import { cornerOf, linesOf, rectangleOf } from "../book/corners.js";
import { offTheFace } from "../book/here.js";
import { faceStretch } from "../book/places.js";
import { elevation } from "../drawing/elevation.js";
import { markOutline } from "../drawing/outline.js";
import { viewing } from "../drawing/viewing.js";
import { slot, wire } from "../pages/markup.js";

/**
 * @param {import("../book/registry.js").Context} context
 * @param {HTMLTextAreaElement} area  the outline's text
 * @param {HTMLElement} part  with the slot `face`; hidden as long as no face is known
 * @param {(point: number[], missed: number) => void} touched  told of a touch: x and z, and what it may miss by, mm
 */
export function outlineDrawing({ registry, notebook }, area, part, touched) {
  const link = /** @type {HTMLSelectElement|null} */ (area.form.elements.namedItem("face"));
  let [face, view] = [/** @type {any} */ (null), /** @type {any} */ (null)];
  const mark = () =>
    view?.mark("outline", (svg, scale) => {
      const lines = linesOf(area.value);
      markOutline(svg, lines.map(cornerOf), scale, rectangleOf(lines));
    });
  const draw = () => {
    const { site } = notebook;
    if (link && face?.id !== link.value) {
      face = site?.get(link.value);
      part.hidden = face?.kind !== "face";
      view = part.hidden ? null : viewing(slot(part, "face"), (scale) => elevation(registry, site, face, new Map(), scale), faceStretch(face));
    }
    mark();
  };
  slot(part, "face").addEventListener("click", (event) => {
    const point = view.at(event);
    if (!offTheFace(face, point)) touched(point, view.missed());
  });
  wire(part, { larger: () => view.enlarge(1), smaller: () => view.enlarge(-1) });
  area.form.addEventListener("input", draw);
  draw();
}

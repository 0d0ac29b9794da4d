/** An outline entered by walking its corners: figures one after the other, rather than lines of a table. */

import { fill, made, slot, wire } from "../pages/markup.js";

/**
 * Put the walk before every outline of a form.
 * @param {HTMLFormElement} form
 * @param {import("../book/registry.js").Field[]} fields
 */
export function addCorners(form, fields) {
  for (const { name } of fields.filter(({ type }) => type === "outline")) walkFor(/** @type {any} */ (form.elements.namedItem(name)));
}

function walkFor(/** @type {HTMLTextAreaElement} */ area) {
  const part = made("corners");
  const [x, z] = ["x", "z"].map((axis) => /** @type {HTMLInputElement} */ (part.querySelector(`[data-corner=${axis}]`)));
  const corners = () => area.value.split("\n").filter((line) => line.trim());
  const tell = (words) => fill(part, { said: words ?? `Corner ${corners().length + 1}: from the datum, one way round.` });
  const put = (lines) => {
    area.value = lines.join("\n");
    area.dispatchEvent(new Event("input", { bubbles: true }));
  };
  const corner = () => {
    if (!x.value.trim() || !z.value.trim()) return tell("A corner has both figures: x and z.");
    put([...corners(), `${x.value.trim()} ${z.value.trim()}`]);
    for (const input of [x, z]) input.value = "";
    tell();
    x.focus();
    return undefined;
  };
  const rectangle = () => {
    if (x.value.trim() && z.value.trim()) corner();
    const points = corners().map((line) => line.trim().split(/\s+/).map(Number));
    if (points.length !== 2 || points.flat().length !== 4 || !points.flat().every(Number.isFinite)) return tell("A rectangle is made of two corners that lie across from each other.");
    const [[x0, z0], [x1, z1]] = points;
    put([`${x0} ${z0}`, `${x1} ${z0}`, `${x1} ${z1}`, `${x0} ${z1}`]);
    tell("Four corners: a rectangle.");
    return undefined;
  };
  wire(part, {
    walk: () => {
      slot(part, "walking").hidden = false;
      slot(part, "walk").hidden = true;
      tell();
      x.focus();
    },
    corner,
    rectangle,
  });
  area.before(part);
}

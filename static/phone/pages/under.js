/** The wall itself faintly under its drawing, from the latest photograph that measures on it; without a network. */

import { planeFrom } from "../book/in_picture.js";
import { faceStretch } from "../book/places.js";
import { laidFlat } from "../drawing/laid_flat.js";
import { element } from "../drawing/svg.js";
import { pixelsOf } from "../pixels.js";

const WIDTH_PX = 800;
const FAINT = "0.3";

/** The photographs that measure on a face; the latest first. */
export function measuringOn(site, face) {
  const those = site.all("photograph").filter(({ values }) => values.plane_face === face.id && planeIn(values));
  return those.sort((one, other) => (order(one) < order(other) ? 1 : -1));
}

const order = ({ id, values }) => `${values.taken_at ?? ""} ${id}`;
const planeIn = ({ plane_marks: marks, mark_px: px }) => (marks?.length ? planeFrom(marks, px).plane : undefined);

/**
 * Lay the photograph under a drawing, or take it away.
 * @param {{body: any, view: import("../drawing/viewing.js").View, face: any, taken: any, button: HTMLElement, address?: string|null}} shown
 * @returns {Promise<string>} what is to be said, where it cannot be shown
 */
export async function turnUnder(shown) {
  const { view, face, taken, button } = shown;
  const on = button.getAttribute("aria-pressed") !== "true";
  const part = faceStretch(face);
  shown.address ??= on ? await flattened(taken.values, part) : null;
  if (on && !shown.address) return "That photograph is not on this phone.";
  button.setAttribute("aria-pressed", String(on));
  view.mark("under", (drawing) => {
    drawing.querySelector("image.under")?.remove();
    if (!on) return;
    const box = { x: part.xFrom, y: -part.zTo, width: part.xTo - part.xFrom, height: part.zTo - part.zFrom };
    drawing.prepend(element("image", { href: shown.address, class: "under", opacity: FAINT, preserveAspectRatio: "none", ...box }));
  });
  return "";
}

async function flattened(values, part) {
  const pixels = await pixelsOf(values.sha256);
  if (!pixels) return null;
  const share = values.width_px ? pixels.width / values.width_px : 1;
  const flat = laidFlat(pixels, share, planeIn(values), part, WIDTH_PX);
  const canvas = document.createElement("canvas");
  [canvas.width, canvas.height] = [flat.width, flat.height];
  canvas.getContext("2d").putImageData(new ImageData(flat.data, flat.width, flat.height), 0, 0);
  return canvas.toDataURL("image/webp", 0.8);
}

/**
 * Symbols of what is on a face, told by shape: mirrors fieldbook/drawing/symbols.py. A square only bears on the
 * fabric, a ring with a cross uses a hole that is there, a disc needs a new hole. `u` is the drawing's unit of size.
 */

import { element, path, through } from "./svg.js";

/** A fixing's symbol at a point of the drawing. */
export function fixing([x, y], hole, state, u) {
  const r = 4.5 * u;
  const look = `fixing ${state.replace(" ", "-")}`;
  if (hole === "none") return [path(through([[x - r, y - r], [x + r, y - r], [x + r, y + r], [x - r, y + r]], true), look)];
  const ring = element("circle", { cx: x, cy: y, r, class: look, "vector-effect": "non-scaling-stroke" });
  if (hole === "existing") return [ring, path(`M${x - r} ${y}H${x + r}M${x} ${y - r}V${y + r}`, look)];
  return [ring, element("circle", { cx: x, cy: y, r: r * 0.55, class: `${look} core` })];
}

/** An existing hold's symbol; struck through when it may not be used. */
export function hold([x, y], sort, mayBeUsed, u) {
  const r = 5 * u;
  const shapes = {
    hole: `M${x - r} ${y}H${x + r}M${x} ${y - r}V${y + r}M${x - 0.7 * r} ${y}a${0.7 * r} ${0.7 * r} 0 1 0 ${1.4 * r} 0a${0.7 * r} ${0.7 * r} 0 1 0 ${-1.4 * r} 0`,
    hook: `M${x} ${y - r}v${1.2 * r}a${0.6 * r} ${0.6 * r} 0 0 0 ${1.2 * r} 0`,
    frame: `${square(x, y, r)}${square(x, y, r / 2)}`,
    flange: `M${x - r} ${y - 0.8 * r}H${x + r}M${x} ${y - 0.8 * r}V${y + r}`,
    moulding: `M${x - r} ${y + r / 2}h${r}a${r} ${r} 0 0 1 ${r} ${-r}`,
    bolt: through([0, 1, 2, 3, 4, 5].map((at) => [x + r * Math.cos((at * Math.PI) / 3), y + r * Math.sin((at * Math.PI) / 3)]), true),
  };
  const other = through([[x, y - r], [x + r, y + 0.8 * r], [x - r, y + 0.8 * r]], true);
  const struck = mayBeUsed === "no" ? `M${x - 1.3 * r} ${y + 1.3 * r}L${x + 1.3 * r} ${y - 1.3 * r}` : "";
  return [path((shapes[sort] ?? other) + struck, "hold")];
}

/** The mark x = 0, z = 0 is measured from: a triangle with its tip on it, half of it filled. */
export function datum([x, y], u) {
  const [w, h] = [5 * u, 8 * u];
  return [
    path(through([[x, y], [x - w, y - h], [x + w, y - h]], true), "datum"),
    element("path", { d: through([[x, y], [x, y - h], [x + w, y - h]], true), class: "solid" }),
  ];
}

/** The floor's line with short strokes below it. */
export function ground(profile, u) {
  const strokes = [];
  for (let at = 1; at < profile.length; at += 1) {
    const [[x0, y0], [x1, y1]] = [profile[at - 1], profile[at]];
    const count = Math.max(1, Math.floor((x1 - x0) / (9 * u)));
    for (let step = 0; step < count; step += 1) {
      const share = (step + 0.5) / count;
      const [x, y] = [x0 + (x1 - x0) * share, y0 + (y1 - y0) * share];
      strokes.push(`M${x} ${y}l${-5 * u} ${5 * u}`);
    }
  }
  return [path(through(profile), "floor"), path(strokes.join(""), "thin")];
}

function square(x, y, r) {
  return through([[x - r, y - r], [x + r, y - r], [x + r, y + r], [x - r, y + r]], true);
}

/** Hatching that tells what a keep-off zone forbids, in the patterns of fieldbook/drawing/hatching.py. */

import { element } from "./svg.js";

/** Strokes of one tile, 12 by 12 units, for each act. */
const TILES = {
  drilling: "M-3 3L3 -3M0 12L12 0M9 15L15 9",
  contact: "M0 12L12 0M0 0L12 12",
  adhesive: "M0 6H12",
  load: "M6 0V12",
  light: "M2 8l5 -2.9",
};

/** The patterns a drawing needs, once. */
export function patterns(u) {
  const tiles = Object.entries(TILES).map(([act, d]) => tile(act, u, element("path", { d, class: "hatch" })));
  return element("defs", {}, ...tiles, tile("heat", u, element("circle", { cx: 3, cy: 3, r: 1.1, class: "hatch dot" })));
}

/** Shapes of a path, one over the other, for all it forbids. */
export function hatched(d, forbids) {
  return forbids.map((act) => element("path", { d, fill: `url(#hatch-${act})`, class: "hatched" }));
}

function tile(act, u, mark) {
  const size = { width: 12, height: 12, patternUnits: "userSpaceOnUse", patternTransform: `scale(${u})` };
  return element("pattern", { id: `hatch-${act}`, ...size }, mark);
}

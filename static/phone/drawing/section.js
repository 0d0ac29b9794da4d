/** The face cut level, seen from above: what stands out, what swings in front of it, and how much depth is clear. */

import { clearDepth, stretch } from "../../checks/clearance.js";
import { Refusal } from "../../checks/refusal.js";
import { boxesAt, depthRange } from "../../checks/sweep.js";
import { faceStretch, fittingStretch, limitValue, projectionOf } from "../book/places.js";
import { stands, titleOf } from "../book/site.js";
import { sheet } from "./sheet.js";
import { element, path, through } from "./svg.js";

const LEAF_STEPS = 8;
const SAMPLES = 240;
const DEEPEST_SHARE = 0.6; // of the face's width

/**
 * @returns {SVGElement|null} null where there is nothing to show
 */
export function section(registry, site, face) {
  const on = sheet(face);
  const values = site.of(face, "limit").flatMap((limit) => usable(limit, face));
  const fittings = site.of(face, "fitting").filter(stands);
  if (!values.length && !fittings.some(projectionOf)) return null;
  const part = faceStretch(face);
  const deep = depthOf(values, fittings, part);
  const [left, , width] = on.view;
  const title = `${titleOf(registry, face)} seen from above: how far things stand out, and the depth that is clear`;
  const box = { viewBox: [left, -8 * on.u, width, deep + 14 * on.u].join(" "), class: "section", role: "img", "aria-label": title };
  return element(
    "svg",
    box,
    ...fabric(part, on.u),
    ...values.filter(({ leaf }) => leaf).flatMap(({ leaf }) => swing(leaf, part, deep)),
    ...fittings.map((item) => standing(item)),
    ...clearLine(values, part, deep),
  );
}

/** Where on the face a limit holds: its band, and of a leaf only what it comes in front of; null when it makes none. */
export function bandOf(limit, face) {
  const [value] = usable(limit, face);
  if (!value) return null;
  const part = faceStretch(face);
  const band = stretch(
    Math.max(value.band.xFrom, part.xFrom),
    Math.min(value.band.xTo, part.xTo),
    Math.max(value.band.zFrom, part.zFrom),
    Math.min(value.band.zTo, part.zTo),
  );
  if (value.leaf) {
    const xs = samplesOf(part).filter((x) => inFront(value.leaf, x));
    if (!xs.length) return null;
    band.xFrom = Math.max(band.xFrom, xs[0] - value.margin);
    band.xTo = Math.min(band.xTo, xs.at(-1) + value.margin);
  } else if (value.below.length) {
    band.zTo = Math.min(band.zTo, Math.max(...value.below.map(([, z]) => z)));
  }
  return band.xFrom < band.xTo && band.zFrom < band.zTo ? band : null;
}

function usable(limit, face) {
  try {
    return [limitValue(limit, face)];
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    return []; // the booking says why
  }
}

function inFront(leaf, x) {
  const reached = depthRange(leaf, x, x);
  return reached !== null && reached[1] > 0;
}

function depthOf(values, fittings, part) {
  const most = DEEPEST_SHARE * (part.xTo - part.xFrom);
  const reach = [
    ...fittings.map((item) => projectionOf(item) ?? 0),
    ...values.map(({ projection }) => projection ?? 0),
    ...values.filter(({ leaf }) => leaf).flatMap(({ leaf }) => leaf.boxes.map(([, u1]) => Math.abs(u1))),
  ];
  return Math.min(most, 1.15 * Math.max(60, ...reach));
}

function fabric(part, u) {
  const strokes = [];
  for (let x = part.xFrom; x < part.xTo; x += 8 * u) strokes.push(`M${x} 0l${5 * u} ${-5 * u}`);
  return [path(strokes.join(""), "thin"), path(`M${part.xFrom} 0H${part.xTo}`, "edge")];
}

function swing(leaf, part, deep) {
  const cut = (/** @type {number[]} */ [x, y]) => [Math.max(part.xFrom, Math.min(part.xTo, x)), Math.max(0, Math.min(deep, y))];
  return Array.from({ length: LEAF_STEPS + 1 }, (_, step) => step / LEAF_STEPS).flatMap((share) =>
    boxesAt(leaf, share).map((corners) => path(through(corners.map(cut), true), share === 0 || share === 1 ? "leaf end" : "leaf")),
  );
}

function standing(item) {
  const { xFrom, xTo } = fittingStretch(item);
  const out = projectionOf(item) ?? 0;
  return path(through([[xFrom, 0], [xTo, 0], [xTo, out], [xFrom, out]], true), `fitting ${item.values.state}`);
}

/** The clear depth as unbroken lines, where it lies within what is drawn. */
function clearLine(values, part, deep) {
  const runs = [[]];
  for (const x of samplesOf(part)) {
    const { depth } = clearDepth(values, stretch(x, x));
    if (depth === null || depth > deep) runs.push([]);
    else runs.at(-1).push([x, Math.max(0, depth)]);
  }
  return runs.filter((run) => run.length > 1).map((run) => path(through(run), "clear"));
}

function samplesOf({ xFrom, xTo }) {
  return Array.from({ length: SAMPLES + 1 }, (_, at) => xFrom + ((xTo - xFrom) * at) / SAMPLES);
}

/** The elevation of a face, to scale: what exists, what is forbidden or limited, what is planned and what is fitted. */

import { faceStretch, fittingStretch, floorOf, outlineOf, placeOf } from "../book/places.js";
import { calledOf, titleOf } from "../book/site.js";
import { numberTo } from "../book/typed.js";
import { hatched, patterns } from "./hatching.js";
import { wordsBeside } from "./labels.js";
import { bandOf } from "./section.js";
import { sheet } from "./sheet.js";
import { marks } from "./signs.js";
import { element, letters, path, through } from "./svg.js";
import * as symbols from "./symbols.js";

/**
 * @param {import("../book/registry.js").Registry} registry
 * @param {import("../book/site.js").Site} site
 * @param {import("../book/site.js").Item} face
 * @param {Map<string, string>} words  the worst word found about each item
 * @param {number} [scale]  mm a unit of the screen: what letters and signs are sized by; left out: the whole face fits
 * @returns {SVGElement}
 */
export function elevation(registry, site, face, words, scale) {
  const on = sheet(face, scale);
  const context = { registry, site, face, on, words };
  const fixings = site.fixingsOn(face);
  for (const fixing of fixings) on.take(on.at(...placeOf(fixing)), 5 * on.u);
  for (const { values } of site.of(face, "hold")) on.take(on.at(values.x_mm, values.z_mm), 5 * on.u);
  const things = [
    ...site.of(face, "fitting").map((item) => fitting(context, item)),
    ...site.of(face, "hold").map((item) => hold(context, item)),
    ...fixings.map((item) => fixing(context, item)),
  ];
  const below = [
    ...site.of(face, "zone").map((item) => zone(context, item)),
    ...outline(context),
    ...site.of(face, "limit").map((item) => limit(context, item)),
  ];
  const title = `Drawing of ${titleOf(registry, face)}; all that is on it is in the booking below`;
  const box = { viewBox: on.view.join(" "), class: "elevation", role: "img", "aria-label": title };
  return element("svg", box, patterns(on.u), ...rulers(on), ...below, ...things, ...datum(on), element("g", { class: "here" }));
}

/** Show where the question is asked. */
export function markPoint(svg, /** @type {number[]} */ [x, z], radius, u) {
  const reach = 9 * u;
  const cross = `M${x - reach} ${-z}H${x + reach}M${x} ${-z - reach}V${-z + reach}`;
  const ring = radius ? [element("circle", { cx: x, cy: -z, r: radius, class: "asked", "vector-effect": "non-scaling-stroke" })] : [];
  svg.querySelector(".here").replaceChildren(path(cross, "asked"), ...ring);
}

function thing({ registry }, item, ...drawn) {
  const label = `${registry.kinds.get(item.kind).label} ${titleOf(registry, item)}`;
  return element("g", { class: `thing ${item.kind}`, "data-item": item.id }, element("title", {}, label), ...drawn);
}

function named({ registry, on, words }, item, at, reach, className, most = Infinity) {
  const found = words.get(item.id);
  const word = found === "within" ? undefined : found;
  // Where there is no room for all that is to be said, its mark; where there is none for that either, the sign alone.
  const label = wordsBeside(registry, item);
  for (const called of [...(on.wide(label) <= most ? [label] : []), calledOf(registry, item)]) {
    const drawn = on.label([called, word].filter(Boolean).join(" "), at, reach, className, word);
    if (drawn.length) return drawn;
  }
  return word ? marks(word, [at[0], at[1] - reach - 2 * on.u], 4 * on.u) : [];
}

function outline({ face, on }) {
  const edge = path(through(outlineOf(faceStretch(face)).map(([x, z]) => on.at(x, z)), true), "edge");
  if (!face.values.floor?.length) return [edge];
  const profile = floorOf(face);
  const { xFrom, xTo } = faceStretch(face);
  const ends = [[xFrom, profile[0][1]], ...profile, [xTo, profile.at(-1)[1]]];
  const points = ends.filter(([x]) => x >= xFrom && x <= xTo).map(([x, z]) => on.at(x, z));
  return [edge, ...symbols.ground(points, on.u)];
}

function zone(context, item) {
  const { on } = context;
  const points = item.values.outline.map(([x, z]) => on.at(x, z));
  const d = through(points, true);
  const margin = item.values.margin_mm
    ? [element("path", { d, class: "margin", "stroke-width": 2 * item.values.margin_mm })]
    : [];
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const middle = [(Math.min(...xs) + Math.max(...xs)) / 2, (Math.min(...ys) + Math.max(...ys)) / 2];
  const drawn = [...margin, ...hatched(d, item.values.forbids), path(d, "zone-edge")];
  return thing(context, item, ...drawn, ...named(context, item, middle, 0, "limits", Math.max(...xs) - Math.min(...xs)));
}

function limit(context, item) {
  const { on, face } = context;
  const band = bandOf(item, face);
  if (!band) return element("g");
  const corners = outlineOf(band).map(([x, z]) => on.at(x, z));
  const label = named(context, item, [band.xFrom, -band.zTo + 8 * on.u], 3 * on.u, "limits");
  return thing(context, item, path(through(corners, true), `limit ${item.values.sort}`), ...label);
}

function hold(context, item) {
  const { on } = context;
  const { x_mm: x, z_mm: z, sort, may_be_used: used } = item.values;
  const at = on.at(x, z);
  return thing(context, item, target(at, on), ...symbols.hold(at, sort, used, on.u), ...named(context, item, at, 6 * on.u, ""));
}

function fitting(context, item) {
  const { on } = context;
  const part = fittingStretch(item);
  const corners = outlineOf(part).map(([x, z]) => on.at(x, z));
  const at = [(part.xFrom + part.xTo) / 2, -part.zTo];
  const look = `fitting ${item.values.state.replace(" ", "-")}`;
  return thing(context, item, path(through(corners, true), look), ...named(context, item, at, 4 * on.u, look));
}

function fixing(context, item) {
  const { on } = context;
  const at = on.at(...placeOf(item));
  const planned = on.at(item.values.x_mm, item.values.z_mm);
  const moved = planned[0] !== at[0] || planned[1] !== at[1] ? [path(through([at, planned]), "moved")] : [];
  const { hole, state, contact_radius_mm: radius } = item.values;
  const plate = radius > 6 * on.u
    ? [element("circle", { cx: at[0], cy: at[1], r: radius, class: `plate ${state.replace(" ", "-")}`, "vector-effect": "non-scaling-stroke" })]
    : [];
  const look = `fixing ${state.replace(" ", "-")}`;
  const drawn = [target(at, on), ...plate, ...moved, ...symbols.fixing(at, hole, state, on.u)];
  return thing(context, item, ...drawn, ...named(context, item, at, 6 * on.u, look));
}

/** Something larger than the symbol to put a finger on. */
function target([x, y], on) {
  return element("circle", { cx: x, cy: y, r: 12 * on.u, class: "target" });
}

function datum(on) {
  const { part } = on;
  if (part.xFrom > 0 || part.xTo < 0 || part.zFrom > 0 || part.zTo < 0) return [];
  return symbols.datum(on.at(0, 0), on.u);
}

/** Figures along the edges, from the datum. */
function rulers(on) {
  const { part, u } = on;
  const step = [100, 200, 250, 500, 1000, 2000, 5000].find((one) => one / u >= 46) ?? 10_000;
  const drawn = [];
  for (let x = Math.ceil(part.xFrom / step) * step; x <= part.xTo; x += step) {
    drawn.push(path(`M${x} ${-part.zTo}v${-5 * u}`, "thin"), letters(numberTo(x), [x, -part.zTo - 8 * u], 10 * u, "ruler", "middle"));
  }
  for (let z = Math.ceil(part.zFrom / step) * step; z <= part.zTo; z += step) {
    drawn.push(path(`M${part.xFrom} ${-z}h${-5 * u}`, "thin"), letters(numberTo(z), [part.xFrom - 7 * u, -z + 3.5 * u], 10 * u, "ruler", "end"));
  }
  return drawn;
}

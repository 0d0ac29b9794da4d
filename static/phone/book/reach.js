/** How far a fitting stands out of its face, as a range where not all is known. Mirrors fieldbook/findings/reach.py. */

import { stretch } from "../../checks/clearance.js";
import { roundedUp } from "../../checks/limits.js";
import { figure } from "../../checks/refusal.js";
import { worstProud } from "../../checks/surface.js";
import { fittingStretch, fixingStretch, isUpright, known, overhead, placeOf } from "./places.js";
import { calledOf, stands } from "./site.js";

// What is ordinarily the most, where nobody measured or entered it: common practice, no source.
const [WALL_MM, TOLERANCE_MM, LEAST_MM] = [20, 1, 0.1];
// Felt, feet and what a top is out of true lie between: common practice, no source.
const NEAR_TOP_MM = 20;
const PACKING = ["pack", "shim"];
const UNMEASURED = ["wall, not measured", `0 to ${WALL_MM} mm`];

/**
 * From where to where the front may stand, mm out of the face's plane, with the entries that would narrow it.
 * @typedef {{low: number, high: number, missing: object[], steps: [string, string][]}} Reach
 */

/** How far it stands out for certain, mm; null where nothing of it is entered. */
export function leastOf({ low, high }) {
  return high === Infinity ? null : roundedUp(low);
}

/** The range as a sentence begins with it. */
export function inWords(reach) {
  const least = leastOf(reach);
  if (least === null) return "How far it stands out is not known";
  return `It stands out ${figure(least)} mm, or up to ${figure(roundedUp(reach.high))} mm`;
}

/** @returns {Reach} */
export function reachOf(registry, site, fitting, above = []) {
  const layers = fitting.values.build_up ?? [];
  if (!layers.length) return { low: LEAST_MM, high: Infinity, missing: [{ item: fitting, field: "build_up" }], steps: [] };
  const thick = layers.reduce((sum, [, thickness, tolerance]) => sum + thickness + (tolerance ?? 0), 0);
  const untold = layers.filter(([, , tolerance]) => !known(tolerance)).length * TOLERANCE_MM;
  const carriers = carriersOf(site, fitting).filter(({ id }) => !above.includes(id));
  const back = carriers.length ? onCarriers(registry, site, carriers, [...above, fitting.id]) : backOf(site, fitting);
  const blank = { item: fitting, field: "build_up", words: `tolerances of the layers of ${calledOf(registry, fitting)}` };
  const steps = layers.map(([name, thickness, tolerance]) => [name, `${figure(thickness)} ± ${figure(tolerance ?? 0)} mm`]);
  return {
    low: back.low + thick,
    high: back.high + thick + untold,
    missing: untold ? [...back.missing, blank] : back.missing,
    steps: [...back.steps, ...steps],
  };
}

function onCarriers(registry, site, carriers, above) {
  const reaches = carriers.map((carrier) => reachOf(registry, site, carrier, above));
  const back = reaches.reduce((most, one) => (one.high > most.high ? one : most));
  return { ...back, steps: [["what it hangs on", `${figure(back.low)} mm`]] };
}

/** The fittings on its face that a fitting hangs on or is fixed to: not those it stands on or has in its layers. */
function carriersOf(site, fitting) {
  const behind = (carrier) => carrier.values.face === fitting.values.face && stands(carrier) && !amongLayers(carrier, fitting);
  return hungOn(site, fitting).filter((carrier) => behind(carrier) && !restsOn(site, fitting, carrier));
}

/** Whether a fitting that nothing fastens begins at the top of what carries it, and is not in front of that. */
function restsOn(site, fitting, carrier) {
  const face = site.get(fitting.values.face);
  if (overhead(face) || !isUpright(face) || site.of(fitting, "fixing").some(stands)) return false;
  const [here, below] = [fittingStretch(fitting), fittingStretch(carrier)];
  const beside = here.xTo <= below.xFrom || below.xTo <= here.xFrom;
  return !beside && Math.abs(here.zFrom - below.zTo) <= NEAR_TOP_MM;
}

/** What a fitting hangs on or is fixed to, each once. */
export function hungOn(site, fitting) {
  const joined = site.of(fitting, "fixing").filter(stands).map(({ values }) => values.other_fitting);
  const found = [...new Set([fitting.values.hangs_on, ...joined])].map((id) => site.get(id));
  return found.filter((one) => one?.kind === "fitting" && one.id !== fitting.id);
}

/**
 * How far a fitting may be set to either side, with what it hangs on as well, mm; blank: it stays where it is.
 * @param {string[]} above  what hangs on it, so that a ring of carriers ends
 */
export function movesOf(site, fitting, above = []) {
  const carriers = hungOn(site, fitting).filter((one) => stands(one) && !above.includes(one.id));
  const carried = carriers.map((one) => movesOf(site, one, [...above, fitting.id]));
  return (fitting.values.moves_mm ?? 0) + Math.max(0, ...carried);
}

function amongLayers(carrier, fitting) {
  const words = fitting.values.build_up.flatMap(([layer]) => layer.toLowerCase().replaceAll(",", " ").split(/\s+/));
  return words.includes(carrier.values.mark.toLowerCase());
}

/** The fixings that bear on the face itself, not on another fitting. */
export function fixedToFace(site, fitting) {
  return site
    .of(fitting, "fixing")
    .filter((one) => one.values.face === fitting.values.face && stands(one) && one.values.fabric !== "another fitting");
}

/** Thickness and tolerance of the layer that stands for packers; null where there is none. */
export function packingLayer({ values }) {
  const layer = (values.build_up ?? []).find(([name]) => PACKING.some((word) => name.toLowerCase().includes(word)));
  return layer ? [layer[1], layer[2] ?? 0] : null;
}

/** The fixings that are in already and of which nobody entered the packers: what is planned gets those called for. */
export function packersUnseen(fixings) {
  return fixings.filter(({ values }) => !known(values.packers_mm) && values.state === "fitted");
}

function backOf(site, fitting) {
  const face = site.get(fitting.values.face);
  const readings = face.values.surface ?? [];
  const [fixings, layer] = [fixedToFace(site, fitting), packingLayer(fitting)];
  const wall = worstProud(readings, fittingStretch(fitting));
  const blank = fixings.filter(({ values }) => !known(values.packers_mm));
  const thickest = Math.max(0, ...fixings.map(({ values }) => values.packers_mm ?? 0));
  // What is fitted already stands on packers that may be any; what is planned gets those the wall calls for.
  const unseen = packersUnseen(fixings);
  const missing = unseen.map((item) => ({ item, field: "packers_mm" }));
  const most = unseen.length ? Math.max(thickest, WALL_MM) : thickest;
  const [beyond, atMost] = [thickest, most].map((out) => Math.max(out - (layer ? layer[0] + layer[1] : 0), 0));
  if (wall === null) {
    const steps = [UNMEASURED, ["packers beyond its layers", `${figure(beyond)} mm`]];
    return { low: beyond, high: atMost + WALL_MM, missing: [{ item: face, field: "surface" }, ...missing], steps };
  }
  const proud = ["wall, proud at worst", `${figure(wall)} mm`];
  if (layer !== null) return { low: wall + beyond, high: wall + atMost, missing, steps: [proud] };
  const low = Math.max(wall, ...packed(readings, fixings, wall));
  return {
    low,
    high: blank.length ? Math.max(low, wall + WALL_MM) : low,
    missing: blank.map((item) => ({ item, field: "packers_mm" })),
    steps: [proud, ["packers", `${figure(thickest)} mm`]],
  };
}

function packed(readings, fixings, wall) {
  return fixings
    .filter(({ values }) => known(values.packers_mm))
    .map((fixing) => {
      const [x, z] = placeOf(fixing);
      return (worstProud(readings, stretch(x, x, z, z)) ?? wall) + fixing.values.packers_mm;
    });
}

/** How far a fixing's head, knob or jaw stands out, the wall counted. */
export function fixingReach(site, fixing) {
  const out = fixing.values.stands_out_mm;
  if (!known(out)) return { low: LEAST_MM, high: Infinity, missing: [{ item: fixing, field: "stands_out_mm" }], steps: [] };
  const face = site.get(fixing.values.face);
  const wall = worstProud(face.values.surface ?? [], fixingStretch(fixing));
  if (wall === null) return { low: out, high: out + WALL_MM, missing: [{ item: face, field: "surface" }], steps: [UNMEASURED] };
  return { low: out + wall, high: out + wall, missing: [], steps: [["wall, proud at worst", `${figure(wall)} mm`]] };
}

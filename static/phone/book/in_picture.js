/** A photograph's marks as the checks take them, and what is recorded on the face it shows. */

import { roundedUp } from "../../checks/limits.js";
import { Refusal, figure } from "../../checks/refusal.js";
import { placeSeen, planeOf, residuals } from "../../checks/picture_plane.js";
import { accept } from "./fields.js";
import { fittingStretch, outlineOf, placeOf } from "./places.js";
import { calledOf, stands } from "./site.js";

export const MARK_PX = 2; // where nothing is entered: a fingertip on a phone's screen, common practice, no source
// Beyond this share of half the diagonal from the middle a wide lens bends straight lines: common practice, no source.
const EDGE = 0.75;
const NEAR = 0.15;

/** The face a photograph most likely shows; null where what it is of lies on none. */
export function faceOf(site, { values }) {
  const subject = site.get(values.subject);
  return site.get(values.plane_face) ?? (subject?.kind === "face" ? subject : site.get(subject?.values.face) ?? null);
}

/**
 * The plane that marks make, or why they make none.
 * @param {(number|null)[][]} marks  across, down, x, z, off
 * @param {number|null} markPx
 * @returns {{plane?: import("../../checks/picture_plane.js").Plane, refusal?: Refusal}}
 */
export function planeFrom(marks, markPx) {
  try {
    return { plane: planeOf(/** @type {any} */ (marks), markPx ?? MARK_PX) };
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    return { refusal: error };
  }
}

/** The same of marks as they were typed: what is wrong with one is told as in any form. */
export function planeTyped({ kinds }, marks, markPx) {
  const { byName } = kinds.get("photograph");
  try {
    return planeFrom(accept(byName.get("plane_marks"), marks) ?? [], accept(byName.get("mark_px"), markPx));
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    return { refusal: error };
  }
}

/** How far each mark is from where the others have it, in words. */
export function missedBy(plane) {
  return residuals(plane).map(([x, z]) => `${Math.hypot(x, z).toFixed(1)} mm off`);
}

/** What the marks come to, in words. */
export function saidOf(plane) {
  if (plane.pairs.length === 4) return "Four marks always fit: a fifth would show a mistake in one of them.";
  const grown = plane.times > 1 ? ` They miss ${plane.times.toFixed(1)} times as much as they should be; the accuracy stated allows for it.` : "";
  return `${plane.pairs.length} marks agree with each other.${grown}`;
}

/**
 * A place, how far it may be off, and what is to be said of it.
 * @returns {{x: number, z: number, within: number, words: string}|{refusal: Refusal}}
 */
export function asked(plane, point, { width, height }) {
  try {
    const { x, z, within } = placeSeen(plane, point);
    const [across, up] = [x, z].map((part) => figure(Math.round(part)));
    const words = `x ${across}, z ${up} mm; within ${figure(roundedUp(within))} mm in 95 cases of 100.`;
    return { x, z, within, words: `${words} ${lensWarning(plane, point, width, height)}`.trim() };
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    return { refusal: error };
  }
}

/** Where a point lies on the face, in whole mm; null where the marks do not tell. */
export function wholePlace(plane, point) {
  if (!plane || !point) return null;
  try {
    const { x, z, within } = placeSeen(plane, point);
    return { place: [x, z].map(Math.round), within: Math.ceil(within) };
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    return null;
  }
}

/** What a lens may do near the edge of a picture, where no mark is near to hold it. */
function lensWarning(plane, [across, down], width, height) {
  const diagonal = Math.hypot(width, height);
  const out = Math.hypot(across - width / 2, down - height / 2) / (diagonal / 2);
  const held = plane.pairs.some(([a, b]) => Math.hypot(a - across, b - down) < NEAR * diagonal);
  return out > EDGE && !held ? "Near the picture’s edge a wide lens bends straight lines: mark a known point near by." : "";
}

/** The zones, holds, and what stands or is planned on a face, as the drawing over a photograph takes them. */
export function recordedOn(registry, site, face) {
  const named = (item) => calledOf(registry, item);
  return {
    outlines: [
      ...site.of(face, "zone").map((item) => ({ points: item.values.outline, look: "zone", words: named(item) })),
      ...site.of(face, "fitting").filter(stands).map((item) => ({ points: outlineOf(fittingStretch(item)), look: "fitting", words: named(item) })),
    ],
    places: [
      ...site.fixingsOn(face).filter(stands).map((item) => ({ at: placeOf(item), words: named(item) })),
      ...site.of(face, "hold").map((item) => ({ at: [item.values.x_mm, item.values.z_mm], words: named(item) })),
    ],
  };
}

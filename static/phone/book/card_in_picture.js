/** The colour of something in a photograph, by the card beside it. Mirrors fieldbook/book/card_in_photograph.py. */

import { FULL_CARD, colourOf, correctionOf, seenIn } from "../../checks/card_colour.js";
import { finite } from "../../checks/limits.js";
import { Refusal, figure } from "../../checks/refusal.js";
import { accept } from "./fields.js";
import { today } from "./moments.js";

const KNOWN = ["L*", "a*", "b*"];

/** @typedef {{data: Uint8ClampedArray, width: number, height: number}} Pixels  four bytes a pixel, from the upper left */
/** @typedef {{seen?: import("../../checks/card_colour.js").PatchSeen, lab: number[], refusal?: Refusal, lit: boolean}} Patch */

/**
 * The pixels of a square of a photograph, red, green and blue, row by row.
 * @param {Pixels} picture
 * @param {number} share  its width over that of the photograph
 * @param {number[]} place  across and down of its middle and half its side, px of the photograph
 * @throws {Refusal} out-of-range, not-a-number
 */
function squareOf({ data, width, height }, share, place) {
  const [across, down, reach] = ["across", "down", "reach"].map((name, at) => finite(name, place[at], "px") * share);
  const [left, top, right, bottom] = [across - reach, down - reach, across + reach, down + reach].map(Math.round);
  if (!(left >= 0 && top >= 0 && right <= width && bottom <= height)) {
    const reason = `It reaches beyond the photograph: ${figure(place[0])} across, ${figure(place[1])} down, ${figure(place[2])} to each side.`;
    throw new Refusal("out-of-range", reason, "Mark it inside the picture, or with a smaller reach.", { field: "card_patches", value: place });
  }
  const pixels = [];
  for (let row = top; row < bottom; row += 1) {
    for (let at = 4 * (row * width + left); at < 4 * (row * width + right); at += 4) pixels.push([data[at], data[at + 1], data[at + 2]]);
  }
  return pixels;
}

/**
 * What each patch of a card tells, or why it tells nothing; `lit` where it lies in the picture.
 * @param {Pixels} picture
 * @param {number} share
 * @param {number[][]} rows  across, down, reach, L*, a*, b*
 * @returns {Patch[]}
 */
export function patchesSeen(picture, share, rows) {
  return rows.map((row, at) => {
    const lab = row.slice(3, 6);
    let lit = false;
    try {
      const pixels = squareOf(picture, share, row);
      lit = true;
      return { seen: seenIn(pixels), lab, lit };
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      const { code, reason, remedy, field, value } = error;
      return { refusal: new Refusal(code, `Patch ${at + 1} of the card: ${reason}`, remedy, { field, value }), lab, lit };
    }
  });
}

/**
 * The colour of a square, and the correction its card gave; badly lit patches are left out of what is a full card without.
 * @param {Pixels} picture
 * @param {number} share
 * @param {Patch[]} patches
 * @param {number[]} place
 * @throws {Refusal}
 */
export function colourIn(picture, share, patches, place) {
  const good = patches.filter(({ seen }) => seen);
  const stops = patches.find(({ refusal, lit }) => refusal && (!lit || good.length < FULL_CARD));
  if (stops) throw stops.refusal;
  const correction = correctionOf(/** @type {any} */ (good));
  return { matched: colourOf(correction, seenIn(squareOf(picture, share, place))), correction };
}

/**
 * What the marks on a photograph come to, or why they come to nothing; of each patch what it lacks.
 * @param {import("./registry.js").Field} card  as which a card is entered
 * @param {Pixels|null} pixels
 * @param {number} width  of the photograph, px
 * @param {any[][]} rows  of the card, as far as they are filled in
 * @param {any[]} place  of the finish, likewise
 * @returns {{lacks: string[], found?: {matched: any, correction: any}, refusal?: Refusal}}
 */
export function readCard(card, pixels, width, rows, place) {
  const patches = pixels ? patchesSeen(pixels, pixels.width / width, rows) : [];
  const unknown = rows.map((row) => KNOWN.filter((_, at) => (row[at + 3] ?? null) === null));
  const lacks = unknown.map((names, at) => (names.length ? `still needed: ${names.join(", ")}` : patches[at]?.refusal?.message ?? ""));
  try {
    if (!pixels) throw missing("This phone has no picture of it that it can open.", "Bring it near the laptop once, for its copy.", "photograph");
    const first = unknown.findIndex((names) => names.length);
    if (first >= 0) throw missing(`The known colour of patch ${first + 1} is not whole.`, "Type its L*, a* and b* from the card’s own sheet.", "card_patches");
    accept(card, rows); // what is no figure, or cannot be, is told as in any form
    if (patches.length && place.includes(null)) throw missing("The finish is not marked yet.", "Press “Mark the finish”, and touch it.", "across_px");
    return { lacks, found: colourIn(pixels, pixels.width / width, patches, place) };
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    return { lacks, refusal: error };
  }
}

const missing = (reason, remedy, field) => new Refusal("missing", reason, remedy, { field });

/** The card of the latest other photograph that has one: its colours are known already. */
export function cardBefore(site, item) {
  const others = site.all("photograph").filter(({ id, values }) => id !== item.id && values.card_patches?.length);
  const order = ({ id, values }) => `${values.taken_at ?? ""} ${id}`;
  const [latest] = others.sort((one, other) => (order(one) < order(other) ? 1 : -1));
  return latest?.values.card_patches.map((row) => row.slice(3, 6)) ?? [];
}

/** What is entered of a finish whose colour was taken from a photograph: the fields of a colour measured again. */
export function measuredAgain(photograph, finish, { matched, correction }, marked) {
  const [l, a, b] = matched.lab.map((part) => Number(part.toFixed(1)));
  const how = `photograph with ${correction.patches >= FULL_CARD ? "a card" : "a grey"} beside it`;
  const note = `${inWords({ matched, correction }, marked)} Photograph ${photograph.sha256.slice(0, 8)}; an instrument goes before.`;
  const on = photograph.taken_at?.slice(0, 10) ?? today();
  return { finish, on, lab_l: l, lab_a: a, lab_b: b, lab_white: "D65", instrument: how, taken_by: photograph.taken_by ?? null, note };
}

/** A colour, how sure it is, and how many patches it rests on, of those that are marked. */
export function inWords({ matched, correction: { patches } }, marked) {
  const lab = ["L*", "a*", "b*"].map((name, at) => `${name} ${matched.lab[at].toFixed(1)}`).join(", ");
  const known = patches === 1 ? "1 known patch" : `${patches} known patches`;
  const more = marked > patches ? ` (${marked - patches} more badly lit, left out)` : "";
  return `${lab}, to about ${matched.within.toFixed(1)} (CIEDE2000), from ${known}${more}.`;
}

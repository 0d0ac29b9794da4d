/** A colour from a photograph, by a grey or a card of known colours beside it. Mirrors fieldbook/checks/card_colour.py. */

import { ciede2000 } from "./colour_difference.js";
import { within } from "./limits.js";
import { labOfLight, lightOf, lightOfLab, times } from "./linear_light.js";
import { leastSquares } from "./linear.js";
import { Refusal, figure } from "./refusal.js";

export const FULL_CARD = 6;
const GREY_CHROMA = 10;
const [CLIPPED, BLACK] = [250, 5];
const FEWEST_PIXELS = 25;
const EIGHT_BIT = 0.6;
const UNEVEN = 4;
const MOST_MISSED = 6;
const LOOK = "Look whether each patch has its own known colour, and all of them lie in the light of the finish.";
const CAMERA = 3; // what a camera makes of colours, where only greys are known

/** @typedef {{light: number[], spread: number}} PatchSeen  its light, as shares of full scale, and how its pixels spread, L* */
/** @typedef {{rows: number[][], patches: number, missed: number}} Correction */

/**
 * What the pixels of one patch tell, without those that lie far from the others.
 * @param {number[][]} pixels  red, green and blue of each, 0 to 255, row by row
 * @returns {PatchSeen}
 * @throws {Refusal} missing, out-of-range for a patch that is clipped, black or unevenly lit
 */
export function seenIn(pixels) {
  if (pixels.length < FEWEST_PIXELS) {
    const reason = `The patch has ${pixels.length} pixels in the photograph; ${FEWEST_PIXELS} are needed.`;
    throw new Refusal("missing", reason, "Take a wider reach, or a photograph from nearer.", { field: "card_patches" });
  }
  refuseBadlyLit([0, 1, 2].map((channel) => median(pixels.map((pixel) => pixel[channel]))));
  const lightness = pixels.map((pixel) => labOfLight(lightOf(pixel.slice(0, 3)))[0]);
  const quarter = Math.max(1, Math.floor(pixels.length / 4));
  const parts = [0, 1, 2, 3].map((part) => median(lightness.slice(part * quarter, (part + 1) * quarter)));
  const apart = Math.max(...parts) - Math.min(...parts);
  if (apart > UNEVEN) throw badlyLit(`is unevenly lit: L* differs by ${apart.toFixed(1)} across it`, "Take it out of shadow and shine.", apart);
  const centre = median(lightness);
  const off = 1.4826 * median(lightness.map((value) => Math.abs(value - centre)));
  const kept = pixels.filter((_, at) => Math.abs(lightness[at] - centre) <= Math.max(3 * off, 0.5)).map((pixel) => lightOf(pixel.slice(0, 3)));
  const light = [0, 1, 2].map((channel) => mean(kept.map((one) => one[channel])));
  return { light, spread: off / Math.sqrt(kept.length) };
}

function refuseBadlyLit(middle) {
  const highest = Math.max(...middle);
  if (highest >= CLIPPED) throw badlyLit(`is clipped: a channel stands at ${highest.toFixed(0)} of 255`, "Expose it darker.", highest);
  if (highest <= BLACK) throw badlyLit(`is black: no channel is above ${highest.toFixed(0)} of 255`, "Bring light to it.", highest);
  if (Math.min(...middle) < 1) throw badlyLit("has no light in one of its channels", "Bring whiter light to it.", Math.min(...middle));
}

/**
 * The correction that brings a card's patches to their known colours.
 * @param {{seen: PatchSeen, lab: number[]}[]} patches  each as it is seen, with its known L*, a*, b* for D65
 * @returns {Correction}
 * @throws {Refusal} missing, out-of-range, not-a-number, unsuitable-shape for patches that settle nothing or contradict another
 */
export function correctionOf(patches) {
  if (!patches.length) throw new Refusal("missing", "No patch of a card is marked.", "Mark a grey of known colour, or a card.", { field: "card_patches" });
  const known = patches.map(({ seen, lab }) => ({ seen, lab: clean(lab) }));
  const full = known.length >= FULL_CARD;
  const coloured = known.find(({ lab }) => Math.hypot(lab[1], lab[2]) > GREY_CHROMA);
  if (!full && coloured) {
    const reason = `The card has ${known.length} patches, one of them coloured (a* ${figure(coloured.lab[1])}, b* ${figure(coloured.lab[2])}).`;
    throw new Refusal("unsuitable-shape", reason, `Mark greys alone, or ${FULL_CARD} patches and more.`, { field: "card_patches" });
  }
  const wanted = known.map(({ seen, lab }) => ({ seen: seen.light, light: lightOfLab(lab), weight: 1 / Math.max(0.02, lab[0] / 100) ** 1.5 }));
  const rows = full ? matrix(wanted) : gains(wanted);
  const off = known.map(({ seen, lab }) => ciede2000(ofASurface(labOfLight(times(rows, seen.light))), lab));
  const missed = Math.sqrt(mean(off.map((one) => one ** 2)));
  if (missed > MOST_MISSED) throw contradiction(known[off.indexOf(Math.max(...off))].lab, Math.max(...off));
  return { rows, patches: known.length, missed };
}

/**
 * The colour of a patch for D65, 2°, and how far it may be off, as a colour difference (CIEDE2000).
 * @param {Correction} correction
 * @param {PatchSeen} seen
 * @returns {{lab: number[], within: number}}
 * @throws {Refusal} out-of-range for a colour that no surface has
 */
export function colourOf({ rows, patches, missed }, { light, spread }) {
  const lab = ofASurface(labOfLight(times(rows, light)));
  return { lab, within: Math.hypot(2 * missed, 2 * spread, patches >= FULL_CARD ? 0 : CAMERA, EIGHT_BIT) };
}

function matrix(wanted) {
  const left = wanted.map(({ seen, weight }) => seen.map((part) => weight * part));
  return [0, 1, 2].map((channel) => leastSquares(left, wanted.map(({ light, weight }) => weight * light[channel])).found);
}

function gains(wanted) {
  return [0, 1, 2].map((channel) => {
    const left = wanted.map(({ seen, weight }) => [weight * seen[channel]]);
    const [gain] = leastSquares(left, wanted.map(({ light, weight }) => weight * light[channel])).found;
    return [0, 1, 2].map((other) => (other === channel ? gain : 0));
  });
}

function ofASurface(/** @type {number[]} */ lab) {
  const [lightness, a, b] = lab;
  const rounded = Number(lightness.toFixed(9));
  if (rounded >= 0 && rounded <= 100 && Math.abs(a) <= 200 && Math.abs(b) <= 200) return lab;
  const reason = `It comes out as L* ${lightness.toFixed(1)}, a* ${a.toFixed(1)}, b* ${b.toFixed(1)}, which no surface has.`;
  throw new Refusal("out-of-range", reason, LOOK, { field: "card_patches", value: lab });
}

function contradiction(lab, difference) {
  const named = ["L*", "a*", "b*"].map((name, at) => `${name} ${figure(lab[at])}`).join(", ");
  const reason = `The card’s patches contradict each other: that of ${named} comes out ${difference.toFixed(0)} from it (CIEDE2000).`;
  return new Refusal("unsuitable-shape", reason, LOOK, { field: "card_patches", value: difference });
}

function clean(/** @type {number[]} */ [lightness, a, b]) {
  within("lab_l", typeof lightness === "number" ? Number(lightness.toFixed(9)) : lightness, 0, 100, "");
  return [lightness, within("lab_a", a, -200, 200, ""), within("lab_b", b, -200, 200, "")];
}

const mean = (values) => values.reduce((sum, value) => sum + value, 0) / values.length;

function median(values) {
  const [sorted, half] = [values.toSorted((one, other) => one - other), values.length >> 1];
  return values.length % 2 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
}

function badlyLit(why, remedy, value) {
  return new Refusal("out-of-range", `The patch ${why}.`, remedy, { field: "card_patches", value });
}

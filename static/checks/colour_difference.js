/**
 * How different two colours look: CIEDE2000 of two CIELAB colours for one white, and what that means to the eye.
 * Source: Sharma, Wu and Dalal (2005), equations 2 to 22; kL = kC = kH = 1. The words: common practice, no source.
 * Mirrors fieldbook/checks/colour_difference.py and colour_seen.py.
 */

import { within } from "./limits.js";

const GREY_CHROMA_7 = 25 ** 7;
const STEPS = [[1, "no difference is seen"], [2, "seen side by side only"], [5, "seen by whoever looks for it"], [Infinity, "another colour"]];

/**
 * @param {number[]} lab1  L*, a*, b* of the first
 * @param {number[]} lab2  of the second
 * @returns {number} without unit
 */
export function ciede2000(lab1, lab2) {
  const [[l1, a1, b1], [l2, a2, b2]] = [checked("lab1", lab1), checked("lab2", lab2)];
  const stretch = 1.5 - 0.5 * chromaWeight((Math.hypot(a1, b1) + Math.hypot(a2, b2)) / 2);
  const [[c1, h1], [c2, h2]] = [polar(a1 * stretch, b1), polar(a2 * stretch, b2)];
  const [lightness, chroma, hue] = [(l1 + l2) / 2, (c1 + c2) / 2, meanHue(h1, h2)];
  const hueDifference = 2 * Math.sqrt(c1 * c2) * sin(turn(h2 - h1) / 2);
  const hueWeight = 1 - 0.17 * cos(hue - 30) + 0.24 * cos(2 * hue) + 0.32 * cos(3 * hue + 6) - 0.2 * cos(4 * hue - 63);
  const fromMiddle = (lightness - 50) ** 2;
  const inLightness = (l2 - l1) / (1 + (0.015 * fromMiddle) / Math.sqrt(20 + fromMiddle));
  const inChroma = (c2 - c1) / (1 + 0.045 * chroma);
  const inHue = hueDifference / (1 + 0.015 * chroma * hueWeight);
  const blue = 30 * Math.exp(-(((hue - 275) / 25) ** 2));
  const rotation = -2 * chromaWeight(chroma) * sin(2 * blue);
  return Math.sqrt(inLightness ** 2 + inChroma ** 2 + inHue ** 2 + rotation * inChroma * inHue);
}

/** A colour difference in words. */
export function seen(difference) {
  within("difference", difference, 0, 200, "");
  return STEPS.find(([limit]) => difference < limit)[1];
}

function checked(name, /** @type {number[]} */ [l, a, b]) {
  return [within(`${name}[0]`, l, 0, 100, ""), within(`${name}[1]`, a, -200, 200, ""), within(`${name}[2]`, b, -200, 200, "")];
}

const chromaWeight = (chroma) => Math.sqrt(chroma ** 7 / (chroma ** 7 + GREY_CHROMA_7));
const radians = (degrees) => (degrees * Math.PI) / 180;
const sin = (degrees) => Math.sin(radians(degrees));
const cos = (degrees) => Math.cos(radians(degrees));

/** Chroma and hue angle; degrees from 0 up to 360. */
function polar(a, b) {
  return [Math.hypot(a, b), ((Math.atan2(b, a) * 180) / Math.PI + 360) % 360];
}

/** The shorter way round; half a turn keeps its sign. */
function turn(degrees) {
  return Math.abs(degrees) <= 180 ? degrees : degrees - Math.sign(degrees) * 360;
}

function meanHue(h1, h2) {
  if (Math.abs(h1 - h2) <= 180) return (h1 + h2) / 2;
  return (h1 + h2 + (h1 + h2 < 360 ? 360 : -360)) / 2;
}

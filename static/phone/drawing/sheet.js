/** The sheet a face is drawn on: face millimetres, z upwards, with letters that keep out of each other's way. */

import { faceStretch } from "../book/places.js";
import { marks } from "./signs.js";
import { letters } from "./svg.js";

const ROOM = { width: 330, height: 420 }; // of a narrow phone's screen, in its own units
const LETTER = 11;
const ADVANCE = 0.62; // of the size of type, for a letter on the average

/**
 * @param {import("../book/site.js").Item} face
 * @param {number} [scale]  mm a unit of the screen; left out: the whole face on a narrow phone
 * @returns {{u: number, part: import("../../checks/clearance.js").Stretch, at: Function, view: number[], take: Function, label: Function, wide: Function}} `u` is one unit of the screen, mm
 */
export function sheet(face, scale) {
  const part = drawnPart(face);
  const [width, height] = [part.xTo - part.xFrom, part.zTo - part.zFrom];
  const u = scale ?? Math.max(width / ROOM.width, height / ROOM.height);
  const taken = [];
  const wide = (words) => words.length * ADVANCE * LETTER * u;
  const view = [part.xFrom - 34 * u, -part.zTo - 22 * u, width + 50 * u, height + 38 * u];
  return {
    u,
    part,
    view,
    at: (x, z) => [x, -z],
    /** About how wide words are, mm. */
    wide,
    /** Take the room of a symbol, so that letters keep off it. */
    take: ([x, y], reach) => taken.push([x - reach, y - reach, x + reach, y + reach]),
    /** Words beside a point, or on it without a reach, with a verdict's sign before them; nothing where there is no room. */
    label(words, [x, y], reach, className, word = null) {
      const size = LETTER * u;
      const room = word ? 11 * u : 0;
      const [w, h] = [wide(words) + room, size];
      const places = [
        ...(reach ? [] : [[x - w / 2, y + h / 3]]),
        [x + reach, y + h / 3],
        [x - reach - w, y + h / 3],
        [x - w / 2, y - reach],
        [x - w / 2, y + reach + h * 0.8],
        [x + reach, y - reach],
        [x + reach, y + reach + h * 0.8],
      ];
      for (const [left, base] of places) {
        const box = [left - u, base - h, left + w + u, base + u];
        if (taken.some((other) => overlap(box, other)) || !inside(box, view)) continue;
        taken.push(box);
        const sign = word ? marks(word, [left + 4.5 * u, base - h * 0.36], 4 * u) : [];
        return [...sign, letters(words, [left + room, base], size, className)];
      }
      return [];
    },
  };
}

/** The part of the face's plane that is drawn: the face, and the floor where it lies lower. */
function drawnPart(face) {
  const part = faceStretch(face);
  const floor = (face.values.floor ?? []).map(([, z]) => z);
  return { ...part, zFrom: Math.min(part.zFrom, ...floor) };
}

/**
 * @param {number[]} one  left, top, right, bottom
 * @param {number[]} other
 */
function overlap([l0, t0, r0, b0], [l1, t1, r1, b1]) {
  return l0 < r1 && l1 < r0 && t0 < b1 && t1 < b0;
}

/**
 * @param {number[]} box  left, top, right, bottom
 * @param {number[]} view  left, top, width, height
 */
function inside([left, top, right, bottom], [x, y, width, height]) {
  return left >= x && top >= y && right <= x + width && bottom <= y + height;
}

/** A photograph laid flat on the phone. */

import assert from "node:assert/strict";
import test from "node:test";

import { planeOf } from "../../static/checks/picture_plane.js";
import { laidFlat } from "../../static/phone/drawing/laid_flat.js";

const MARKS = [[100, 500, 0, 0], [500, 500, 2000, 0], [500, 100, 2000, 2000], [100, 100, 0, 2000]];

/** A picture of 600 by 600 whose red and green tell where each pixel is. */
function picture() {
  const data = new Uint8ClampedArray(4 * 300 * 300);
  for (let at = 0; at < 300 * 300; at++) data.set([(at % 300) / 2, Math.floor(at / 300) / 2, 7, 255], 4 * at);
  return { data, width: 300, height: 300 };
}

test("each place of the face has the pixel that shows it, from a copy of half the size", () => {
  const flat = laidFlat(picture(), 0.5, planeOf(MARKS, 1), { xFrom: -1000, xTo: 3000, zFrom: 0, zTo: 2000 }, 400);
  assert.deepEqual([flat.width, flat.height], [400, 200]);
  const at = (x, z) => [...flat.data.subarray(4 * ((200 - z / 10) * 400 + (x + 1000) / 10)).subarray(0, 4)];
  for (const [x, z] of [[0, 1000], [1000, 500], [1990, 1500]]) {
    const [red, green, blue, seen] = at(x, z);
    assert.ok(Math.abs(red - (100 + x / 5) / 4) <= 1, `${red} at ${x}`);
    assert.ok(Math.abs(green - (500 - z / 5) / 4) <= 1, `${green} at ${z}`);
    assert.deepEqual([blue, seen], [7, 255]);
  }
  assert.equal(at(-900, 1000)[3], 0, "beside the photograph nothing is shown");
});

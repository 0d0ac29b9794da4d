/** Places measured in photographs, on the phone's side; tests/checks/test_picture_plane.py runs the same file. */

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";

import { placeSeen, planeOf, residuals, seenAt } from "../../static/checks/picture_plane.js";

const { cases } = JSON.parse(readFileSync(new URL("../cases/picture_plane.json", import.meta.url), "utf-8"));
const near = (found, expected, tolerance) => assert.ok(Math.abs(found - expected) <= tolerance, `${found}, not ${expected}`);

for (const [number, { marks, mark_px, points, places, within, refused, tolerance }] of cases.entries()) {
  test(`case ${number} of a photograph that measures is answered as at the desk`, () => {
    if (refused) {
      assert.throws(() => points.forEach((point) => placeSeen(planeOf(marks, mark_px), point)) ?? planeOf(marks, mark_px), refused);
      return;
    }
    const plane = planeOf(marks, mark_px);
    points.forEach((point, at) => {
      const found = placeSeen(plane, point);
      near(found.x, places[at][0], tolerance);
      near(found.z, places[at][1], tolerance);
      if (within) near(found.within, within[at], tolerance);
      seenAt(plane, [found.x, found.z]).forEach((part, k) => near(part, point[k], 1e-6));
    });
  });
}

test("what is left at each mark is told along x and z", () => {
  const square = [[100, 900, 0, 0], [1100, 900, 2000, 0], [1100, 100, 2000, 1600], [100, 100, 0, 1600]];
  residuals(planeOf(square)).flat().forEach((part) => near(part, 0, 1e-6));
  const [x, z] = residuals(planeOf([...square, [604, 503, 1000, 800]])).at(-1);
  assert.ok(x > 0 && z < 0);
});

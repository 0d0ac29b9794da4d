/** What is made by hand at the desk: boxes that are dragged. */

import assert from "node:assert/strict";
import { test } from "node:test";

import { dragOf } from "../../static/desk/shape.js";

const BOX = /** @type {const} */ ({ sort: "rectangle", x: 120, z: 1400, width: 640, height: 90 });

test("a box is drawn once, and from then on dragged where it is pressed", () => {
  assert.deepEqual(dragOf(null, { x: 5, z: 40 }, 8)({ x: 25, z: 10 }), { sort: "rectangle", x: 5, z: 10, width: 20, height: 30 });
  assert.deepEqual(dragOf(BOX, { x: 300, z: 1450 }, 8)({ x: 340, z: 1445 }), { ...BOX, x: 160, z: 1395 });
  assert.deepEqual(dragOf(BOX, { x: 300, z: 1450 }, 8)({ x: 300, z: 1450 }), BOX);
});

test("only its corners size it, from the corner opposite", () => {
  assert.deepEqual(dragOf(BOX, { x: 764, z: 1487 }, 8)({ x: 820, z: 1500 }), { ...BOX, width: 700, height: 100 });
  assert.deepEqual(dragOf(BOX, { x: 118, z: 1402 }, 8)({ x: 100, z: 1380 }), { ...BOX, x: 100, z: 1380, width: 660, height: 110 });
  assert.deepEqual(dragOf({ ...BOX, width: 10, height: 10 }, { x: 125, z: 1405 }, 80)({ x: 130, z: 1405 }), { ...BOX, width: 10, height: 10, x: 125 });
});

test("from beside it, it comes to the pointer", () => {
  assert.deepEqual(dragOf(BOX, { x: 20, z: 30 }, 8)({ x: 20, z: 30 }), { ...BOX, x: 20, z: 30 });
});

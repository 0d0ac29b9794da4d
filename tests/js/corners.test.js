import assert from "node:assert/strict";
import test from "node:test";

import { cornerOf, linesOf, notMeasured, rectangleOf, sizeOf, toMeasure, touchedLine } from "../../static/phone/book/corners.js";

const FIELD = { name: "outline", label: "Outline", type: "outline" };
const TOUCHED = touchedLine([1230, -40], 26);

test("what was touched is read back with how far it may be out", () => {
  assert.deepEqual(cornerOf(TOUCHED), { at: [1230, -40], missed: 26 });
  assert.deepEqual(cornerOf("300 −20"), { at: [300, -20], missed: 0 });
  assert.equal(cornerOf("300 ?").at, null);
  assert.deepEqual(cornerOf("1.2 m 310,5 mm").at, [1200, 310.5]);
  assert.equal(cornerOf("1.430 200").at, null); // 1430, or 1.43: no rectangle is made of it
  assert.equal(cornerOf("1.2 m 300").at, null);
});

test("the first corner that was only touched is the next to be measured", () => {
  assert.equal(toMeasure(["0 0", TOUCHED, "5 5", TOUCHED]), 1);
  assert.equal(toMeasure(["0 0", "5 5"]), 2);
});

test("an outline is not kept as long as one corner was only touched, and the refusal names it", () => {
  const [refusal] = notMeasured(FIELD, `0 0\n${TOUCHED}\n5 5`);
  assert.equal(refusal.field, "outline");
  assert.match(refusal.reason, /corner 2 .*26\u00a0mm/);
  assert.deepEqual(notMeasured(FIELD, "0 0\n5 0\n5 5"), []);
});

test("two measured corners make a rectangle, one that was touched makes none", () => {
  assert.deepEqual(rectangleOf(linesOf("900 2250\n300 2000\n")), [[900, 2250], [300, 2250], [300, 2000], [900, 2000]]);
  assert.equal(sizeOf(rectangleOf(["900 2250", "300 2000"])), "600 × 250\u00a0mm");
  assert.equal(rectangleOf(["300 2000", TOUCHED]), null);
  assert.equal(rectangleOf(["300 2000"]), null);
  assert.equal(rectangleOf(["300 2000", "300 2250"]), null);
});

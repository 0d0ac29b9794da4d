/** Ticks on the workshop sheets of a phone. */

import assert from "node:assert/strict";
import { test } from "node:test";

import { lineNames, overtaken, withTick } from "../../static/phone/book/made.js";

test("of two lines that say the same, one may be done", () => {
  const lines = lineNames(["2440, to buy: post 1,500", "700, offcut: rail 640", "2440, to buy: post 1,500"]);
  assert.equal(new Set(lines).size, 3);
  const made = withTick(withTick({}, lines[2], "2026-03-02"), lines[1], "2026-03-03");
  assert.deepEqual(withTick(made, lines[2], null), { [lines[1]]: "2026-03-03" });
});

test("a tick is for a line as it read: what is cut otherwise is open again", () => {
  const made = withTick({}, "700, offcut: rail 640", "2026-03-02");
  assert.deepEqual(overtaken(made, lineNames(["700, offcut: rail 655"])), ["700, offcut: rail 640"]);
  assert.deepEqual(overtaken(made, lineNames(["700, offcut: rail 640"])), []);
});

/** What follows from the rest of a form. */

import assert from "node:assert/strict";
import { test } from "node:test";

import { following } from "../../static/phone/forms/implied.js";

/** @type {[Record<string, string>, string][]} */
const CASES = [
  [{ hole: "new", fabric: "old fabric" }, "a new hole in old fabric"],
  [{ hole: "new", fabric: "later work" }, "a new hole in later work"],
];

test("it follows from all that it rests on, and from no half of it", () => {
  const said = (values) => following(CASES, (name) => values[name]);
  assert.equal(said({ hole: "new", fabric: "later work" }), "a new hole in later work");
  assert.equal(said({ hole: "new" }), "");
  assert.equal(said({ hole: "none", fabric: "later work" }), "");
});

/** What a thing was like when somebody agreed to it, from the entries on the phone; tests/book has the desk's side. */

import assert from "node:assert/strict";
import { test } from "node:test";

import { agreedState } from "../../static/phone/book/agreed.js";

const ruling = (values = {}) => ({ values: { agreed_revision: null, ...values } });
const SAID = [
  { revision: 4, base: 3, device: "one", set: { items: ["d"], answer: "yes" } },
  { revision: 7, base: 6, device: "one", set: { words: "as drawn" } },
];
const DONE = [
  { revision: 2, device: "desk", set: { x_mm: 100, z_mm: 50 } },
  { revision: 3, device: "desk", set: { x_mm: 120 } },
  { revision: 6, device: "desk", set: { x_mm: 300 } },
];

test("a thing stands as it was when the agreement last said what is decided", () => {
  assert.deepEqual(agreedState(ruling(), SAID, DONE), { x_mm: 120, z_mm: 50 });
});

test("an agreement that says which state it is about is about that one", () => {
  assert.deepEqual(agreedState(ruling({ agreed_revision: 2 }), SAID, DONE), { x_mm: 100, z_mm: 50 });
});

test("deciding anew is about the state there was then, and a withdrawal tells nothing of it", () => {
  const anew = [...SAID, { revision: 8, base: 7, device: "one", set: { depth_mm: 40 } }];
  assert.deepEqual(agreedState(ruling(), anew, [...DONE, { revision: 7, withdraw: true }]), { x_mm: 300, z_mm: 50 });
});

test("what was not there yet has no state", () => {
  assert.equal(agreedState(ruling(), SAID, [{ revision: 5, device: "desk", set: { x_mm: 1 } }]), null);
});

test("what another device moved before the agreement arrived, nobody agreed to; what its own device did, they saw", () => {
  const late = [{ revision: 9, base: 3, device: "one", set: { items: ["d"], answer: "yes" } }];
  const own = { revision: 8, device: "one", set: { z_mm: 60 } };
  assert.deepEqual(agreedState(ruling(), late, [...DONE, own]), { x_mm: 120, z_mm: 60 });
});

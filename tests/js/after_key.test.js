/** What answers to typing never holds a key up, and never answers for figures that are typed over. */

import assert from "node:assert/strict";
import { test } from "node:test";

import { afterKey } from "../../static/phone/forms/after_key.js";

globalThis.requestAnimationFrame = (/** @type {any} */ show) => Number(setTimeout(show));

/** An answer in three parts, each noted with the figure it was begun for. */
function answering() {
  const [noted, typed] = [/** @type {string[]} */ ([]), { figure: 0 }];
  const reckoning = afterKey(function* () {
    const { figure } = typed;
    for (const part of ["read", "reckoned", "shown"]) {
      noted.push(`${figure} ${part}`);
      yield;
    }
  });
  return { noted, typed, reckoning };
}

test("a key does nothing at once, and all of it is done afterwards", async () => {
  const { noted, reckoning } = answering();
  const done = reckoning.later();
  assert.deepEqual(noted, []);
  await done;
  assert.deepEqual(noted, ["0 read", "0 reckoned", "0 shown"]);
});

test("an answer that a later key overtakes is not gone on with", async () => {
  const { noted, typed, reckoning } = answering();
  const first = reckoning.later();
  typed.figure = 1;
  await Promise.all([first, reckoning.later()]);
  assert.deepEqual(noted, ["1 read", "1 reckoned", "1 shown"]);
});

test("what is relied on is finished at once, and not done twice", async () => {
  const { noted, reckoning } = answering();
  const done = reckoning.later();
  reckoning.finish();
  assert.deepEqual(noted, ["0 read", "0 reckoned", "0 shown"]);
  await done;
  reckoning.finish();
  assert.equal(noted.length, 3);
});

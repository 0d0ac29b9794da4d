/** Saving once, however often it is pressed. */

import assert from "node:assert/strict";
import { test } from "node:test";

import { once } from "../../static/phone/forms/saving.js";

test("a second press while it runs, and after it went well, does nothing", async () => {
  const runs = [];
  const save = once(async (words) => runs.push(words) > 0);
  assert.deepEqual(await Promise.all([save("first"), save("second")]), [true, true]);
  assert.equal(await save("third"), true);
  assert.deepEqual(runs, ["first"]);
});

test("what did not go well can be pressed again", async () => {
  const answers = [false, new Error("no"), true];
  const save = once(async () => {
    const answer = answers.shift();
    if (answer instanceof Error) throw answer;
    return answer;
  });
  assert.equal(await save(), false);
  await assert.rejects(save());
  assert.equal(await save(), true);
});

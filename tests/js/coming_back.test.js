/** What is due, and what was measured again, on the phone: the cases that pytest runs at the desk. */

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { test } from "node:test";
import { fileURLToPath } from "node:url";

import { drift, driftWords } from "../../static/checks/drift.js";
import { missed, nextRound } from "../../static/checks/rounds.js";
import { datedAhead, dueOn, roomOf, stateOf } from "../../static/phone/book/due.js";
import { registryOf } from "../../static/phone/book/registry.js";
import { calledOf, gather } from "../../static/phone/book/site.js";

const root = fileURLToPath(new URL("../../", import.meta.url));
const own = `${root}.venv/bin/python`;
const PRINT = "import json; from fieldbook.web.app.kinds_for_phones import registry; print(json.dumps(registry()))";
const registry = registryOf(JSON.parse(execFileSync(existsSync(own) ? own : "python3", ["-c", PRINT], { cwd: root, maxBuffer: 1 << 28 }).toString()));
const cases = (name) => JSON.parse(readFileSync(new URL(`../cases/${name}.json`, import.meta.url), "utf-8"));

for (const { what, first, every, done, today, due, missed: rounds } of cases("rounds")) {
  test(`a round comes as at the desk: ${what}`, () => {
    assert.equal(nextRound(first, every, done), due);
    assert.equal(due ? missed(due, every, today) : 0, rounds);
  });
}

for (const { what, readings, words } of cases("drift")) {
  test(`a change is told as at the desk: ${what}`, () => {
    const found = drift(readings);
    assert.equal(found && driftWords(found), words);
  });
}

test("what is due is what the desk says", () => {
  const { items, today, due, ahead } = cases("due");
  const site = gather(registry, new Map(items.map((item) => [item.id, { ...item, withdrawn: false }])), items[0].id);
  const called = (item) => (item ? calledOf(registry, item) : "");
  const told = dueOn(registry, site, today).map((one) => [stateOf(one, today), one.on ?? "", one.sort, one.what, one.by, called(one.about), called(roomOf(site, one.about)), one.whyNot]);
  assert.deepEqual(told, due);
  assert.deepEqual(datedAhead(site, today).map(({ id }) => id), ahead);
});

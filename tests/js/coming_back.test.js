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
import { LEAVE, MAKE_SAFE, TAKE_OFF, whatToDo } from "../../static/phone/book/happened.js";
import { against, movedBy } from "../../static/phone/book/moving.js";
import { calledOf, gather } from "../../static/phone/book/site.js";
import { stages, stepsOff } from "../../static/phone/book/taking_down.js";

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

const [SITE, ROOM, FACE] = ["1", "2", "3"].map((number) => `00000000-0000-7000-8000-00000000000${number}`);
const PLACE = { face: FACE, name: "thing", x_mm: 1000, z_mm: 900, width_mm: 400, height_mm: 300, state: "fitted" };

/** A site with these fittings, and fixings that join some of them: the one fixed, to which, and its state. */
function siteOf(fittings, fixedTo = [], ofSite = {}) {
  const items = [
    { kind: "site", id: SITE, values: { name: "Tide house", ...ofSite } },
    { kind: "room", id: ROOM, values: { site: SITE, name: "Loft" } },
    { kind: "face", id: FACE, values: { room: ROOM, name: "North", sort: "wall", width_mm: 4000, height_mm: 2500 } },
    ...fittings.map(([mark, { covers, hangs_on: on, ...more }]) => ({ kind: "fitting", id: mark, values: { ...PLACE, mark, ...(on && { hangs_on: on }), ...(covers && { covers }), ...more } })),
    ...fixedTo.map(([fitting, other, state], at) => ({ kind: "fixing", id: `f${at}`, values: { face: FACE, fitting, other_fitting: other, state, mark: `${fitting}.1` } })),
  ];
  return gather(registry, new Map(items.map((item) => [item.id, { ...item, withdrawn: false }])), SITE);
}

for (const { what, fittings, fixed_to: fixedTo, stages: expected } of cases("taking_down")) {
  test(`things come down in the order of the desk: ${what}`, () => {
    const told = stages(siteOf(fittings, fixedTo)).map(({ fitting, stage, before }) => [fitting.values.mark, stage, before.map(({ values }) => values.mark)]);
    if (expected) assert.deepEqual(told, expected);
    else assert.ok(told.every(([, stage]) => stage === 0));
  });
}

test("steps of coming off are sentences, then fixings, then what is made good", () => {
  const fitting = { values: { removal: "Take off the lamp. Then lift." } };
  const fixings = [{ values: { mark: "D1.1", state: "fitted", removal_tool: "spanner", removal: "Half a turn.", make_good: "Brush." } }];
  assert.deepEqual(stepsOff(fitting, fixings), ["Take off the lamp.", "Then lift.", "D1.1 (spanner): Half a turn.", "Then, at D1.1: Brush."]);
});

const LIGHT = { mass_loaded_kg: 3, people_to_remove: 1, removal: "Lift it off." };

test("only what is light, low, alone and known may be taken off by whoever stands there", () => {
  const asked = (more, happened = "loose", others = []) => whatToDo(siteOf([["D1", { ...LIGHT, ...more }], ...others], [], { call: "gate lodge" }), siteOf([["D1", { ...LIGHT, ...more }], ...others]).get("D1"), happened);
  assert.equal(asked({}).act, TAKE_OFF);
  for (const more of [{ mass_loaded_kg: 5.1 }, { mass_loaded_kg: null }, { z_mm: 1600 }, { glass: "toughened" }, { people_to_remove: 2 }, { people_to_remove: null }, { removal: null }]) assert.equal(asked(more).act, MAKE_SAFE, JSON.stringify(more));
  assert.equal(asked({}, "loose", [["D2", { hangs_on: "D1" }]]).act, MAKE_SAFE);
  assert.equal(asked({}, "damp").act, LEAVE);
  assert.equal(asked({}, "damp").urgency, "3");
  assert.match(asked({ gives: ["light"] }, "damp").words[0], /touch no metal/);
  assert.equal(asked({}).call, "gate lodge");
  assert.equal(whatToDo(siteOf([]), null, "fallen").act, MAKE_SAFE);
});

test("a thing may be moved and loaded only as far as it was reckoned with", () => {
  const made = (more) => siteOf([["D1", { moves_mm: 300, mass_loaded_kg: 6, ...more }], ["D2", { x_mm: 1600 }]]);
  const said = (more, wanted) => against(registry, made(more), made(more).get("D1"), { x: null, kg: null, ...wanted });
  assert.deepEqual(said({}, { x: 900 }), []);
  assert.deepEqual(said({}, { kg: 6 }), []);
  assert.match(said({}, { kg: 6.5 })[0], /calculated with 6 kg/);
  assert.match(said({ mass_loaded_kg: null }, { kg: 1 })[0], /not entered/);
  assert.match(said({}, { x: 650 })[0], /by 300 mm/);
  assert.match(said({ moves_mm: null }, { x: 990 })[0], /not made to be moved/);
  assert.match(said({}, { x: 1250 })[0], /over D2/);
  assert.match(said({ moves_mm: 5000 }, { x: -200 }).join(), /beyond the edge of North/);
});

test("what hangs on a thing goes where it goes, and nothing else does", () => {
  const site = siteOf([["D1", {}], ["D2", { hangs_on: "D1", x_mm: 1100 }], ["D3", { x_mm: 2000 }], ["D4", { covers: ["D1"] }]], [["D3", "D2", "fitted"]]);
  const moved = movedBy(site, site.get("D1"), 50).map(({ id, values }) => [id, values.x_mm]);
  assert.deepEqual(moved.filter(([id]) => id.startsWith("D")), [["D1", 1050], ["D2", 1150], ["D3", 2050]]);
});

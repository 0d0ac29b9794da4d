/** What is due, and what was measured again, on the phone: the cases that pytest runs at the desk. */

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";

import { ciede2000 } from "../../static/checks/colour_difference.js";
import { drift, driftWords } from "../../static/checks/drift.js";
import { missed, nextRound } from "../../static/checks/rounds.js";
import { datedAhead, dueOn, roomOf, stateOf } from "../../static/phone/book/due.js";
import { faded } from "../../static/phone/book/fading.js";
import { registryOf } from "../../static/phone/book/registry.js";
import { whatToDo } from "../../static/phone/book/happened.js";
import { against, movedBy } from "../../static/phone/book/moving.js";
import { calledOf, gather } from "../../static/phone/book/site.js";
import { notSaid, stages, stepsOff } from "../../static/phone/book/taking_down.js";
import { printedBy } from "./python.js";

const PRINT = "import json; from fieldbook.web.app.kinds_for_phones import registry; print(json.dumps(registry()))";
const registry = registryOf(printedBy("-c", PRINT));
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

test("a colour difference is that of the published pairs, and told as at the desk", () => {
  const lines = readFileSync(new URL("../checks/data/ciede2000_pairs.csv", import.meta.url), "utf-8").split("\n").filter((line) => /^-?\d/.test(line));
  assert.equal(lines.length, 34);
  for (const [l1, a1, b1, l2, a2, b2, difference] of lines.map((line) => line.split(",").map(Number))) assert.ok(Math.abs(ciede2000([l1, a1, b1], [l2, a2, b2]) - difference) < 0.0001);
  const card = { lab_l: 50, lab_a: 2.6772, lab_b: -79.7751, lab_white: "D50" };
  assert.equal(faded(card, { lab_l: 50, lab_a: 0, lab_b: -82.7485, lab_white: "D50" }), "difference 2.0 (CIEDE2000): seen by whoever looks for it");
  assert.match(faded(card, { ...card, lab_white: "D65" }), /^not known: the card is for D50, this for D65$/);
  assert.match(faded({ ...card, lab_a: null }, card), /the card has no colour/);
});

test("what is due is what the desk says", () => {
  const { items, today, due, ahead, open } = cases("due");
  const site = gather(registry, new Map(items.map((item) => [item.id, { ...item, withdrawn: false }])), items[0].id, false, { open });
  const called = (item) => (item ? calledOf(registry, item) : "");
  const told = dueOn(registry, site, today).map((one) => [stateOf(one, today), one.on ?? "", one.sort, one.what, one.by, called(one.about), called(roomOf(site, one.about)), one.whyNot]);
  assert.deepEqual(told, due);
  assert.deepEqual(datedAhead(site, today).map(({ id }) => id), ahead);
});

const [SITE, ROOM, FACE] = ["1", "2", "3"].map((number) => `00000000-0000-7000-8000-00000000000${number}`);
const PLACE = { face: FACE, name: "thing", x_mm: 1000, z_mm: 900, width_mm: 400, height_mm: 300, state: "fitted" };

/** A site with these fittings, and fixings that join some of them: the one fixed, to which, and its state. */
function siteOf(fittings, fixedTo = [], ofSite = {}, more = []) {
  const items = [
    { kind: "site", id: SITE, values: { name: "Tide house", ...ofSite } },
    { kind: "room", id: ROOM, values: { site: SITE, name: "Loft" } },
    { kind: "face", id: FACE, values: { room: ROOM, name: "North", sort: "wall", width_mm: 4000, height_mm: 2500 } },
    ...fittings.map(([mark, { covers, hangs_on: on, ...more }]) => ({ kind: "fitting", id: mark, values: { ...PLACE, mark, ...(on && { hangs_on: on }), ...(covers && { covers }), ...more } })),
    ...fixedTo.map(([fitting, other, state], at) => ({ kind: "fixing", id: `f${at}`, values: { face: FACE, fitting, other_fitting: other, state, mark: `${fitting}.1` } })),
    ...more,
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

for (const { what, fixings, not_said: expected } of cases("not_said")) {
  test(`who signs is asked as at the desk: ${what}`, () => {
    const items = fixings.map((values) => ({ kind: "fixing", id: values.mark, values: { face: FACE, fitting: "D1", ...values }, withdrawn: false }));
    const site = siteOf([["D1", { state: "taken down" }]], [], {}, items);
    assert.deepEqual(notSaid(site, [site.get("D1")]).map(({ values }) => values.mark), expected);
  });
}

test("steps of coming off are sentences, then fixings, then what is made good", () => {
  const fitting = { values: { removal: "Take off the lamp. Then lift." } };
  const fixings = [{ values: { mark: "D1.1", state: "fitted", removal_tool: "spanner", removal: "Half a turn.", make_good: "Brush." } }];
  assert.deepEqual(stepsOff(fitting, fixings), ["Take off the lamp.", "Then lift.", "D1.1 (spanner): Half a turn.", "Then, at D1.1: Brush."]);
});

const LIGHT = { mass_loaded_kg: 3, people_to_remove: 1, removal: "Lift it off.", glass: "none", gives: ["nothing"] };

const KNOWN = { call: "gate lodge", isolators: "cupboard by the stair." };

for (const { what, fitting, hung, happened, act, urgency, says, call } of cases("happened")) {
  test(`what to do now is what the desk says: ${what}`, () => {
    const other = hung && ["D2", { ...LIGHT, ...(hung.hangs_on ? { hangs_on: "D1" } : { covers: ["D1"] }) }];
    const site = siteOf([...(fitting ? [["D1", { ...LIGHT, ...fitting }]] : []), ...(other ? [other] : [])], [], KNOWN);
    const told = whatToDo(site, site.get("D1") ?? null, happened);
    assert.deepEqual([told.act, told.urgency, told.call], [act, urgency, call]);
    assert.ok(told.words.join(" ").includes(says), told.words.join(" "));
  });
}

test("a thing may be moved and loaded as far as the desk calculated, and not at all where something was entered since", () => {
  const made = (more) => siteOf([["D1", { moves_mm: 300, mass_loaded_kg: 6, ...more }], ["D2", { x_mm: 1600 }]]);
  const room = { D1: { along_mm: [[700, 1100], [1500, 1600]], more_kg: 2.5, set_by: "pull of D1.1" } };
  const said = (more, wanted, desk = { fresh: true, room }) => against(registry, { ...made(more), desk }, made(more).get("D1"), { x: null, kg: null, ...wanted });
  assert.deepEqual(said({}, { x: 900 }), []);
  assert.deepEqual(said({}, { x: 900, kg: 6 }), []);
  assert.deepEqual(said({}, { kg: 8.5 }), []);
  assert.match(said({}, { kg: 8.6 })[0], /at most 8.5 kg with all on it: pull of D1.1/);
  assert.deepEqual(said({ mass_loaded_kg: 5.26 }, { kg: 7.76 }), []);
  assert.match(said({ mass_loaded_kg: 5.26 }, { kg: 7.8 })[0], /at most 7.76 kg/); // a tenth would be more than was calculated
  assert.match(said({}, { x: 900, kg: 7 })[0], /at once are calculated at the desk/);
  assert.match(said({}, { x: 1150 })[0], /x 700 to 1100 mm or x 1500 to 1600 mm: pull/);
  assert.deepEqual(said({ x_mm: 800.1, moves_mm: 299.9 }, { x: 1100 }), []); // to the edge of its room, whatever the sum
  assert.deepEqual(movedBy(made({}), made({ x_mm: 100.1 }).get("D1"), 200.2)[0].values.x_mm, 300.3);
  for (const desk of [null, { fresh: false, room }, { fresh: true, room: {} }]) {
    assert.deepEqual(said({}, { kg: 6 }, desk), []);
    assert.match(said({}, { kg: 6.5 }, desk)[0], /calculated with 6 kg/);
    assert.match(said({}, { x: 900 }, desk)[0], /calculated at the desk/);
  }
  assert.match(said({ mass_loaded_kg: null }, { kg: 1 })[0], /not entered/);
  assert.match(said({}, { x: 650 }).join(), /by 300 mm/);
  assert.match(said({ moves_mm: null }, { x: 990 })[0], /not made to be moved/);
  assert.match(said({}, { x: 1250 }).join(), /over D2/);
  assert.match(said({ moves_mm: 5000 }, { x: -200 }).join(), /beyond the edge of North/);
});

test("what hangs on a thing goes where it goes, and nothing else does", () => {
  const site = siteOf([["D1", {}], ["D2", { hangs_on: "D1", x_mm: 1100 }], ["D3", { x_mm: 2000 }], ["D4", { covers: ["D1"] }]], [["D3", "D2", "fitted"]]);
  const moved = movedBy(site, site.get("D1"), 50).map(({ id, values }) => [id, values.x_mm]);
  assert.deepEqual(moved.filter(([id]) => id.startsWith("D")), [["D1", 1050], ["D2", 1150], ["D3", 2050]]);
});

/** What the phone has to do exactly as the desk does: the cases come from the desk's own code, made anew each time. */

import assert from "node:assert/strict";
import { test } from "node:test";

import { worst } from "../../static/checks/verdict.js";
import { Refusal } from "../../static/checks/refusal.js";
import { appraise, consentOf } from "../../static/phone/book/appraisal.js";
import { answer } from "../../static/phone/book/here.js";
import { gather, stands } from "../../static/phone/book/site.js";
import { accept, acceptChange } from "../../static/phone/book/fields.js";
import { inPresentWords, readyToGo } from "../../static/phone/book/versions.js";
import { fieldOf, registryOf } from "../../static/phone/book/registry.js";
import { findings } from "../../static/phone/book/rules.js";
import { fromText, toText } from "../../static/phone/book/typed.js";
import { apply, emptyState, laidOver } from "../../static/phone/projection.js";
import { printedBy } from "./python.js";

const cases = printedBy("-m", "tests.cases.mirrored");
const registry = registryOf(cases.registry);

function outcome(reckon) {
  try {
    return { stored: reckon() };
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    return { refused: [error.code, error.field] };
  }
}

for (const { kind, field: plain, values, texts } of cases.fields) {
  const field = fieldOf(plain);
  if (values.length) {
    test(`a value for a field like ${kind} ${field.name} is stored or refused as at the desk`, () => {
      for (const [value, expected] of values) {
        assert.deepEqual(outcome(() => accept(field, value)), expected, `value ${JSON.stringify(value)?.slice(0, 80)}`);
      }
    });
    test(`a text typed for a field like ${kind} ${field.name} means what it means at the desk`, () => {
      for (const [text, expected] of texts) {
        assert.deepEqual(outcome(() => accept(field, fromText(field, text))), expected, `text ${JSON.stringify(text)}`);
      }
    });
  }
}

test("what an input shows for a stored value is read back the same", () => {
  for (const { field: plain, values } of cases.fields) {
    const field = fieldOf(plain);
    if (["choices", "links"].includes(field.type)) continue; // boxes to tick, without a text
    for (const [, { stored = null }] of values) {
      if (stored === null) continue;
      assert.deepEqual(accept(field, fromText(field, toText(field, stored))), stored);
    }
  }
});

for (const [place, { kind, values, findings: expected }] of cases.items.entries()) {
  test(`item ${place}, a ${kind}, is found fault with as at the desk`, () => {
    const find = (id) => cases.things[id] && { kind: cases.things[id][0], values: cases.things[id][1] };
    const found = findings(registry, { kind, id: "00000000-0000-0000-0000-000000000009", values }, find);
    assert.deepEqual(found.map(({ code, field }) => [code, field]), expected);
  });
}

for (const [place, { kind, before, values, findings: expected }] of cases.changes.entries()) {
  test(`change ${place} of a ${kind} that broke a rule before is found fault with as at the desk`, () => {
    const find = (id) => cases.things[id] && { kind: cases.things[id][0], values: cases.things[id][1] };
    const found = findings(registry, { kind, id: "00000000-0000-0000-0000-000000000009", values }, find, before);
    assert.deepEqual(found.map(({ code, field }) => [code, field]), expected);
  });
}

for (const [place, { set, values, unknown }] of cases.versions.entries()) {
  test(`entry ${place} of another version means what it means at the desk`, () => {
    const aged = registryOf({ kinds: [cases.aged] });
    const said = inPresentWords(aged, { kind: "sample", item: "a", set });
    assert.deepEqual({ values: said.set, unknown: said.unknown }, { values, unknown });
  });
}

for (const { kind, set, values } of cases.former) {
  test(`a former word means what it means at the desk: ${kind} ${JSON.stringify(set)}`, () => {
    const said = inPresentWords(registry, { kind, item: "a", set });
    assert.deepEqual({ values: said.set, unknown: said.unknown }, { values, unknown: {} });
  });
}

test("what a newer version made stays in the outbox, with all that was entered about the same item after it", () => {
  const entry = (item, set, kind = "room") => ({ entry: { kind, item, set } });
  const outbox = [entry("a", { use: "store" }), entry("b", { smell: "tar" }), entry("b", { use: "store" }), entry("c", {}, "flight"), entry("a", { mark: "R1" })];
  assert.deepEqual(readyToGo(registry, outbox), [outbox[0], outbox[4]]);
});

test("what was not asked for when an item was made may stay empty, and cannot be emptied", () => {
  const name = registry.kinds.get("room").byName.get("name");
  assert.equal(acceptChange(name, " ", { name: null }), null);
  assert.deepEqual(outcome(() => acceptChange(name, "", { name: "Loft" })), { refused: ["missing", "name"] });
  assert.deepEqual(outcome(() => acceptChange(name, "", null)), { refused: ["missing", "name"] });
});

for (const [place, { entries, state: expected }] of cases.sequences.entries()) {
  test(`sequence ${place} of entries comes to the same tables as at the desk`, () => {
    const state = emptyState();
    for (const entry of entries) apply(state, entry.revision, entry);
    assert.deepEqual(plainOf(state), expected);
  });
}

function plainOf({ items, conflicts }) {
  const known = (values) => Object.fromEntries(Object.entries(values).filter(([, value]) => value !== null));
  const plain = ({ kind, revision, withdrawn, values }) => ({ kind, revision, withdrawn: Number(withdrawn), values: known(values) });
  const order = ({ item, field, earlier, later }) => [item, field, String(earlier).padStart(9), String(later).padStart(9)].join();
  return {
    items: Object.fromEntries([...items].map(([id, item]) => [id, plain(item)])),
    conflicts: [...conflicts].sort((one, other) => (order(one) < order(other) ? -1 : 1)),
  };
}

test("entries laid over a state leave the state as it was", () => {
  const { entries } = cases.sequences[0];
  const state = emptyState();
  for (const entry of entries.slice(0, 2)) apply(state, entry.revision, entry);
  const before = JSON.stringify(plainOf(state));
  const items = laidOver(state, entries.slice(2));
  assert.equal(JSON.stringify(plainOf(state)), before);
  const shown = Object.fromEntries([...items].map(([id, { values }]) => [id, values]));
  for (const [id, { values }] of Object.entries(cases.sequences[0].state.items)) {
    for (const [name, value] of Object.entries(values)) assert.deepEqual(shown[id][name], value);
  }
});

for (const [place, { beyond, items, then, findings: expected, answers }] of cases.scenes.entries()) {
  const all = new Map(items.map((item) => [item.id, { ...item, withdrawn: false }]));
  const site = gather(registry, all, items[0].id, beyond, null, (ruling, thing) => then[`${ruling.id} ${thing.id}`] ?? null);
  const face = site.get(items.find(({ kind }) => kind === "face").id);

  test(`scene ${place} is found fault with at the wall as at the desk, word for word`, () => {
    const things = [...site.fixingsOn(face), ...site.of(face, "fitting")].filter(stands);
    const agreed = things.map((one) => consentOf(registry, site, one, "2026-06-01"));
    const found = [...appraise(registry, site, face, "2026-06-01"), ...agreed].map(({ subject, against, verdict }) => {
      const { figure, limit, margin, word, sentence, missing, working } = verdict;
      return [subject.id, against?.id ?? null, figure, limit, margin, word, sentence, missing, working];
    });
    const order = (one, other) => (JSON.stringify(one) < JSON.stringify(other) ? -1 : 1);
    assert.deepEqual(found.sort(order), [...expected].sort(order));
  });

  test(`points of scene ${place} are answered at the wall as at the desk`, () => {
    for (const [x, z, radius, depth, desk] of answers) {
      const said = answer(registry, site, face, [x, z], { radius, depth, today: "2026-06-01" });
      for (const { act, answer: found, why, nearest } of said.acts) {
        assert.deepEqual({ answer: found, why, nearest_mm: nearest }, desk[act], `${act} at ${x} ${z}`);
      }
      const limited = said.limitedBy && { id: said.limitedBy.id, name: said.limitedBy.name };
      assert.deepEqual([said.clear, limited, said.deep], [desk.clear_mm, desk.limited_by, desk.depth_mm]);
    }
  });
}

test("the worst of some words is the first from over to within", () => {
  assert.equal(worst(["within", "close", "not known"]), "not known");
  assert.equal(worst([]), null);
});

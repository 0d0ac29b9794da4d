/** What desk and phone both say, on the phone: the files of tests/cases, which pytest runs at the desk. */

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";

import { appraise } from "../../static/phone/book/appraisal.js";
import { linesOf } from "../../static/phone/book/booking.js";
import { usualRadius } from "../../static/phone/book/asked_here.js";
import { answer } from "../../static/phone/book/here.js";
import { hazardsIn } from "../../static/phone/book/named.js";
import { byCounting } from "../../static/phone/book/order.js";
import { registryOf } from "../../static/phone/book/registry.js";
import { sameMarkWarning } from "../../static/phone/book/same_mark.js";
import { gather } from "../../static/phone/book/site.js";
import { countOf, dayOf, figureOf, joined, keptTogether, momentInWords, span } from "../../static/phone/book/wording.js";
import { groupsOf } from "../../static/phone/forms/options.js";
import { presets } from "../../static/phone/forms/presets.js";
import { wordsBefore } from "../../static/phone/forms/words_before.js";
import { wordsBeside } from "../../static/phone/drawing/labels.js";
import { printedBy } from "./python.js";

const PRINT = "import json; from fieldbook.web.app.kinds_for_phones import registry; print(json.dumps(registry()))";
const registry = registryOf(printedBy("-c", PRINT));
const items = itemsOf(cases("site"));
const site = gather(registry, items, items.keys().next().value);
const FACE = "00000000-0000-7000-8000-000000000004";
const CASE = "00000000-0000-7000-8000-000000000013";

function itemsOf(listed) {
  return new Map(listed.map((item) => [item.id, { ...item, withdrawn: false }]));
}

function cases(name) {
  return JSON.parse(readFileSync(new URL(`../cases/${name}.json`, import.meta.url), "utf-8"));
}

for (const { name, hazards } of cases("hazards_named")) {
  test(`hazards in a name are found as at the desk: ${name}`, () => assert.deepEqual(hazardsIn(name), hazards));
}

for (const { what, sorted } of cases("order")) {
  test(`marks stand as people count: ${what}`, () => {
    assert.deepEqual([...sorted].reverse().sort(byCounting), sorted);
    assert.deepEqual([...sorted.slice(1), sorted[0]].sort(byCounting), sorted);
  });
}

test("only the same mark stands in the same place", () => {
  for (const [one, other] of [["D2", "d2"], ["D2", "D02"], ["A", "Ä"], ["D4.2", "D4-2"]]) {
    assert.notEqual(byCounting(one, other), 0);
    assert.equal(Math.sign(byCounting(one, other)), -Math.sign(byCounting(other, one)));
  }
});

const SAID = { days: dayOf, moments: momentInWords, counts: countOf, figures: figureOf, lists: joined, spans: span, sentences: keptTogether };

for (const [what, listed] of Object.entries(cases("wording"))) {
  test(`${what} are said as at the desk`, () => {
    for (const given of listed) {
      const words = given.pop();
      assert.equal(SAID[what](...given.map((value) => (what === "counts" && value === null ? undefined : value))), words);
    }
  });
}

test("the booking of a face is that of the desk", () => {
  const lines = linesOf(registry, site, site.get(FACE)).map(({ item, xTo, zTo, foundFirst, ...line }) => ({
    ...line,
    item: item.id,
    x_to: xTo,
    z_to: zTo,
    found_first: foundFirst,
  }));
  assert.deepEqual(lines, cases("booking"));
});

test("words for a place that was not measured anew are booked as at the desk", () => {
  for (const place of registry.kinds.get("fixing").byName.get("fitted_place").choices) {
    const values = { ...site.all("fixing").find(({ values: { state } }) => state === "planned").values, state: "fitted", fitted_place: place };
    const one = { ...site, fixingsOn: () => [{ id: "x", kind: "fixing", values }] };
    assert.equal(linesOf(registry, one, site.get(FACE)).find(({ item }) => item.id === "x").found, `fitted; place ${place}`);
  }
});

for (const { what, word, missing, sentence, ...size } of cases("in_metres")) {
  test(`metres typed for millimetres are asked about as at the desk: ${what}`, () => {
    const own = items.get(CASE);
    const resized = gather(registry, new Map(items).set(CASE, { ...own, values: { ...own.values, ...size } }), site.item.id);
    const found = appraise(registry, resized, resized.get(FACE), "2026-06-01");
    const { verdict } = found.find(({ subject, verdict: { check } }) => subject.id === CASE && check === "place");
    assert.deepEqual([verdict.word, verdict.missing, verdict.sentence], [word, missing, sentence]);
  });
}

test("labels on drawings are those of the desk", () => {
  for (const { item, label } of cases("labels")) assert.equal(wordsBeside(registry, site.get(item)), label);
});

for (const { what, kind: name, address, expect } of cases("presets")) {
  test(`a new form shows what it does at the desk: ${what}`, () => {
    const kind = registry.kinds.get(name);
    const found = presets({ registry, notebook: { site, items } }, kind, new URLSearchParams(address));
    const words = { date: "today", moment: "now" };
    const filled = Object.entries(found).filter(([, value]) => value !== null);
    assert.deepEqual(Object.fromEntries(filled.map(([field, value]) => [field, words[kind.byName.get(field).type] ?? value])), expect);
  });
}

for (const { what, kind, field, chosen, photograph, expect } of cases("options")) {
  test(`a link offers what it does at the desk: ${what}`, () => {
    const groups = groupsOf(registry, site, registry.kinds.get(kind).byName.get(field), chosen, photograph);
    assert.deepEqual(groups.map(({ heading }) => heading), Object.keys(expect));
    assert.deepEqual(Object.fromEntries(groups.map(({ heading, pairs }) => [heading, pairs])), expect);
  });
}

for (const { what, kind: name, field, expect } of cases("words_before")) {
  test(`words are offered again as at the desk: ${what}`, () => {
    const kind = registry.kinds.get(name);
    assert.deepEqual(wordsBefore(registry, kind, kind.byName.get(field), site), expect);
  });
}

test("a link to anything offers no photograph and no cost", () => {
  const headings = groupsOf(registry, site, registry.kinds.get("agreement").byName.get("items"), []).map(({ heading }) => heading);
  assert.ok(headings.includes("Fixings") && headings.includes("Sites"));
  for (const plural of ["Photographs", "Costs"]) assert.ok(!headings.includes(plural));
});

for (const { what, kind, mark, item, warning } of cases("same_mark")) {
  test(`a mark is warned of as at the desk: ${what}`, () => {
    assert.equal(sameMarkWarning(registry, site, registry.kinds.get(kind), mark, item), warning);
  });
}

test("things that share mark and name never answer for each other", () => {
  const alike = cases("alike");
  const both = gather(registry, itemsOf(alike.items), alike.items[0].id);
  const face = both.get(alike.face);
  const found = appraise(registry, both, face, "2026-06-01");
  for (const [check, wanted] of [["clearance", alike.clearance], ["keep-off", alike.keep_off]]) {
    const told = found.filter(({ verdict, against }) => verdict.check === check && against);
    assert.equal(told.length, wanted.length);
    for (const { subject, against, word, limit } of wanted) {
      const { verdict } = told.find((one) => one.subject.id === subject && one.against?.id === against);
      assert.equal(verdict.word, word);
      if (limit !== undefined) assert.equal(verdict.limit, limit);
    }
  }
  for (const { x, z, contact, zone, clear, limited_by: limitedBy } of alike.answers) {
    const said = answer(registry, both, face, [x, z], { radius: 0, today: "2026-06-01" });
    const act = said.acts.find((one) => one.act === "contact");
    assert.deepEqual([act.answer, act.against?.id ?? null, said.clear, said.limitedBy?.id ?? null], [contact, zone, clear, limitedBy]);
  }
});

test("nothing is agreed to for what has no size", () => {
  const given = { site: site.item.id, reference: "A9", items: [FACE], answer: "yes", words: "Touch it.", acts: ["contact"], said_by: "caretaker", on: "2026-05-01" };
  const agreed = gather(registry, new Map([...items, ["a9", { id: "a9", kind: "agreement", values: given, withdrawn: false }]]), site.item.id);
  const contact = (radius) => answer(registry, agreed, agreed.get(FACE), [4500, 2800], { radius, today: "2026-06-01" }).acts.find(({ act }) => act === "contact").answer;
  assert.equal(contact(5), "agreed");
  assert.equal(contact(null), "not known");
});

test("what a touch may be out by is asked about too", () => {
  const asked = { radius: 5, today: "2026-06-01" };
  const wide = answer(registry, site, site.get(FACE), [2600, 1000], { radius: 45, today: "2026-06-01" });
  assert.deepEqual(answer(registry, site, site.get(FACE), [2600, 1000], { ...asked, missed: 40 }), wide);
  assert.equal(usualRadius(site, site.get(FACE)), Math.max(...site.fixingsOn(site.get(FACE)).map(({ values }) => values.contact_radius_mm)));
});

/** What the day's work on the phone rests on: which fixing is next, which mark, what a key does, what undoing sets. */

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";

import { lastLike, nextMark, nextNumber } from "../../static/phone/book/next_mark.js";
import { nextToSetOut, toSetOut } from "../../static/phone/book/setting_out.js";
import { takenFor } from "../../static/phone/book/order.js";
import { supposing } from "../../static/phone/book/supposing.js";
import { goesWith, takenBack, undoneInWords } from "../../static/phone/book/undoing.js";
import { found } from "../../static/phone/pages/search.js";
import { meanwhile } from "../../static/phone/forms/meanwhile.js";
import { stepped } from "../../static/phone/forms/number_pad.js";

const FACE = { id: "f", kind: "face", values: {} };

function fixing(id, fitting, x, state = "planned", mark = id) {
  return { id, kind: "fixing", values: { face: "f", fitting, mark, x_mm: x, z_mm: 0, state } };
}

function siteWith(...fixings) {
  const fittings = [{ id: "D1", kind: "fitting", values: { mark: "D1" } }, { id: "D2", kind: "fitting", values: { mark: "D2" } }];
  return {
    all: (kind) => (kind === "fitting" ? fittings : fixings),
    get: (id) => fittings.find((one) => one.id === id),
    of: (parent) => fixings.filter(({ values }) => values.fitting === parent.id),
    fixingsOn: () => fixings,
  };
}

test("fixings are set out fitting by fitting, and along each from the datum", () => {
  const site = siteWith(fixing("a", "D2", 10), fixing("b", "D1", 300), fixing("c", "D1", 20), fixing("d", "D1", 100, "fitted"));
  assert.deepEqual(toSetOut(site, FACE).map(({ id }) => id), ["c", "b", "a"]);
  assert.equal(nextToSetOut(site, FACE).id, "c");
});

test("after one that is fitted comes the next along, and after the last the first that is left", () => {
  const [a, b, c] = [fixing("a", "D1", 10), fixing("b", "D1", 20, "fitted"), fixing("c", "D1", 30)];
  assert.equal(nextToSetOut(siteWith(a, b, c), FACE, b).id, "c");
  assert.equal(nextToSetOut(siteWith(a, b, c), FACE, c).id, "a");
  assert.equal(nextToSetOut(siteWith(b), FACE, b), undefined);
});

const KIND = { name: "fixing", numbered_by: "mark" };

for (const { what, kind, fitting, marks, more, next } of JSON.parse(readFileSync(new URL("../cases/next_mark.json", import.meta.url), "utf-8"))) {
  test(`a mark goes on counting: ${what}`, () => {
    const site = siteWith(...marks.map((mark, at) => fixing(String(at), "D1", at, "planned", mark)));
    const mark = { required: kind === "agreement", help: "short: A2" };
    assert.equal(nextMark(/** @type {any} */ ({ name: kind, numbered_by: kind === "task" ? "" : "mark", byName: new Map([["mark", mark]]) }), site, { fitting }, more), next);
  });
}

test("what is being entered has the mark that is typed, and not the one it had", () => {
  const [a, b] = [fixing("a", "D1", 10, "planned", "D1.1"), fixing("b", "D1", 20, "planned", "D1.2")];
  const site = { ...siteWith(a, b), marked: (_, taken) => [a, b].filter(({ values }) => takenFor(values.mark) === taken) };
  const registry = { kinds: new Map([["fixing", { numbered_by: "mark", parent: "fitting" }]]) };
  const typed = supposing(/** @type {any} */ (registry), /** @type {any} */ (site), { ...b, values: { ...b.values, mark: "d1-1" } });
  const called = (mark) => typed.marked("fixing", takenFor(mark)).map(({ id }) => id);
  assert.deepEqual(called("D1.1"), ["a", "b"]);
  assert.deepEqual(called("D1.2"), []);
});

test("a mark on a photograph is numbered one higher than the highest there", () => {
  const site = { get: (id) => (id === "p" ? { id } : undefined), of: () => [1, 7, 3].map((number) => ({ values: { number } })) };
  assert.equal(nextNumber(site, "p"), 8);
  assert.equal(nextNumber({ ...site, of: () => [] }, "p"), 1);
  assert.equal(nextNumber(site, undefined), 1);
});

test("the last one is that which was made last on the same face", () => {
  const elsewhere = { ...fixing("z", "D1", 1), values: { face: "other" } };
  assert.equal(lastLike(KIND, siteWith(fixing("a", "D1", 9), fixing("b", "D1", 1), elsewhere), { face: "f" }).id, "b");
  assert.equal(lastLike(KIND, siteWith(), { face: "f" }), null);
});

test("a key steps by one, from nothing as from a figure", () => {
  for (const [text, by, told] of [["", 1, "1"], ["1400", -1, "1399"], ["−3", 1, "-2"], ["0", -1, "-1"], ["2.5", 1, "3.5"], ["x", 1, "x"]]) {
    assert.equal(stepped(text, by), told);
  }
});

const first = { id: 1, kind: "fixing", item: "i", set: { state: "planned", note: "old" } };
const tick = { id: 2, kind: "fixing", item: "i", set: { state: "fitted", fitted_on: "2026-05-03", note: "new" } };

test("taking back sets what was set as it stood before", () => {
  const change = takenBack([first, tick], tick, { values: { state: "fitted", fitted_on: "2026-05-03", note: "new" } });
  assert.deepEqual(change, { kind: "fixing", item: "i", set: { state: "planned", fitted_on: null, note: "old" } });
});

test("taking back leaves alone what was changed again since, and says so when all was", () => {
  assert.deepEqual(takenBack([first, tick], tick, { values: { state: "fitted", fitted_on: "2026-05-03", note: "newer" } }).set, { state: "planned", fitted_on: null });
  assert.equal(takenBack([first, tick], tick, { values: { state: "taken down", fitted_on: "2026-06-01", note: "newer" } }), null);
});

test("what of an entry was not taken back is named", () => {
  const kinds = new Map([["fixing", { byAnyName: new Map([["state", { label: "State" }], ["fitted_on", { label: "Fitted on" }], ["note", { label: "Note" }]]) }]]);
  const undone = (values) => undoneInWords({ kinds }, tick, takenBack([first, tick], tick, { values }));
  assert.equal(undone(tick.set), "Undone.");
  assert.equal(undone({ ...tick.set, note: "newer", fitted_on: "2026-05-04" }), "Undone, but for what was changed again since: Fitted on and Note.");
});

test("taking back what made an item withdraws it, and a withdrawal brings it back", () => {
  assert.deepEqual(takenBack([first], first, { values: first.set }), { kind: "fixing", item: "i", withdraw: true });
  const gone = { id: 3, kind: "fixing", item: "i", withdraw: true };
  assert.deepEqual(takenBack([first, gone], gone, { values: first.set, withdrawn: true }), { kind: "fixing", item: "i", withdraw: false });
  assert.equal(takenBack([first, gone], gone, { values: first.set, withdrawn: false }), null);
});

test("a form takes over what others changed meanwhile, but for what was typed in it", () => {
  const fields = /** @type {any[]} */ (["name", "note", "size"].map((name) => ({ name, type: "text" })));
  const was = { name: "Rail", note: "old", size: "4" };
  const found = meanwhile(fields, { name: "Rail", note: "mine", size: "5" }, was, { name: "Long rail", note: "theirs", size: "5" });
  assert.deepEqual(found, { typed: { name: "Long rail", note: "mine", size: "5" }, taken: ["name"], both: ["note"] });
});

test("what goes out of sight with a thing that is withdrawn is named, and what others entered of it", () => {
  const kinds = new Map(/** @type {any[]} */ ([
    { name: "face", label: "Face", parent: "room", byAnyName: new Map() },
    { name: "fitting", label: "Fitting", parent: "face", byAnyName: new Map([["mass", { label: "Mass" }]]) },
    { name: "fixing", label: "Fixing", parent: "fitting", byAnyName: new Map() },
  ]).map((kind) => [kind.name, kind]));
  const fitting = { id: "d", kind: "fitting", values: { face: "f", mark: "D1" } };
  const fixings = Array.from({ length: 7 }, (_, at) => ({ id: `x${at}`, kind: "fixing", withdrawn: at === 6, values: { fitting: "d", mark: `D1.${at + 1}` } }));
  const items = new Map([fitting, ...fixings].map((one) => [one.id, one]));
  const histories = { d: [{ device: "own", set: { face: "f" } }, { device: "desk", set: { mass: 4 } }] };
  const notebook = { items, facts: { device: "own" }, historyOf: (id) => histories[id] ?? [] };
  const words = (item) => goesWith(/** @type {any} */ ({ registry: { kinds }, notebook }), item);
  assert.equal(words(fitting).replaceAll("\u00a0", " "), "With it goes what was entered in it: fixing D1.1, fixing D1.2, fixing D1.3, fixing D1.4, fixing D1.5 and 1 other. Others have entered of it: Mass.");
  assert.equal(words(fixings[0]), "");
});

test("a phone's lean is that of the face behind it: upright, overhead, a floor, and a little of each", async () => {
  const { leanOf } = await import("../../static/phone/tilt.js");
  for (const [beta, gamma, lean] of [[90, 0, 0], [180, 0, 90], [0, 0, -90], [93, 0, 3], [87, 0, -3], [90, 45, 0], [0, 90, 0], [120, 0, 30]]) {
    assert.ok(Math.abs(leanOf(beta, gamma) - lean) < 1e-9, `${beta} ${gamma}`);
  }
});

test("a search finds things before the many readings of them, and those called so first", () => {
  const one = (kind, called, words = called) => ({ item: { kind }, called, words });
  const all = [one("reading", "level"), one("reading", "level n"), one("photograph", "the niche"), one("fitting", "d2", "d2 case in the niche"), one("zone", "niche")];
  assert.deepEqual(found(all, "n").map(({ called }) => called), ["niche", "d2", "level n", "the niche"]);
  assert.deepEqual(found(all, "level").map(({ called }) => called), ["level", "level n"]);
  assert.deepEqual(found(all, " "), []);
});

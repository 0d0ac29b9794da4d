/** A photograph that measures, as the phone asks it and draws over it. */

import assert from "node:assert/strict";
import { test } from "node:test";

import { asked, faceOf, planeTyped, recordedOn, saidOf, wholePlace } from "../../static/phone/book/in_picture.js";
import { gather } from "../../static/phone/book/site.js";
import { registryOf } from "../../static/phone/book/registry.js";
import { printedBy } from "./python.js";

const PRINT = "import json; from fieldbook.web.app.kinds_for_phones import registry; print(json.dumps(registry()))";
const registry = registryOf(printedBy("-c", PRINT));
const SIZE = { width: 1600, height: 1200 };
// A tenth of a pixel is a millimetre here, and the face's datum stands in the middle of the picture.
const MARKS = [[700, 700, -1000, -1000, null], [900, 700, 1000, -1000, null], [900, 500, 1000, 1000, null], [700, 500, -1000, 1000, null]];
const plane = (marks = MARKS, px = null) => planeTyped(registry, marks, px);

test("a touch is told in whole millimetres, and nothing is minus nought", () => {
  const { words } = asked(plane().plane, [799.98, 600.02], SIZE);
  assert.match(words, /^x 0, z 0 mm; within \d+(\.\d)? mm in 95 cases of 100\.$/);
  const { place, within } = wholePlace(plane().plane, [850, 550]);
  assert.deepEqual([place, Number.isInteger(within)], [[500, 500], true]);
});

test("where the marks make no plane, or the picture shows no face, there is no place", () => {
  const fewer = plane(MARKS.slice(1));
  assert.equal(fewer.refusal?.code, "missing");
  assert.equal(wholePlace(fewer.plane, [800, 600]), null);
  assert.equal(wholePlace(plane().plane, undefined), null);
  const far = plane([[700, 700, 0, 0, null], [900, 700, 2000, 0, null], [820, 500, 2000, 9000, null], [780, 500, 0, 9000, null]]).plane;
  assert.equal(wholePlace(far, [800, -4000]), null);
  assert.match(saidOf(plane().plane), /^Four marks always fit/);
});

for (const [what, marks, px, words] of /** @type {any[]} */ ([
  ["a word for a figure", [["here", ...MARKS[0].slice(1)], ...MARKS.slice(1)], null, "Marks, row 1: across is “here”"],
  ["a figure that can be read two ways", [[700, 700, "1.430", 0, null], ...MARKS.slice(1)], null, "Write 1430, or 1.43."],
  ["marks good to nothing", MARKS, 0, "is 0 px; it can be from 0.1 to 100 px"],
])) {
  test(`${what} is told as in any form`, () => {
    const { refusal } = plane(marks, px);
    assert.ok(refusal.message.includes(words), refusal.message);
  });
}

test("what was taken down is not drawn over a photograph, and one of a room shows no face by itself", () => {
  const item = (id, kind, values) => [id, { id, kind, values, withdrawn: false }];
  const part = { x_mm: 0, z_mm: 0, width_mm: 10, height_mm: 10, face: "face" };
  const all = new Map(/** @type {any} */ ([
    item("site", "site", { name: "Shed" }),
    item("room", "room", { site: "site", name: "Loft" }),
    item("face", "face", { room: "room", mark: "N" }),
    item("up", "fitting", { ...part, mark: "F1", state: "fitted" }),
    item("gone", "fitting", { ...part, mark: "F2", state: "taken down" }),
    item("screw", "fixing", { face: "face", fitting: "up", mark: "F1.1", state: "planned", x_mm: 1, z_mm: 2 }),
    item("out", "fixing", { face: "face", fitting: "gone", mark: "F2.1", state: "taken down", x_mm: 1, z_mm: 2 }),
    item("picture", "photograph", { site: "site", subject: "room", purpose: "as found" }),
  ]));
  const site = gather(registry, all, "site");
  const { outlines, places } = recordedOn(registry, site, site.get("face"));
  assert.deepEqual([outlines, places].map((drawn) => drawn.map(({ words }) => words)), [["F1"], ["F1.1"]]);
  assert.equal(faceOf(site, site.get("picture")), null);
});

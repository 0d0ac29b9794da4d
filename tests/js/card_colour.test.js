/** Colours from photographs, on the phone's side; tests/checks/test_card_colour.py runs the same file. */

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";

import { colourOf, correctionOf, seenIn } from "../../static/checks/card_colour.js";
import { inWords, measuredAgain, readCard } from "../../static/phone/book/card_in_picture.js";
import { registryOf } from "../../static/phone/book/registry.js";
import { printedBy } from "./python.js";

const PRINT = "import json; from fieldbook.web.app.kinds_for_phones import registry; print(json.dumps(registry()))";
const CARD = registryOf(printedBy("-c", PRINT)).kinds.get("photograph").byName.get("card_patches");

const { cases } = JSON.parse(readFileSync(new URL("../cases/card_colour.json", import.meta.url), "utf-8"));
const pixelsOf = (runs) => runs.flatMap(([red, green, blue, count]) => Array.from({ length: count }, () => [red, green, blue]));
const answered = ({ card, finish }) => colourOf(correctionOf(card.map(({ pixels, lab }) => ({ seen: seenIn(pixelsOf(pixels)), lab }))), seenIn(pixelsOf(finish)));
const near = (found, expected, tolerance) => assert.ok(Math.abs(found - expected) <= tolerance, `${found}, not ${expected}`);

for (const [number, one] of cases.entries()) {
  test(`case ${number} of a colour from a photograph is answered as at the desk`, () => {
    if (one.refused) return assert.throws(() => answered(one), one.refused);
    const { lab, within } = answered(one);
    lab.forEach((part, at) => near(part, one.lab[at], one.tolerance));
    return near(within, one.within, one.tolerance);
  });
}

const LEVELS = [[145, 130, 112], [150, 109, 74], [254, 120, 90]]; // of tests/sites.py, `carded`, and a clipped one

/** A picture of 300 by 100 in three squares: a grey of L* 70, a finish, and one that is clipped. */
function picture() {
  const data = new Uint8ClampedArray(4 * 300 * 100);
  for (let at = 0; at < 300 * 100; at += 1) data.set([...LEVELS[Math.floor((at % 300) / 100)], 255], 4 * at);
  return { data, width: 300, height: 100 };
}

const GREY = [100, 100, 40, 70, 0, 0];
const FINISH = [300, 100, 40];
const read = (rows, place = FINISH, pixels = picture()) => readCard(CARD, pixels, 600, rows, place); // from a copy of half the size

test("the finish beside a grey has its colour, from a copy of half the size, with how it was got", () => {
  const { found, lacks } = read([GREY]);
  assert.deepEqual(lacks, [""]);
  assert.match(inWords(found, 1), /^L\* 6[12]\.\d, a\* \d+\.\d, b\* \d+\.\d, to about 3\.\d \(CIEDE2000\), from 1 known patch\.$/);
  const entered = measuredAgain({ sha256: "ab".repeat(32), taken_at: "2028-02-29T09:00:00+00:00" }, "f", found, 1);
  assert.deepEqual([entered.finish, entered.on, entered.lab_white, entered.instrument], ["f", "2028-02-29", "D65", "photograph with a grey beside it"]);
  assert.match(entered.note, /Photograph abababab; an instrument goes before\.$/);
});

for (const [what, rows, place, code, words] of /** @type {any[]} */ ([
  ["no card", [], FINISH, "missing", "No patch of a card"],
  ["a card whose colour is not typed", [[100, 100, 40, 70, null, 0]], FINISH, "missing", "known colour of patch 1"],
  ["a colour in words", [[100, 100, 40, "light", 0, 0]], FINISH, "not-a-number", "Colour card, row 1: L* is “light”"],
  ["no finish", [GREY], [null, null, null], "missing", "finish is not marked"],
  ["a card outside the frame", [[10, 100, 40, 70, 0, 0]], FINISH, "out-of-range", "Patch 1 of the card: It reaches beyond"],
  ["a finish outside the frame", [GREY], [300, 900, 40], "out-of-range", "reaches beyond"],
  ["a square in words", [["here", 100, 40, 70, 0, 0]], FINISH, "not-a-number", "across"],
  ["a square of nothing", [[100, 100, 1, 70, 0, 0]], FINISH, "missing", "Patch 1 of the card: The patch has"],
  ["a square turned inside out", [[100, 100, -40, 70, 0, 0]], FINISH, "out-of-range", "Colour card, row 1: reach is -40 px"],
  ["a lightness that cannot be", [[100, 100, 40, 120, 0, 0]], FINISH, "out-of-range", "Colour card, row 1: L* is 120; it can be from 0 to 100"],
  ["a clipped patch", [[500, 100, 40, 70, 0, 0]], FINISH, "out-of-range", "Patch 1 of the card: The patch is clipped"],
  ["a coloured patch alone", [[300, 100, 40, 62, 8, 20]], FINISH, "unsuitable-shape", "Mark greys alone"],
])) {
  test(`${what} is told in words`, () => {
    const { refusal } = read(rows, place);
    assert.equal(refusal.code, code);
    assert.ok(refusal.message.includes(words), refusal.message);
  });
}

test("a badly lit patch is left out of what is a full card without it, and said to be", () => {
  const greys = [-30, -20, -10, 0, 10, 20].map((aside) => [100 + aside, 100, 20, 70, 0, 0]);
  const clipped = [500, 100, 40, 90, 0, 0];
  const { lacks } = read([...greys, clipped]);
  assert.match(lacks.at(-1), /clipped/);
  assert.match(read([...greys.slice(1), clipped]).refusal.message, /^Patch 6 of the card: The patch is clipped/);
  assert.match(inWords({ matched: { lab: [1, 2, 3], within: 1 }, correction: { patches: 6 } }, 7), /6 known patches \(1 more badly lit, left out\)\.$/);
});

test("a phone without the picture says so", () => {
  assert.match(read([GREY], FINISH, null).refusal.message, /no picture of it/);
});

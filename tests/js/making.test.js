/** What is typed and drawn by hand: figures, tables, and boxes that are dragged. */

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";

import { momentOf, usualMoment } from "../../static/phone/book/moments.js";
import { byName, called } from "../../static/phone/book/build_ups.js";
import { numberFrom, numberIn, twoReadings, typedNumber } from "../../static/phone/book/figures.js";
import { fromText, toText, wholeWord } from "../../static/phone/book/typed.js";
import { draggedTo, setOut } from "../../static/desk/copying.js";
import { gridText } from "../../static/desk/grid.js";
import { isWorthOffering } from "../../static/desk/cell_words.js";
import { figuresOfLine, partsOf, rowsOf } from "../../static/phone/forms/lines.js";
import { blockFrom, carriedOn, rowsFrom } from "../../static/desk/rows.js";
import { figuresOf } from "../../static/desk/sizes.js";
import { figureIn } from "../../static/phone/forms/entering.js";
import { lineOf, partedLine } from "../../static/phone/forms/tables.js";
import { marksIn } from "../../static/phone/forms/by_marks.js";
import { parted } from "../../static/phone/forms/written_together.js";
import { dragOf, shapeFrom } from "../../static/desk/shape.js";

const cases = (name) => JSON.parse(readFileSync(new URL(`../cases/${name}.json`, import.meta.url), "utf-8"));
const BOX = /** @type {const} */ ({ sort: "rectangle", x: 120, z: 1400, width: 640, height: 90 });

test("a box is drawn once, and from then on dragged where it is pressed", () => {
  assert.deepEqual(dragOf(null, { x: 5, z: 40 }, 8)({ x: 25, z: 10 }), { sort: "rectangle", x: 5, z: 10, width: 20, height: 30 });
  assert.deepEqual(dragOf(BOX, { x: 300, z: 1450 }, 8)({ x: 340, z: 1445 }), { ...BOX, x: 160, z: 1395 });
  assert.deepEqual(dragOf(BOX, { x: 300, z: 1450 }, 8)({ x: 300, z: 1450 }), BOX);
});

test("only its corners size it, from the corner opposite", () => {
  assert.deepEqual(dragOf(BOX, { x: 764, z: 1487 }, 8)({ x: 820, z: 1500 }), { ...BOX, width: 700, height: 100 });
  assert.deepEqual(dragOf(BOX, { x: 118, z: 1402 }, 8)({ x: 100, z: 1380 }), { ...BOX, x: 100, z: 1380, width: 660, height: 110 });
  assert.deepEqual(dragOf({ ...BOX, width: 10, height: 10 }, { x: 125, z: 1405 }, 80)({ x: 130, z: 1405 }), { ...BOX, width: 10, height: 10, x: 125 });
});

test("from beside it, it comes to the pointer", () => {
  assert.deepEqual(dragOf(BOX, { x: 20, z: 30 }, 8)({ x: 20, z: 30 }), { ...BOX, x: 20, z: 30 });
});

for (const { text, unit = "", number, ways } of cases("figures")) {
  test(`a number is read as at the desk: ${text} for ${unit}`, () => {
    if (!unit) assert.equal(numberFrom(text), number ?? text);
    assert.equal(numberIn(text, unit), number ?? text);
    assert.deepEqual(twoReadings(text, unit), ways);
  });
}

test("a number that is shown is read back the same", () => {
  for (const value of [1.125, -27.305, 1430.125, 0.125, 640]) assert.equal(numberFrom(typedNumber(value)), value);
});

test("a block from a spreadsheet is rows of cells, and a single cell is none", () => {
  assert.deepEqual(blockFrom("310\t 40\r\n620\t\r\n"), [["310", "40"], ["620", ""]]);
  assert.deepEqual(blockFrom("310\t40"), [["310", "40"]]);
  assert.equal(blockFrom("lime plaster; old"), null);
  assert.deepEqual(rowsFrom("310\t40\n620 80", true), [["310", "40"], ["620", "80"]]);
});

test("a grid is written as it is read: a place along for each column, a dash where nothing was read", () => {
  const text = gridText([["", "200", "1450", ""], ["300", "2", "-1.5", ""], ["1100", "", "4", ""], ["", "", "", ""]]);
  assert.equal(text, "grid 200 1450\n300 2 -1.5\n1100 - 4");
  const columns = ["x", "z", "proud"].map((name) => ({ name, type: "number", unit: "mm" }));
  const field = /** @type {any} */ ({ name: "surface", label: "Surface", type: "rows", columns });
  assert.deepEqual(fromText(field, text), [[200, 300, 2], [1450, 300, -1.5], [1450, 1100, 4]]);
  assert.deepEqual(fromText(field, "grid 20 cm 1.45 m\n300 mm 2 mm -"), [[200, 300, 2]]);
  assert.equal(gridText([["", "", ""], ["300", "2", ""]]), "");
});

test("a ditto mark says what stands above, as at the desk", () => {
  const columns = [{ name: "material", type: "line" }, { name: "thickness_mm", type: "number" }, { name: "age", type: "line" }];
  const field = /** @type {any} */ ({ name: "layers", label: "Layers", type: "rows", columns });
  const rows = [["limewash", 1, "old"], ["lime plaster", 22, "old"], ["lime plaster", 9, "old"]];
  assert.deepEqual(fromText(field, 'limewash; 1; old\nlime plaster; 22; "\n"; 9; ”').map((row) => row.map((cell) => (typeof cell === "string" ? cell.trim() : cell))), rows);
});

test("a semicolon within a cell parts nothing", () => {
  const columns = [{ name: "what", type: "line" }, { name: "age", type: "line" }];
  const field = /** @type {any} */ ({ name: "layers", type: "rows", columns });
  const rows = [["lime plaster; two coats", "old"], ["rubble", "old"]];
  assert.deepEqual(fromText(field, toText(field, rows)), rows);
  assert.deepEqual(rowsFrom(toText(field, rows), false), rows);
});

test("a new row carries on what another takes over and what the last two agree in, and no blank", () => {
  assert.deepEqual(carriedOn(["D1.2", "940", '"', "clamp", ""], ["D1.1", "310", "1525", "clamp", ""], "00000"), ["", "", '"', '"', ""]);
  assert.deepEqual(carriedOn(["D1.1", "310", "M6", ""], [], "0011"), ["", "", '"', ""]);
});

test("a line as it is written parts into words and what follows them", () => {
  const layers = [[], []];
  assert.deepEqual(partsOf("ash upright 32 ±0.5", layers), ["ash upright", "32", "0.5"]);
  assert.deepEqual(partsOf(" cork 4,5 ", layers), ["cork", "4,5"]);
  assert.deepEqual(partsOf("ash upright 32 mm ±0.5 mm", layers), ["ash upright", "32 mm", "0.5 mm"]);
  assert.deepEqual(partsOf("rope 3 m long 12", [[]]), ["rope 3 m long", "12"]);
  assert.equal(partsOf("lime plaster", layers), null);
  assert.equal(partsOf("12", layers), null);
  const parts = [[], [], [], ["along", "either way"]];
  assert.deepEqual(partsOf("stave 870 115 6 along", parts), ["stave", "870", "115", "6", "along"]);
  assert.deepEqual(partsOf("board 900 640 2 either way", parts), ["board", "900", "640", "2", "either way"]);
  assert.deepEqual(partsOf("stave 870 115 6 e", parts), ["stave", "870", "115", "6", "either way"]);
  assert.equal(partsOf("stave 870 115 6 across", parts), null);
});

test("a line of figures parts at its spaces, or at strokes where it could be one figure", () => {
  assert.deepEqual(figuresOfLine(" 640 1210 2,5 "), ["640", "1210", "2,5"]);
  assert.deepEqual(figuresOfLine("915 -4"), ["915", "-4"]);
  assert.deepEqual(figuresOfLine("310 / 620 / 930"), ["310", "620", "930"]);
  assert.deepEqual(figuresOfLine("640 mm 1.21 m"), ["640mm", "1.21m"]);
  for (const line of ["0.64 m 1.21", "0.64 1.21 m", "12 500 mm", "310 620 930", "1 210", "640", "640 left", "640 /", ""]) assert.deepEqual(figuresOfLine(line), []);
});

test("words of a cell are offered in the cells under it, figures and ditto marks are not", () => {
  assert.deepEqual(["harbour office", "2026-03-19", "M6 x 30"].map(isWorthOffering), [true, true, true]);
  assert.deepEqual(['"', "K", "", "1 210", "310 620 1205"].map(isWorthOffering), [false, false, false, false, false]);
});

test("a size as on the packet says diameter and length, and another says neither", () => {
  assert.deepEqual(figuresOf("M6 × 35"), ["6", "35"]);
  assert.deepEqual(figuresOf("4,5 x 60"), ["4,5", "60"]);
  assert.deepEqual(figuresOf("jaw 40 × 40, M5"), []);
  assert.deepEqual(figuresOf("M6"), []);
});

test("a stroke begins the next row, of words and of figures", () => {
  assert.deepEqual(rowsOf("foam pad 4 ±1 / ash upright 32 ±0.5 / lime wash 1", [[], []], false), [["foam pad", "4", "1"], ["ash upright", "32", "0.5"], ["lime wash", "1"]]);
  assert.deepEqual(rowsOf("bolt M8 - - 1 whole", [[], [], [], ["offcut", "whole"]], false), [["bolt M8", "", "", "1", "whole"]]);
  assert.deepEqual(rowsOf("0 -4/1500 -9 / 3050 2,5", [[]], true), [["0", "-4"], ["1500", "-9"], ["3050", "2,5"]]);
  assert.deepEqual(rowsOf("310 / 620", [[]], true), [["310", "620"]]);
  assert.deepEqual(rowsOf("0 / 945 / -62 / -8", [[], [], []], true), [["0", "945", "-62", "-8"]]);
  for (const line of ["foam / ash", "foam 4 / ash", "cork -", "cork 3/4 board"]) assert.equal(rowsOf(line, [[], []], false), null);
  assert.deepEqual(rowsOf("0 mm -4 mm / 1.5 m -9 mm", [[]], true), [["0mm", "-4mm"], ["1.5m", "-9mm"]]);
  for (const line of ["0 -4 / 1500", "0 -4 / 1500 left", "0 -4 /"]) assert.equal(rowsOf(line, [[]], true), null);
});

for (const { why, texts, parted: meant, ...group } of cases("written_together")) {
  test(`figures typed into the first of their inputs part as at the server: ${why}`, () => {
    assert.deepEqual(parted(texts, { units: texts.map(() => "mm"), ...group, into: texts.map((_, at) => at) }), meant);
  });
}

test("marks are named one by one or from one to another", () => {
  assert.deepEqual(marksIn("D1, D4 to D7 R2-N;P3"), ["D1", "D4", "D5", "D6", "D7", "R2-N", "P3"]);
  assert.deepEqual(marksIn("H08–H10"), ["H08", "H09", "H10"]);
  assert.deepEqual(marksIn("D7 to D4 D1 to K3 A"), ["D7–D4", "D1–K3", "A"]);
  assert.deepEqual(marksIn(" "), []);
});

test("a row is sent as it was typed, and what is not finished leaves no cell out", () => {
  assert.equal(lineOf(["310", "-4"], true), "310 -4");
  assert.equal(lineOf(["310", ""], true), "310; ");
  assert.equal(lineOf(["cob; limed", "300", "old"], false), "cob; limed\t300\told");
});

test("a line as it is written on a drawing is parted, one that is parted already stays", () => {
  const rowsIn = (line) => rowsOf(line, [[], ["old", "later"]], false);
  assert.deepEqual(partedLine("lime plaster 22 old / cob 300", rowsIn, false), ["lime plaster; 22; old", "cob; 300"]);
  for (const line of ["lime plaster; 22; old", "lime plaster"]) assert.deepEqual(partedLine(line, rowsIn, false), [line]);
});

test("a figure of a page of its own is read as in any form", () => {
  const read = (value, unit) => figureIn({ value }, unit);
  assert.deepEqual([read("  "), read("1 205"), read("4,5 kg", "kg"), read("0.4 m"), read("−3")], [null, 1205, 4.5, 400, -3]);
  for (const text of ["1.430", "left"]) assert.ok(Number.isNaN(read(text)));
});

for (const { words, text, whole } of cases("beginnings")) {
  test(`a word may be typed by its beginning, as at the desk: ${text} of ${words}`, () => assert.equal(wholeWord(text, words), whole));
}

for (const { why, text, corners } of cases("outlines")) {
  test(`an outline is read as at the desk: ${why}`, () => {
    const field = /** @type {any} */ ({ name: "outline", label: "Outline", type: "outline", columns: [{ type: "number", unit: "mm" }, { type: "number", unit: "mm" }] });
    const read = fromText(field, text);
    assert.deepEqual(read.every((row) => row.length === 2 && row.every((one) => typeof one === "number")) ? read : null, corners);
    const shape = shapeFrom(text);
    const { x, z, width, height } = /** @type {any} */ (shape ?? {});
    const box = [[x, z], [x + width, z], [x + width, z + height], [x, z + height]];
    assert.deepEqual(shape && (shape.sort === "corners" ? shape.corners.map((one) => [one.x, one.z]) : box), corners);
  });
}

test("a moment is shown as the clock said it, and read back the same", () => {
  const at = /** @type {any} */ ({ name: "at", label: "At", type: "moment" });
  const stored = usualMoment(momentOf(new Date(2026, 6, 29, 14, 30)));
  assert.equal(toText(at, stored), "2026-07-29 14:30");
  assert.equal(usualMoment(fromText(at, toText(at, stored))), stored);
  for (const kept of ["2026-07-29T14:30:07+00:00", "2026-07-29T14:30:00+13:30"]) assert.equal(toText(at, kept), kept);
});

test("an outline of which some figures alone have another unit is refused", () => {
  const field = /** @type {any} */ ({ name: "outline", label: "Outline", type: "outline", columns: [{ type: "number", unit: "mm" }] });
  assert.throws(() => fromText(field, "0.3 1.2 0.6 × 0.4 m"), /cannot be read/);
  assert.equal(shapeFrom("0.3 1.2 0.6 × 0.4 m"), null);
});

for (const { why, kind, field, text, layers } of cases("build_ups").asked) {
  test(`layers are taken by the name of their build-up, as at the desk: ${why}`, () => {
    const site = { all: () => cases("build_ups").items.map((values) => ({ values })) };
    assert.deepEqual(called(byName(site, kind, field), text) ?? null, layers);
  });
}

test("copies lie where the server sets them out, and what is dragged says so in figures", () => {
  const box = /** @type {const} */ ({ sort: "rectangle", x: 400, z: 900, width: 300, height: 200 });
  const given = { count: 2, apart: [500, 450, 460], up: -20, x: null, z: null };
  assert.deepEqual(setOut(box, given), [{ x: 900, z: 880 }, { x: 1350, z: 860 }, { x: 1810, z: 840 }]);
  assert.deepEqual(setOut(box, { ...given, apart: [500], x: 120, z: null }), [{ x: 120, z: 880 }, { x: 620, z: 860 }]);
  assert.deepEqual(draggedTo(box, given, 2, { x: 1600, z: 906 }, 30), { apart: 400, up_mm: 0 });
  assert.deepEqual(draggedTo(box, given, 0, { x: 405, z: 1200 }, 30), { apart: 0, up_mm: 300 });
  assert.deepEqual(draggedTo(box, { ...given, x: 120 }, 0, { x: 150, z: 700 }, 30), { x_mm: 150, z_mm: 700 });
  assert.deepEqual(draggedTo(box, { ...given, x: 120 }, 2, { x: 1120, z: 880 }, 30), { apart: 500, up_mm: 0 });
});

/** The cases the desk and the phone must answer alike, on the phone's side; tests/checks runs the same file. */

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";

import { clearDepth, projectionVerdict, stretch } from "../../static/checks/clearance.js";
import { areaDistance, discDistance, keepOffVerdict } from "../../static/checks/keep_off.js";
import { fromBox, packers } from "../../static/checks/packers.js";
import { proud } from "../../static/checks/surface.js";
import { leaf } from "../../static/checks/sweep.js";

const { cases } = JSON.parse(readFileSync(new URL("../cases/at_the_wall.json", import.meta.url), "utf-8"));

const ANSWERS = {
  keep_off({ zone_mm, point_mm, radius_mm, margin_mm, penetration_mm, safe_depth_mm }) {
    const distance = discDistance(zone_mm, point_mm, radius_mm);
    const verdict = keepOffVerdict("K1", distance, margin_mm, penetration_mm, safe_depth_mm);
    return { distance_mm: distance, word: verdict.word, left_mm: verdict.margin };
  },
  keep_off_area({ zone_mm, footprint_mm, margin_mm }) {
    const distance = areaDistance(zone_mm, footprint_mm);
    return { distance_mm: distance, word: keepOffVerdict("K1", distance, margin_mm).word };
  },
  clear_depth({ limits, stretch_mm, projection_mm }) {
    const held = limits.map(limitOf);
    const part = stretch(...stretch_mm);
    const { depth, limitedBy } = clearDepth(held, part);
    const { word, sentence } = projectionVerdict(projection_mm, held, part);
    return { clear_mm: depth, limited_by: limitedBy?.name ?? null, word, sentence };
  },
  proud: ({ readings_mm, place_mm }) => ({ proud_mm: proud(readings_mm, place_mm) }),
  packers({ points_mm, plane, least_mm, stock_mm }) {
    if (stock_mm) {
      const { stacks, off } = fromBox(points_mm, plane, stock_mm, least_mm);
      return { made_of_mm: stacks, off_mm: off };
    }
    const found = packers(points_mm, plane, least_mm);
    const sum = found.reduce((total, packer) => total + packer, 0);
    return { packers_mm: found, sum_mm: sum, thickest_mm: Math.max(...found), thinnest_mm: Math.min(...found) };
  },
};

function limitOf({ name, band_mm, margin_mm, leaf: given, projection_mm = null, below_mm = [] }) {
  const band = stretch(...band_mm.map((bound) => bound ?? undefined));
  const swung = given ? leaf(given.hinge_mm, given.from_deg, given.to_deg, given.boxes_mm) : null;
  return { name, band, margin: margin_mm, leaf: swung, projection: projection_mm, below: below_mm };
}

function assertNear(found, expected, tolerance, name) {
  if (Array.isArray(expected)) {
    assert.equal(found.length, expected.length, name);
    expected.forEach((part, at) => assertNear(found[at], part, tolerance, `${name}[${at}]`));
  } else if (typeof expected === "number") {
    assert.ok(Math.abs(found - expected) <= tolerance, `${name} is ${found}, not ${expected}`);
  } else {
    assert.equal(found, expected, name);
  }
}

for (const [place, { check, given, expect, refused, tolerance }] of cases.entries()) {
  test(`case ${place} at the wall, ${check}, is answered as expected`, () => {
    if (refused) {
      const { code, field } = refused;
      assert.throws(() => ANSWERS[check](given), { code, field });
      return;
    }
    const found = ANSWERS[check](given);
    for (const [name, expected] of Object.entries(expect)) assertNear(found[name], expected, tolerance, name);
  });
}

test("every check both sides offer has cases", () => {
  assert.deepEqual(new Set(cases.map(({ check }) => check)), new Set(Object.keys(ANSWERS)));
});

/** Small parts of the phone that need no browser: identifiers, pauses, words. */

import assert from "node:assert/strict";
import { test } from "node:test";

import { usualUuid, uuid7 } from "../../static/phone/book/identity.js";
import { momentOf, usualMoment } from "../../static/phone/book/moments.js";
import { dayOf, figureOf, joined, momentInWords, sizeOf } from "../../static/phone/book/wording.js";
import { pauseAfter } from "../../static/phone/sync/backoff.js";

test("an identifier has the form of RFC 9562, version 7, and its time", () => {
  const id = uuid7(Date.UTC(2026, 4, 31));
  assert.match(id, /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  assert.ok(parseInt(id.replaceAll("-", "").slice(0, 12), 16) >= Date.UTC(2026, 4, 31));
});

test("identifiers rise, even when the clock goes back", () => {
  const ids = Array.from({ length: 5_000 }, (_, at) => uuid7(Date.UTC(2030, 0, 1) - at * 1_000));
  assert.deepEqual([...ids].sort(), ids);
  assert.equal(new Set(ids).size, ids.length);
});

test("an identifier in any usual writing comes out in one", () => {
  const id = "01a211c9-6c36-7662-9a96-a383102b61f7";
  for (const written of [id, id.toUpperCase(), `{${id}}`, `urn:uuid:${id}`]) assert.equal(usualUuid(written), id);
  assert.equal(usualUuid("01a211c9"), null);
});

test("a pause doubles from two seconds to two minutes, and is never less than half of that", () => {
  assert.deepEqual([1, 2, 3, 7, 30].map((failures) => pauseAfter(failures, 1)), [2_000, 4_000, 8_000, 120_000, 120_000]);
  assert.equal(pauseAfter(3, 0), 4_000);
});

test("a moment of this phone's clock carries its offset and is read back the same", () => {
  const when = new Date(2026, 4, 31, 14, 30, 5, 250);
  assert.equal(new Date(momentOf(when)).getTime(), when.getTime());
  assert.ok(usualMoment(momentOf(when)));
});

test("values read as people write them", () => {
  assert.equal(figureOf(-12.5, "mm"), "−12.5\u00a0mm");
  assert.equal(figureOf(90, "°"), "90°");
  assert.equal(dayOf("2026-05-31"), "31\u00a0May 2026");
  assert.equal(momentInWords("2026-05-31T14:30:00+01:00"), "31\u00a0May 2026, 14:30");
  assert.equal(joined(["a", "b", "c"], "or"), "a, b or c");
  assert.equal(sizeOf(3_456_789), "3.5\u00a0MB");
});

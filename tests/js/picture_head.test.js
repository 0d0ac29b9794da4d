/** How large a picture is, from its head; the pictures are made by Pillow. */

import assert from "node:assert/strict";
import { test } from "node:test";

import { sizeInHead } from "../../static/phone/picture_head.js";
import { printedBy } from "./python.js";

const MADE = `
import base64, json
from io import BytesIO
from PIL import Image
def made(form, mode="RGB", **more):
    buffer = BytesIO()
    Image.new(mode, (321, 213)).save(buffer, form, **more)
    return base64.b64encode(buffer.getvalue()).decode()
print(json.dumps({
    "plain": made("JPEG"), "progressive": made("JPEG", progressive=True), "inks": made("JPEG", "CMYK"),
    "rubbish among its notes": made("JPEG", exif=b"Exif\\0\\0II*\\0" + b"\\xff" * 4000),
    "sixteen bits": made("PNG", "I;16"), "palette": made("PNG", "P"), "lossy": made("WEBP"),
    "lossless": made("WEBP", lossless=True), "see-through": made("WEBP", "RGBA", lossless=False, exif=b"Exif\\0\\0II*\\0"),
}))`;
const made = printedBy("-c", MADE);

for (const [name, content] of Object.entries(made)) {
  test(`the size of a picture is told: ${name}`, () => {
    const bytes = Uint8Array.from(Buffer.from(content, "base64"));
    assert.deepEqual(sizeInHead(bytes), { width: 321, height: 213 });
    for (const cut of [0, 1, 3, 11, 20]) assert.equal(sizeInHead(bytes.subarray(0, cut)), null);
  });
}

test("what is no picture tells no size", () => {
  for (const bytes of [new Uint8Array(64), Uint8Array.from([0xff, 0xd8, 0xff, 0xff, 0xff, 0xff]), new Uint8Array(64).fill(255)]) assert.equal(sizeInHead(bytes), null);
});

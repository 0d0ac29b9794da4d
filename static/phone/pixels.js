/** The pixels of a photograph that is on this phone, upright, in sRGB, on white paper where it shows through. */

import { copyOf, originalOf } from "./store/photographs.js";

const LONGEST_PX = 1600; // as fieldbook/book/card_in_photograph.py

/**
 * @param {string} sha256
 * @param {boolean} [whole]  from its original where that is here and this phone can open it, else from its small copy first
 * @returns {Promise<ImageData|null>} no side longer than 1600 px; null where neither is here
 */
export async function pixelsOf(sha256, whole = false) {
  for (const read of whole ? [originalOf, copyOf] : [copyOf, originalOf]) {
    const kept = await read(sha256);
    const bitmap = kept && (await createImageBitmap(new Blob([kept]), { imageOrientation: "from-image" }).catch(() => null));
    if (bitmap) return drawn(bitmap);
  }
  return null;
}

function drawn(bitmap) {
  const share = Math.min(1, LONGEST_PX / Math.max(bitmap.width, bitmap.height));
  const canvas = document.createElement("canvas");
  [canvas.width, canvas.height] = [bitmap.width, bitmap.height].map((side) => Math.max(1, Math.round(side * share)));
  const pen = canvas.getContext("2d", { willReadFrequently: true });
  pen.imageSmoothingQuality = "high";
  pen.fillStyle = "#fff";
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  bitmap.close();
  return pen.getImageData(0, 0, canvas.width, canvas.height);
}

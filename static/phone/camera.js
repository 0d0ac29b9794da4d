/** A photograph as it comes from the camera: its bytes, its digest, and a small copy to look at. */

import { Refusal } from "../checks/refusal.js";
import { momentOf } from "./book/moments.js";
import { sizeInHead } from "./picture_head.js";
import { keepPicture, originalOf } from "./store/photographs.js";

const TAKEN = ["image/jpeg", "image/png", "image/webp"];
const COPY_PX = 800;
const QUALITY = 0.88;
const MOST_BYTES = 50_000_000; // as fieldbook/book/photographs.py
// What the laptop takes of each; PNG and WebP need more memory there to be unfolded (fieldbook/book/unfolded_bytes.py).
const MOST_PIXELS = { "image/jpeg": 80_000_000, "image/png": 40_000_000, "image/webp": 12_000_000 };
const HEIC = ["heic", "heix", "heim", "heis", "hevc", "hevx", "mif1", "msf1"];
export const TOO_LARGE = "photograph-too-large";
export const REDUCED_PX = 3_000;

/**
 * Read a photograph from a file: reduced if the fitter chose so, else byte for byte; kept on the phone before the promise is.
 * @param {File} file
 * @param {number} longestPx  0: as taken
 * @returns {Promise<import("./store/photographs.js").Picture>}
 * @throws {Refusal} unsuitable-photograph, photograph-too-large, storage-full
 */
export async function readPhotograph(file, longestPx = 0) {
  if (file.size > MOST_BYTES && !longestPx) throw tooLarge(`The file has ${Math.round(file.size / 1e6)} MB; at most ${MOST_BYTES / 1e6} are taken.`);
  let bytes = await bytesOf(file);
  let mediaType = sniffed(new Uint8Array(bytes, 0, Math.min(12, bytes.byteLength)));
  const told = sizeInHead(new Uint8Array(bytes));
  if (told && !longestPx) refuseMany(told, mediaType);
  const bitmap = await decoded(new Blob([bytes], { type: file.type }), told);
  const { width, height } = bitmap;
  if (!longestPx) refuseMany(bitmap, mediaType);
  if (!TAKEN.includes(mediaType) || (longestPx && (Math.max(width, height) > longestPx || file.size > MOST_BYTES))) {
    bytes = await drawn(bitmap, longestPx || Math.max(width, height));
    mediaType = "image/jpeg";
  }
  const copy = await drawn(bitmap, COPY_PX).catch(() => null);
  bitmap.close();
  const share = Math.min(1, (longestPx || Infinity) / Math.max(width, height));
  const picture = {
    sha256: hexadecimal(await crypto.subtle.digest("SHA-256", bytes)),
    size: bytes.byteLength,
    mediaType,
    width: Math.round(width * share),
    height: Math.round(height * share),
    state: /** @type {const} */ ("draft"),
    received: 0,
    at: momentOf(),
  };
  return keepPicture(picture, bytes, copy);
}

/** The fields of a photograph's entry that its file tells. */
export function fieldsOf({ sha256, size, mediaType, width, height }) {
  return { sha256, size_bytes: size, media_type: mediaType, width_px: width, height_px: height };
}

/**
 * A smaller JPEG of a photograph that is here, kept beside it.
 * @throws {Refusal} unsuitable-photograph, storage-full
 */
export async function reduced(/** @type {string} */ sha256) {
  const original = await originalOf(sha256);
  if (!original) throw unsuitable("Its bytes are no longer on this phone.", "Take it again.");
  const bitmap = await decoded(original, null);
  const smaller = new File([await drawn(bitmap, REDUCED_PX)], "reduced.jpg", { type: "image/jpeg" });
  bitmap.close();
  return readPhotograph(smaller);
}

/** One that lies in a cloud, or was moved meanwhile, is named before it is there. */
function bytesOf(/** @type {File} */ file) {
  return file.arrayBuffer().catch(() => {
    throw unsuitable("This phone did not hand out the picture's file.", "Open it once in the phone's own gallery, and choose it again; or take it again.");
  });
}

/** @param {{width: number, height: number, close?: () => void}} picture @param {string} mediaType */
function refuseMany(picture, mediaType) {
  const pixels = picture.width * picture.height;
  const most = MOST_PIXELS[mediaType] ?? MOST_PIXELS["image/jpeg"]; // what else can be opened is made a JPEG
  if (pixels <= most) return;
  picture.close?.();
  throw tooLarge(`The picture has ${Math.ceil(pixels / 1e6)} million pixels; at most ${most / 1e6} are taken.`);
}

/** @param {Blob} blob @param {{width: number, height: number}|null} told  its size as its file tells it */
async function decoded(blob, told) {
  try {
    return await createImageBitmap(blob, { imageOrientation: "from-image" });
  } catch {
    const head = new TextDecoder("latin1").decode(await blob.slice(4, 12).arrayBuffer());
    if (head.startsWith("ftyp") && HEIC.includes(head.slice(4))) {
      throw unsuitable("This is an HEIC picture, which this phone cannot open.", "Set the camera to JPEG (“most compatible”) and take it again.");
    }
    const pixels = told ? told.width * told.height : 0;
    if (pixels > MOST_PIXELS["image/jpeg"]) throw unsuitable(`This phone cannot open a picture of ${Math.round(pixels / 1e6)} million pixels.`, "Set the camera to fewer, and take it again.");
    throw unsuitable("This file is no picture this phone can open.", "Take a photograph, or choose a JPEG.");
  }
}

async function drawn(bitmap, longestPx) {
  const share = Math.min(1, longestPx / Math.max(bitmap.width, bitmap.height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(bitmap.width * share));
  canvas.height = Math.max(1, Math.round(bitmap.height * share));
  canvas.getContext("2d").drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  const blob = await new Promise((keep) => canvas.toBlob(keep, "image/jpeg", QUALITY));
  if (!blob) throw unsuitable("The picture could not be made smaller.", "Set photographs to be kept as taken, under This phone.");
  return blob.arrayBuffer();
}

function sniffed(head) {
  const is = (at, ...bytes) => bytes.every((byte, place) => head[at + place] === byte);
  if (is(0, 0xff, 0xd8, 0xff)) return "image/jpeg";
  if (is(0, 0x89, 0x50, 0x4e, 0x47)) return "image/png";
  return is(0, 0x52, 0x49, 0x46, 0x46) && is(8, 0x57, 0x45, 0x42, 0x50) ? "image/webp" : "";
}

function hexadecimal(buffer) {
  return Array.from(new Uint8Array(buffer), (byte) => byte.toString(16).padStart(2, "0")).join("");
}

function tooLarge(reason) {
  return new Refusal(TOO_LARGE, reason, "Reduced, it can be kept.", { field: "photograph" });
}

function unsuitable(reason, remedy) {
  return new Refusal("unsuitable-photograph", reason, remedy, { field: "photograph" });
}

/** How large a picture is, told from the beginning of its file: before it is unfolded, which a phone may not live through. */

/**
 * @param {Uint8Array} bytes
 * @returns {{width: number, height: number}|null} px as they are kept, before they are turned upright; null where it is not told
 */
export function sizeInHead(bytes) {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  try {
    if (view.getUint32(0) === 0x89504e47) return { width: view.getUint32(16), height: view.getUint32(20) }; // PNG, 11.2.2
    if (view.getUint16(0) === 0xffd8) return inFrame(view);
    if (view.getUint32(0) === 0x52494646 && view.getUint32(8) === 0x57454250) return inChunk(view);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error; // it is cut short
  }
  return null;
}

/** Of a JPEG, ITU-T T.81 B.2.2: its frame header stands behind segments that tell how long they are. */
function inFrame(view) {
  for (let at = 2; view.getUint8(at) === 0xff; ) {
    const marker = view.getUint8(at + 1);
    if (marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker)) return { width: view.getUint16(at + 7), height: view.getUint16(at + 5) };
    at += marker === 0xff ? 1 : 2 + view.getUint16(at + 2);
  }
  return null;
}

/** Of a WebP, RFC 9649: whole canvas, lossy, lossless. */
function inChunk(view) {
  const three = (at) => view.getUint16(at, true) + (view.getUint8(at + 2) << 16);
  const name = view.getUint32(12);
  if (name === 0x56503858) return { width: three(24) + 1, height: three(27) + 1 };
  if (name === 0x56503820) return { width: view.getUint16(26, true) & 0x3fff, height: view.getUint16(28, true) & 0x3fff };
  if (name !== 0x5650384c) return null;
  const bits = view.getUint32(21, true);
  return { width: (bits & 0x3fff) + 1, height: ((bits >>> 14) & 0x3fff) + 1 };
}

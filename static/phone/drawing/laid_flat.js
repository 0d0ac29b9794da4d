/** A photograph laid flat: a picture of a face as if the camera had stood square before all of it. */

import { seenAt } from "../../checks/picture_plane.js";

/**
 * The pixels of a part of a face, clear where the photograph does not reach.
 * @param {{data: Uint8ClampedArray, width: number, height: number}} picture  four bytes a pixel, from the upper left
 * @param {number} share  its width over that of the photograph the marks were set on
 * @param {import("../../checks/picture_plane.js").Plane} plane
 * @param {{xFrom: number, xTo: number, zFrom: number, zTo: number}} part  of the face, mm
 * @param {number} width  of what is made, px
 * @returns {{data: Uint8ClampedArray<ArrayBuffer>, width: number, height: number}}
 */
export function laidFlat(picture, share, plane, part, width) {
  const step = (part.xTo - part.xFrom) / width;
  const height = Math.max(1, Math.round((part.zTo - part.zFrom) / step));
  const data = new Uint8ClampedArray(4 * width * height);
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const point = seenAt(plane, [part.xFrom + (column + 0.5) * step, part.zTo - (row + 0.5) * step]);
      const across = point ? Math.floor(point[0] * share) : -1;
      const down = point ? Math.floor(point[1] * share) : -1;
      if (across < 0 || down < 0 || across >= picture.width || down >= picture.height) continue;
      const from = 4 * (down * picture.width + across);
      data.set(picture.data.subarray(from, from + 4), 4 * (row * width + column));
    }
  }
  return { data, width, height };
}

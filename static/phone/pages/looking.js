/** Looking for the nearest free place a little at a time, so that no key has to wait for it. */

import { figureOf } from "../book/wording.js";
import { tell } from "./markup.js";

const AT_ONCE_MS = 8; // of the 50 that a key may wait
const PAUSE_MS = 150; // between two keys of somebody who goes on typing

/**
 * Say in a line where the nearest place is, as soon as it is found; not any more once the line has left the page.
 * @param {HTMLElement} line
 * @param {Generator} search  from `lookAround`
 */
export async function sayNearest(line, search) {
  line.textContent = "Looking for the nearest place…";
  await new Promise((go) => setTimeout(go, PAUSE_MS)); // whoever goes on typing is not kept
  if (!line.isConnected) return undefined;
  for (;;) {
    const until = performance.now() + AT_ONCE_MS;
    while (performance.now() < until) {
      const { done, value } = search.next();
      if (done) return say(line, value);
    }
    await new Promise((go) => setTimeout(go));
    if (!line.isConnected) return undefined;
  }
}

function say(line, place) {
  const found = place && `No zone forbids it at x ${figureOf(place.point[0])}, z ${figureOf(place.point[1])}: ${figureOf(Math.ceil(place.distance), "mm")} away.`;
  tell(line, found || "No place within 2 m where no zone forbids it.");
}


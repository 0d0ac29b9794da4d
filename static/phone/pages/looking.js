/** Looking for the nearest free place a little at a time, so that no key has to wait for it. */

import { figureOf } from "../book/wording.js";

const AT_ONCE_MS = 12; // a third of what is felt as a wait, on a phone a quarter as fast as a laptop

/**
 * Say in a line where the nearest place is, as soon as it is found; not any more once the line has left the page.
 * @param {HTMLElement} line
 * @param {Generator} search  from `lookAround`
 */
export async function sayNearest(line, search) {
  line.textContent = "Looking for the nearest place…";
  await new Promise((go) => setTimeout(go)); // the answer is shown first
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
  line.textContent = place
    ? `No zone forbids it at x ${figureOf(place.point[0])}, z ${figureOf(place.point[1])}: ${figureOf(Math.ceil(place.distance), "mm")} away.`
    : "No place within 2 m where no zone forbids it.";
}


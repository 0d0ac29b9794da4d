/** What may be done near a place that was touched on a drawing: a finger is no measurement, and the answer says so. */

import { usualRadius } from "../book/asked_here.js";
import { SIGNS, answer, offTheFace } from "../book/here.js";
import { today } from "../book/moments.js";
import { figureOf } from "../book/wording.js";
import { markPoint } from "../drawing/elevation.js";
import { depthWords } from "./here.js";
import { fill, filled, slot } from "./markup.js";
import { cautionTitles, wordOf } from "./parts.js";

/**
 * Show it in the slot `quick` of a page.
 * @param {{context: import("../book/registry.js").Context, face: import("../book/site.js").Item, body: HTMLElement, view: import("../drawing/viewing.js").View}} shown
 * @param {MouseEvent} event
 */
export function answerNear({ context, face, body, view }, event) {
  const { registry, notebook } = context;
  const [x, z] = view.at(event);
  if (offTheFace(face, [x, z])) return;
  const missed = view.missed();
  const radius = usualRadius(notebook.site, face);
  view.mark("asked", (drawing, scale) => markPoint(drawing, [x, z], missed, scale));
  const said = answer(registry, notebook.site, face, [x, z], { radius, missed, today: today() });
  const wide = radius === null ? "" : ` For a contact of ${figureOf(radius, "mm")} round its middle.`;
  const quick = filled("quick-answer", {
    at: `About x ${figureOf(x)}, z ${figureOf(z, "mm")}`,
    touched: `Touched, not measured: the answer is for all within ${figureOf(missed, "mm")}.${wide}`,
    depth: depthWords(said),
    acts: said.acts.map(({ act, answer: found }) => filled("act-line", { act, word: wordOf(SIGNS[found], found) })),
    mind: `Mind: ${cautionTitles(context, said.cautions)}.`,
  });
  slot(quick, "more").href = `#/here/${face.id}`;
  slot(quick, "new").href = `#/new/fixing?face=${face.id}&about=${x},${z},${missed}`;
  fill(body, { quick });
}

/** A face: its drawing above its booking; a tap on either finds the other, a tap on a free place asks what may be done. */

import { appraise, worstWords } from "../book/appraisal.js";
import { linesOf } from "../book/booking.js";
import { faceStretch } from "../book/places.js";
import { figureOf } from "../book/wording.js";
import { titleOf } from "../book/site.js";
import { elevation } from "../drawing/elevation.js";
import { section } from "../drawing/section.js";
import { viewing } from "../drawing/viewing.js";
import { fill, filled, slot, wire } from "./markup.js";
import { listsOf, nothing, pageOf, picturesOf, trailOf, wordOf } from "./parts.js";
import { factsOf } from "./places.js";
import { answerNear } from "./quick.js";
import { shutter } from "./taking.js";
import { measuringOn, turnUnder } from "./under.js";

export function facePage(context, id) {
  const { registry, notebook } = context;
  const face = notebook.site?.get(id);
  if (face?.kind !== "face") return null;
  const { site } = notebook;
  const words = worstWords(appraise(registry, site, face));
  const lines = linesOf(registry, site, face);
  const above = section(registry, site, face);
  const body = filled("face-page", {
    title: titleOf(registry, face),
    ...(above ? { above } : { "above-part": null }),
    lines: lines.map((line) => bookingLine(context, line, words)),
    none: lines.length ? "" : nothing("Nothing is booked on this face yet."),
    facts: factsOf(context, face),
    lists: listsOf(context, face, [], {}),
    pictures: picturesOf(context, face),
  });
  slot(body, "packers").href = `#/packers/${id}`;
  slot(body, "with-words").href = `#/photograph/${id}`;
  slot(body, "all").href = `#/item/${id}`;
  const view = viewing(slot(body, "drawing"), (scale) => elevation(registry, site, face, words, scale), faceStretch(face));
  const shown = { context, face, body, view };
  const under = { body, view, face, taken: measuringOn(site, face)[0], button: slot(body, "under") };
  under.button.hidden = !under.taken;
  wire(body, {
    under: async () => {
      const words = await turnUnder(under);
      if (words) context.say(words);
    },
    larger: () => view.enlarge(1),
    smaller: () => view.enlarge(-1),
    find: (_, pressed) => pick(shown, pressed.closest("tr").dataset.item, "drawing"),
  });
  slot(body, "drawing").addEventListener("click", (event) => tapped(shown, event));
  return {
    title: titleOf(registry, face),
    trail: trailOf(context, face),
    live: () => !slot(body, "quick").childElementCount,
    body,
    actions: [
      { words: "May I, here?", href: `#/here/${id}`, main: true },
      shutter(context, body, face),
      { words: "New…", href: `#/choose/${id}` },
    ],
  };
}

function bookingLine(context, { item, x, xTo, z, zTo, planned, found, foundFirst }, words) {
  const { registry, notebook } = context;
  const row = filled("booking-line", { planned, found });
  row.dataset.item = item.id;
  row.classList.add(item.kind);
  const name = filled("booked", {
    link: titleOf(registry, item),
    height: z === null ? "" : zTo === null ? `z\u00a0${figureOf(z)}` : `z\u00a0${figureOf(z)} to\u00a0${figureOf(zTo)}`,
    word: words.has(item.id) ? wordOf(words.get(item.id)) : "",
    unsent: notebook.waits(item.id) ? "not sent yet" : null,
  });
  slot(name, "link").href = pageOf(item);
  fill(row, { [foundFirst ? "found-name" : "planned-name"]: name, x: figureOf(x) });
  if (xTo !== null) slot(row, "x").append(small(`to ${figureOf(xTo)}`));
  slot(row, "x").setAttribute("aria-label", `x ${figureOf(x)}, find ${titleOf(registry, item)} in the drawing`);
  return row;
}

function small(words) {
  const part = document.createElement("small");
  part.textContent = words;
  return part;
}

function tapped(shown, event) {
  const thing = event.target.closest("[data-item]");
  if (thing && !["zone", "limit"].includes(kindOf(shown, thing.dataset.item))) {
    pick(shown, thing.dataset.item, "booking");
    return;
  }
  answerNear(shown, event);
}

function kindOf({ context }, id) {
  return context.notebook.items.get(id)?.kind;
}

/** Show one thing as chosen in both, and bring the other into view. */
function pick({ body, view }, id, into) {
  for (const one of body.querySelectorAll("tr[data-item]")) one.classList.toggle("chosen", one.dataset.item === id);
  view.mark("chosen", (drawing) => drawing.querySelectorAll("[data-item]").forEach((one) => one.classList.toggle("chosen", one.getAttribute("data-item") === id)));
  const found = into === "drawing" ? slot(body, "drawing") : body.querySelector(`tr[data-item="${id}"]`);
  found?.scrollIntoView({ block: into === "drawing" ? "start" : "center", behavior: "smooth" });
}

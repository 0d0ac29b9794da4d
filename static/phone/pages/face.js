/** A face: its drawing above its booking; a tap on either finds the other, a tap on a free place asks what may be done. */

import { appraise, worstWords } from "../book/appraisal.js";
import { linesOf } from "../book/booking.js";
import { SIGNS, answer, offTheFace } from "../book/here.js";
import { today } from "../book/moments.js";
import { figureOf } from "../book/wording.js";
import { titleOf } from "../book/site.js";
import { elevation, markPoint } from "../drawing/elevation.js";
import { section } from "../drawing/section.js";
import { sheet } from "../drawing/sheet.js";
import { depthWords } from "./here.js";
import { fill, filled, slot, wire } from "./markup.js";
import { cautionTitles, listsOf, nothing, pageOf, picturesOf, trailOf, wordOf } from "./parts.js";
import { factsOf } from "./places.js";

const WIDTHS = ["", "wide", "wider", "widest"];

export function facePage(context, id) {
  const { registry, notebook } = context;
  const face = notebook.site?.get(id);
  if (face?.kind !== "face") return null;
  const { site } = notebook;
  const words = worstWords(appraise(registry, site, face));
  const drawing = elevation(registry, site, face, words);
  const lines = linesOf(registry, site, face);
  const above = section(registry, site, face);
  const body = filled("face-page", {
    title: titleOf(registry, face),
    drawing,
    ...(above ? { above } : { "above-part": null }),
    lines: lines.map((line) => bookingLine(context, line, words)),
    none: lines.length ? "" : nothing("Nothing is booked on this face yet."),
    facts: factsOf(context, face),
    lists: listsOf(context, face, [], {}),
    pictures: picturesOf(context, face),
  });
  slot(body, "packers").href = `#/packers/${id}`;
  slot(body, "all").href = `#/item/${id}`;
  const shown = { context, face, body, drawing, words };
  wire(body, {
    larger: () => zoom(slot(body, "drawing"), 1),
    smaller: () => zoom(slot(body, "drawing"), -1),
    find: (_, pressed) => pick(shown, pressed.closest("tr").dataset.item, "drawing"),
  });
  drawing.addEventListener("click", (event) => tapped(shown, event));
  return {
    title: titleOf(registry, face),
    trail: trailOf(context, face),
    live: () => !slot(body, "quick").childElementCount,
    body,
    actions: [
      { words: "May I, here?", href: `#/here/${id}`, main: true },
      { words: "Photograph", href: `#/photograph/${id}` },
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
    height: z === null ? "" : zTo === null ? `z ${figureOf(z)}` : `z ${figureOf(z)} to ${figureOf(zTo)}`,
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
  const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(shown.drawing.getScreenCTM().inverse());
  const point = [Math.round(at.x), Math.round(-at.y)];
  if (!offTheFace(shown.face, point)) quickAnswer(shown, point);
}

function kindOf({ context }, id) {
  return context.notebook.items.get(id)?.kind;
}

/** Show one thing as chosen in both, and bring the other into view. */
function pick({ body }, id, into) {
  for (const one of body.querySelectorAll("[data-item]")) one.classList.toggle("chosen", one.dataset.item === id);
  const found = into === "drawing" ? slot(body, "drawing") : body.querySelector(`tr[data-item="${id}"]`);
  found?.scrollIntoView({ block: into === "drawing" ? "start" : "center", behavior: "smooth" });
}

/** @param {any} shown @param {number[]} point */
function quickAnswer({ context, face, body, drawing }, [x, z]) {
  const { registry, notebook } = context;
  markPoint(drawing, [x, z], 0, sheet(face).u);
  const said = answer(registry, notebook.site, face, [x, z], { today: today() });
  const quick = filled("quick-answer", {
    at: `At x ${figureOf(x)}, z ${figureOf(z, "mm")}`,
    depth: depthWords(said),
    acts: said.acts.map(({ act, answer: found }) => filled("act-line", { act, word: wordOf(SIGNS[found], found) })),
    mind: `Mind: ${cautionTitles(context, said.cautions)}.`,
  });
  slot(quick, "more").href = `#/here/${face.id}?x_mm=${x}&z_mm=${z}`;
  slot(quick, "new").href = `#/new/fixing?face=${face.id}&x_mm=${x}&z_mm=${z}`;
  fill(body, { quick });
}

function zoom(holder, by) {
  const now = WIDTHS.findIndex((width) => width && holder.classList.contains(width));
  const next = Math.max(0, Math.min(WIDTHS.length - 1, Math.max(0, now) + by));
  holder.classList.remove(...WIDTHS.filter(Boolean));
  if (WIDTHS[next]) holder.classList.add(WIDTHS[next]);
}

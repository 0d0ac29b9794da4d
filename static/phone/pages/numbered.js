/** The numbered marks of a photograph: over it, with what each points at, and the one that is being set. */

import { titleOf } from "../book/site.js";
import { overPicture, ring } from "../drawing/over_picture.js";
import { setByTouch } from "../forms/numbering.js";
import { filled, link, slot } from "./markup.js";
import { pageOf, showPicture, titled } from "./parts.js";

/** Draw a photograph's marks over it; gives a line for each. */
export function showNumbered(context, photograph, holder) {
  const marks = marksOf(context, photograph);
  if (marks.length) holder.append(drawn(photograph, marks, "Numbered marks on the photograph"));
  return marks.map((mark) => link(wordsOf(context, mark), pageOf(mark)));
}

/** Show the photograph over the form of a mark, where a touch sets it. */
export function addPicture({ context, about: { kind, id, values }, body, form }) {
  const photograph = context.notebook.items.get(values.photograph);
  if (kind.name !== "pointer" || !photograph) return;
  const part = filled("numbering", {});
  const others = marksOf(context, photograph).filter((mark) => mark.id !== id);
  const svg = drawn(photograph, others, "The photograph: touch what the mark points at");
  slot(part, "picture").append(svg);
  const image = slot(part, "image");
  image.alt = titleOf(context.registry, photograph);
  showPicture(image, photograph.values.sha256, true);
  slot(body, "before").append(part);
  setByTouch(svg, form);
}

function marksOf({ notebook }, photograph) {
  const marks = notebook.site?.of(photograph, "pointer") ?? [];
  return marks.toSorted((one, other) => one.values.number - other.values.number);
}

function wordsOf(context, { values: { number, of, words } }) {
  return [String(number), of ? titled(context)(of) : "", words ?? ""].filter(Boolean).join(" · ");
}

function drawn({ values }, marks, label) {
  const [width, height] = [values.width_px ?? 1600, values.height_px ?? 1200];
  const svg = overPicture(width, height, label);
  svg.append(...marks.map((mark) => ring([mark.values.across_px, mark.values.down_px], String(mark.values.number), width / 360)));
  return svg;
}

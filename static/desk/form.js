/** A page with a form: what a pointer can enter, and care not to lose what was typed. */

import { setByTouch } from "../phone/forms/numbering.js";
import { tickByMarks } from "../phone/forms/by_marks.js";
import { offerSaid } from "../phone/forms/said_before.js";
import { followChoices } from "../phone/forms/implied.js";
import { partTogether } from "../phone/forms/written_together.js";
import { beginAtOnce } from "./beginning.js";
import { warnBeforeLeaving } from "./leaving.js";
import { warnOfSameMark } from "./marks.js";
import { goDownTogether } from "./going_down.js";
import { mindWhileTyping } from "./minding.js";
import { drawOutline } from "./outlining.js";
import { placeCopies } from "./copying.js";
import { placeBox, placePoint } from "./placing.js";
import { offerCells } from "./rows.js";
import { followSize } from "./sizes.js";

const BOXES = {
  fitting: { x: "x_mm", z: "z_mm", width: "width_mm", height: "height_mm" },
  limit: { x: "x_from_mm", z: "z_from_mm", toX: "x_to_mm", toZ: "z_to_mm" },
};

document.documentElement.classList.add("scripted");
const form = /** @type {HTMLFormElement} */ (document.querySelector("form.entry"));
const drawing = /** @type {HTMLElement|null} */ (document.querySelector(".drawing[data-face]"));
const svg = drawing?.querySelector("svg");
/** @type {HTMLElement|null} */
const photograph = document.querySelector("[data-photograph]");
warnBeforeLeaving(form);
mindWhileTyping(form);
if (form.dataset.marked) warnOfSameMark(form);
/** @type {HTMLElement|null} */ (document.querySelector("#refused"))?.focus();
/** @type {NodeListOf<HTMLTextAreaElement>} */
const texts = form.querySelectorAll("textarea[data-columns]");
for (const text of texts) offerCells(text);
for (const area of /** @type {NodeListOf<HTMLTextAreaElement>} */ (form.querySelectorAll("textarea[data-said]"))) {
  offerSaid(area, [.../** @type {HTMLDataListElement} */ (document.getElementById(area.dataset.said)).options].map(({ value }) => value));
}
followChoices(form);
followSize(form);
partTogether(form);
goDownTogether(form);
tickByMarks(form);
beginAtOnce(document.querySelector("form.like"));
if (svg) {
  const tools = /** @type {HTMLElement} */ (document.querySelector("[data-tools]"));
  const { kind } = form.dataset;
  drawing.classList.add("drawn-on");
  const outline = /** @type {HTMLTextAreaElement|null} */ (form.elements.namedItem("outline"));
  if (outline) drawOutline(svg, outline, tools);
  else if (form.dataset.box) placeCopies(svg, form);
  else if (BOXES[kind]) placeBox(svg, form, BOXES[kind]);
  else placePoint(svg, form, tools);
  otherChosen(form, drawing, "face");
}
if (photograph) {
  setByTouch(photograph.querySelector("svg"), form);
  otherChosen(form, photograph, "photograph");
}

/** Say so when another face or photograph is chosen than the one that is shown. */
function otherChosen(entry, shown, name) {
  const note = Object.assign(document.createElement("p"), { className: "notice", hidden: true });
  note.textContent = `Another ${name} is chosen than the one shown here; save to see it.`;
  shown.before(note);
  entry.elements[name]?.addEventListener("change", (event) => {
    const other = event.target.value !== shown.dataset[name];
    note.hidden = !other;
    shown.hidden = other;
  });
}

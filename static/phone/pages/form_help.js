/** What saves typing in a new form: the last one like it, a mark that goes on counting, and a place that was touched. */

import { lastLike, nextMark } from "../book/next_mark.js";
import { titleOf } from "../book/site.js";
import { asTyped, show, warningAt } from "../forms/inputs.js";
import { beginAtFirst } from "../forms/moving_on.js";
import { hasPad } from "../forms/number_pad.js";
import { filled, slot, wire } from "./markup.js";
import { addSeenBefore } from "./seen_before.js";
import { addWalls } from "./walls.js";

const FIRST_FIGURE = "x_mm";
/** Whether there are several alike of a kind on a face. */
export const comeAlike = (kind) => kind.byName.has(FIRST_FIGURE) || (kind.byName.has("face") && kind.numbered_by);

/** @param {any} state  of a new form */
export function addHelp(state) {
  const { context, about, body, form } = state;
  const { kind, query, values } = about;
  const { site } = context.notebook;
  if (!site) return;
  const last = query.has("like") ? null : lastLike(kind, site, values);
  if (kind.name === "observation") addSeenBefore(state, slot(body, "before"));
  else if (last && comeAlike(kind)) {
    const help = filled("like-last", { words: `As the last one: ${titleOf(context.registry, last)}` });
    wire(help, { like: () => fillLike(state, last, help) });
    slot(body, "before").append(help);
  }
  if (kind.name === "fixing") form.elements.fitting.addEventListener("input", () => countOn(state));
  if (query.has("about")) sayTouched(form, query.get("about"));
  if (kind.name === "face") addWalls(state, () => begin(state));
  begin(state);
}

/** Everything of the last one but what belongs to it alone. */
function fillLike(state, last, help) {
  const { about, form, fields } = state;
  const copied = fields.filter(({ copied: goesAlong, name }) => goesAlong && form.elements[name] !== undefined);
  show(form, copied, asTyped(copied, last.values));
  countOn(state);
  help.remove();
  form.dispatchEvent(new Event("input", { bubbles: true }));
  begin(state);
  about.values = { ...about.values, ...Object.fromEntries(copied.map(({ name }) => [name, last.values[name] ?? null])) };
}

/** The next mark, unless somebody has typed one. */
function countOn({ context, about, form }) {
  const input = form.elements[about.kind.numbered_by];
  if (input.value && input.value !== input.dataset.counted) return;
  const values = about.kind.name === "fixing" ? { fitting: form.elements.fitting.value } : {};
  input.value = nextMark(about.kind, context.notebook.site, values);
  input.dataset.counted = input.value;
}

/** To what must be measured, or typed, first. */
function begin({ form, fields }) {
  if (hasPad()) beginAtFirst(form, fields);
}

function sayTouched(form, about) {
  const [x, z, missed] = about.split(",").map(Number);
  if (![x, z, missed].every(Number.isFinite)) return;
  warningAt(form, FIRST_FIGURE)(`Touched near x ${x}, z ${z} on the drawing, which may be ${missed} mm out: measure, and type the figures.`);
}

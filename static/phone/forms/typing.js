/** What makes typing into a form of any kind less work at the wall. */

import { addCorners } from "./corners.js";
import { tickByMarks } from "./by_marks.js";
import { addMovingOn } from "./moving_on.js";
import { addNumberPad, hasPad } from "./number_pad.js";
import { addTables } from "./tables.js";
import { addTiltButton } from "./tilt_button.js";
import { offerWordsBefore } from "./words_before.js";
import { partTogether } from "./written_together.js";

/**
 * @param {HTMLFormElement} form  that shows what was typed already
 * @param {import("../book/registry.js").Kind} kind
 * @param {import("../book/registry.js").Field[]} fields
 * @param {import("../book/registry.js").Context} context
 * @param {HTMLElement} under  what stands under the thumb
 */
export function easeTyping(form, kind, fields, context, under) {
  addCorners(form, fields, context, under);
  addTables(form, kind, fields, context);
  tickByMarks(form);
  partTogether(form);
  addTiltButton(form);
  addNumberPad(form, under); // once all inputs are there
  if (hasPad()) addMovingOn(form);
  if (context.notebook.site) offerWordsBefore(form, context.registry, kind, fields, context.notebook.site);
}

/** A button that takes a face's lean from the phone's own sensor, and says how sure that is. */

import { Refusal } from "../../checks/refusal.js";
import { filled, slot, tell, wire } from "../pages/markup.js";
import { UNCERTAIN_DEG, hasTilt, measureLean } from "../tilt.js";
import { hasPad } from "./number_pad.js";

const FIELD = "slope_deg";

/** @param {HTMLFormElement} form  of any kind: only a face has what leans */
export function addTiltButton(form) {
  const input = /** @type {HTMLInputElement|null} */ (form.elements.namedItem(FIELD));
  if (!input || !hasPad() || !hasTilt()) return;
  const part = filled("tilt", {});
  const said = slot(part, "said");
  wire(part, {
    tilt: async () => {
      said.textContent = "Hold the phone’s back flat on the face, and still…";
      try {
        const lean = await measureLean();
        input.value = (Math.round(lean * 2) / 2).toString();
        said.textContent = `Leans over by ${input.value}°, ± ${UNCERTAIN_DEG}°: nobody has calibrated this phone. Turned half round and measured again, the mean of both is better.`;
        noteIt(form, `Lean taken with a phone’s own sensor, ± ${UNCERTAIN_DEG}°.`);
        input.dispatchEvent(new Event("input", { bubbles: true }));
      } catch (error) {
        if (!(error instanceof Refusal)) throw error;
        tell(said, error.message);
      }
    },
  });
  input.after(part);
}

/** The figure alone would say more than is known. */
function noteIt(form, words) {
  const { note } = form.elements;
  if (note && !note.value.includes(words)) note.value = [note.value, words].filter(Boolean).join("\n");
}

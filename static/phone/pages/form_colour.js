/** While a colour is measured again: how far it is from that of its card, in words. */

import { faded } from "../book/fading.js";
import { meant, typedIn } from "../forms/inputs.js";
import { fill, slot } from "./markup.js";

const MEASURED = ["lab_l", "lab_a", "lab_b", "lab_white"];

/** Show it above the keys, as soon as the colour is whole. */
export function addFaded({ context, about, form, fields, under }) {
  if (about.kind.name !== "colour") return;
  const tell = () => {
    const values = { ...about.before, ...meant(fields, typedIn(form, fields)).values };
    const card = context.notebook.site?.get(values.finish);
    const whole = card && MEASURED.every((name) => (values[name] ?? null) !== null);
    const line = slot(under, "verdict");
    line.hidden = !whole;
    if (whole) fill(line, { verdict: `Against its card: ${faded(card.values, values)}` });
  };
  form.addEventListener("input", tell);
  tell();
}

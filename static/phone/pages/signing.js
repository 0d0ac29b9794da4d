/** An agreement on named things: the signer sees on one page what is signed, in words and figures. */

import { countOf, figureOf } from "../book/wording.js";
import { titleOf } from "../book/site.js";
import { buttonsFor } from "../forms/choice_buttons.js";
import { pad } from "../forms/pad.js";
import { filled, made, slot, wire } from "./markup.js";

const ASKED = ["words", "conditions", "said_by"];

/** The address of the form for an agreement on a fitting with all its fixings. */
export function agreementOn({ registry, notebook }, fitting) {
  const { site } = notebook;
  const fixings = site.of(fitting, "fixing");
  const query = new URLSearchParams({ site: site.item.id, words: `${titleOf(registry, fitting)}${fixings.length ? ` and ${countOf(fixings.length, "fixing")} of it` : ""}, where and as they are entered.` });
  for (const { id } of [fitting, ...fixings]) query.append("items", id);
  if (site.item.values.keeper) query.set("said_by", site.item.values.keeper);
  if (!site.all("agreement").length) query.set("reference", "A1");
  return `#/new/agreement?${query}`;
}

/**
 * Put what is signed before the form, the answers on buttons, and what is seldom asked into a fold.
 * @param {any} state  of a form of an agreement that names things
 */
export function arrangeSigning({ context, about, body, form }) {
  const { registry, notebook } = context;
  const things = (about.values.items ?? []).map((id) => notebook.items.get(id)).filter(Boolean);
  slot(body, "before").append(filled("signing", { things: things.map((item) => filled("signed-thing", { title: titleOf(registry, item), words: wordsOf(item) })) }));
  const { answer } = form.elements;
  buttonsFor(answer);
  const all = [...form.querySelectorAll(".input")];
  const first = all.filter((input) => ASKED.some((name) => input.querySelector(`[name="${name}"]`)) || input.contains(answer));
  const rest = filled("rest-of-form", { rest: all.filter((input) => !first.includes(input)) });
  form.replaceChildren(...first.sort((one, other) => Number(other.contains(answer)) - Number(one.contains(answer))), rest);
}

/** The pad to sign on, below a form. */
export function addPad(/** @type {any} */ state, touch) {
  const part = made("pad");
  const drawn = pad(slot(part, "area"), state.signature, (rows) => {
    state.signature = rows;
    touch();
  });
  wire(part, {
    wipe() {
      drawn.wipe();
      slot(part, "former").hidden = false;
    },
    swap: () => drawn.swap(),
  });
  slot(state.body, "after").append(part);
}

function wordsOf({ kind, values }) {
  const at = `x ${figureOf(values.x_mm)}, z ${figureOf(values.z_mm, "mm")}`;
  if (kind === "fitting") return `at ${at}; ${figureOf(values.width_mm)} × ${figureOf(values.height_mm, "mm")}${values.mass_loaded_kg ? `; ${figureOf(values.mass_loaded_kg, "kg")}` : ""}`;
  if (kind !== "fixing") return "";
  const hole = values.hole === "none" ? "no hole" : `${values.hole} hole${values.penetration_mm ? `, ${figureOf(values.penetration_mm, "mm")} deep` : ""}`;
  return [`${values.sort} at ${at}`, `${hole} in ${values.fabric}`, `leaves ${values.trace === "none" ? "no mark" : values.trace}`].join("; ");
}

/** The question at the wall: may I drill, touch, glue, hang, put heat or light here, and how deep may it stand? */

import { Refusal } from "../../checks/refusal.js";
import { SIGNS, answer, nearestFree } from "../book/here.js";
import { accept } from "../book/fields.js";
import { today } from "../book/moments.js";
import { figureOf } from "../book/wording.js";
import { fromText } from "../book/typed.js";
import { titleOf } from "../book/site.js";
import { elevation, markPoint } from "../drawing/elevation.js";
import { sheet } from "../drawing/sheet.js";
import { classOf } from "../drawing/signs.js";
import { addSignToggles } from "../forms/inputs.js";
import { fill, filled, link, slot } from "./markup.js";
import { cautionsOf, lineOf, nothing, pageOf, trailOf, wordOf } from "./parts.js";

const ASKED = ["x_mm", "z_mm", "radius_mm", "depth_mm"];
const QUESTIONS = { drilling: "drill", contact: "touch", adhesive: "glue", load: "hang", heat: "put heat", light: "put light" };
const NEAR_MM = 400;

export function herePage(context, id, query) {
  const { registry, notebook } = context;
  const face = notebook.site?.get(id);
  if (face?.kind !== "face") return null;
  const body = filled("here-page", { face: titleOf(registry, face), drawing: elevation(registry, notebook.site, face, new Map()) });
  const form = slot(body, "form");
  for (const name of ASKED) form.elements[name].value = query.get(name) ?? "";
  addSignToggles(form, () => false);
  const shown = { context, face, body, form };
  form.addEventListener("input", () => reckon(shown));
  form.addEventListener("submit", (event) => event.preventDefault());
  const drawing = slot(body, "drawing").firstElementChild;
  drawing.addEventListener("click", (event) => {
    const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(drawing.getScreenCTM().inverse());
    [form.elements.x_mm.value, form.elements.z_mm.value] = [String(Math.round(at.x)), String(Math.round(-at.y))];
    reckon(shown);
  });
  reckon(shown);
  return {
    title: "May I, here?",
    trail: trailOf(context, face),
    body,
    actions: [
      { words: "The face", href: `#/face/${id}` },
      { words: "Plan a fixing", main: true, act: () => context.go(`#/new/fixing?face=${id}&${placeIn(form)}`) },
    ],
  };
}

function placeIn(form) {
  return new URLSearchParams(ASKED.slice(0, 2).map((name) => [name, form.elements[name].value])).toString();
}

function reckon({ context, face, body, form }) {
  try {
    const [x, z, radius, depth] = ASKED.map((name) => read(name, form.elements[name].value));
    if (x === null || z === null) {
      fill(body, { answer: nothing("Type x and z, or tap the drawing.") });
      return;
    }
    markPoint(slot(body, "drawing").firstElementChild, [x, z], radius ?? 0, sheet(face).u);
    fill(body, { answer: answered(context, face, [x, z], { radius: radius ?? 0, depth, today: today() }) });
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    fill(body, { answer: nothing(error.message) });
  }
}

function read(name, text) {
  const bounds = name === "radius_mm" || name === "depth_mm" ? [0, 2_000] : [-100_000, 100_000];
  const field = { name, label: name.split("_")[0], type: "number", unit: "mm", low: bounds[0], high: bounds[1] };
  return accept(field, fromText(field, text));
}

function answered(context, face, point, asked) {
  const { registry, notebook } = context;
  const said = answer(registry, notebook.site, face, point, asked);
  const holds = notebook.site.of(face, "hold").filter(({ values }) => Math.hypot(values.x_mm - point[0], values.z_mm - point[1]) <= NEAR_MM);
  const body = filled("here-answer", {
    depth: depthWords(said),
    "depth-why": said.limitedBy ? `Set by ${said.limitedBy.name}.` : "",
    hole: said.deep ? `A hole may go at most ${figureOf(said.deep, "mm")} deep.` : "",
    acts: said.acts.map((act) => actLine(context, face, point, asked, act)),
    cautions: cautionsOf(context, said.cautions),
  });
  const lines = holds.map((hold) => lineOf(context, hold, `${hold.values.sort}; may be used: ${hold.values.may_be_used}`));
  return fill(body, lines.length ? { holds: lines } : { "holds-part": null });
}

function actLine(context, face, point, asked, { act, answer: found, why, against, nearest }) {
  const { registry, notebook } = context;
  const barred = found === "no" && nearest !== null;
  const place = barred ? nearestFree(registry, notebook.site, face, act, point, asked) : null;
  const line = filled("here-act", {
    act: `May I ${QUESTIONS[act]}?`,
    word: wordOf(SIGNS[found], found),
    why,
    against: against ? link(titleOf(registry, against), pageOf(against)) : "",
    nearest: !barred ? null : place ? nearestWords(place) : "No place within 2 m where no zone forbids it.",
  });
  line.classList.add(classOf(SIGNS[found]));
  return line;
}

/** @param {{point: number[], distance: number}} place */
function nearestWords({ point: [x, z], distance }) {
  return `No zone forbids it at x ${figureOf(x)}, z ${figureOf(z)}: ${figureOf(Math.ceil(distance), "mm")} away.`;
}

/** How deep something may stand, in words. */
export function depthWords({ clear, refusal }) {
  if (refusal) return `Not known: ${refusal.message}`;
  if (clear === null) return "Nothing recorded limits it here";
  return clear <= 0 ? "Nothing may stand here: it must stay free" : `At most ${figureOf(clear, "mm")}`;
}

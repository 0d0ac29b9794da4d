/** The question at the wall: may I drill, touch, glue, hang, put heat or light here, and how deep may it stand? */

import { Refusal } from "../../checks/refusal.js";
import { usualRadius } from "../book/asked_here.js";
import { SIGNS, answer, lookAround, offTheFace } from "../book/here.js";
import { accept } from "../book/fields.js";
import { today } from "../book/moments.js";
import { faceStretch } from "../book/places.js";
import { figureOf } from "../book/wording.js";
import { fromText, toText } from "../book/typed.js";
import { titleOf } from "../book/site.js";
import { elevation, markPoint } from "../drawing/elevation.js";
import { classOf, sign } from "../drawing/signs.js";
import { viewing } from "../drawing/viewing.js";
import { afterKey } from "../forms/after_key.js";
import { addSignToggles } from "../forms/inputs.js";
import { addNumberPad, hasPad } from "../forms/number_pad.js";
import { sayNearest } from "./looking.js";
import { fill, filled, link, slot } from "./markup.js";
import { cautionsOf, lineOf, nothing, pageOf, trailOf, wordOf } from "./parts.js";
import { underThumb } from "./verdict_line.js";

const ASKED = ["x_mm", "z_mm", "radius_mm", "depth_mm"];
/** @type {Record<string, any>} */
const FIELDS = Object.fromEntries(
  ASKED.map((name) => {
    const place = name === "x_mm" || name === "z_mm";
    return [name, { name, label: name.split("_")[0], type: "number", unit: "mm", low: place ? -100_000 : 0, high: place ? 100_000 : 2_000 }];
  }),
);
const QUESTIONS = { drilling: "drill", contact: "touch", adhesive: "glue", load: "hang", heat: "put heat", light: "put light" };
const NEAR_MM = 400;

export function herePage(context, id, query) {
  const { registry, notebook } = context;
  const face = notebook.site?.get(id);
  if (face?.kind !== "face") return null;
  const body = filled("here-page", { face: titleOf(registry, face), cautions: cautionsOf(context, registry.at_the_wall) });
  const form = slot(body, "form");
  for (const name of ASKED) form.elements[name].value = query.get(name) ?? "";
  if (!query.has("radius_mm")) form.elements.radius_mm.value = toText(FIELDS.radius_mm, usualRadius(notebook.site, face));
  addSignToggles(form, () => false);
  const under = underThumb();
  body.append(under);
  addNumberPad(form, under);
  const draw = (scale) => elevation(registry, notebook.site, face, new Map(), scale);
  const shown = { context, face, body, form, under, view: viewing(slot(body, "drawing"), draw, faceStretch(face)) };
  const reckoning = afterKey(() => reckon(shown));
  form.addEventListener("input", reckoning.later);
  form.addEventListener("submit", (event) => event.preventDefault());
  slot(body, "drawing").addEventListener("click", (event) => {
    reckoning.finish();
    touched(shown, event);
  });
  reckoning.now();
  if (hasPad() && !query.has("x_mm")) requestAnimationFrame(() => form.isConnected && form.elements.x_mm.focus());
  context.notebook.choose({ face: id });
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

/** A figure that is typed; null where none is. @throws {Refusal} */
const typedIn = (form, name) => accept(FIELDS[name], fromText(FIELDS[name], form.elements[name].value));

/** The answer for the figures that are typed. */
function* reckon(shown) {
  const { body, form, view } = shown;
  try {
    const [x, z, radius, depth] = ASKED.map((name) => typedIn(form, name));
    if (x === null || z === null) return unanswered(shown, "Type x and z, or touch the drawing.");
    view.mark("asked", (drawing, scale) => markPoint(drawing, [x, z], radius ?? 0, scale));
    yield;
    fill(body, { answer: answered(shown, [x, z], { radius, depth, today: today() }) });
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    unanswered(shown, error.message);
  }
}

function unanswered({ body, under }, words) {
  showActs(under, []);
  fill(body, { answer: nothing(words) });
}

/** A finger is no measurement: the answer is for all it may have meant, and the figures stay as they are. */
function touched(shown, event) {
  const { body, form, view, face } = shown;
  const at = view.at(event);
  if (offTheFace(face, at)) return;
  const missed = view.missed();
  view.mark("asked", (drawing, scale) => markPoint(drawing, at, missed, scale));
  const said = document.createElement("p");
  said.textContent = `Touched about x ${figureOf(at[0])}, z ${figureOf(at[1], "mm")}: no measurement. The answer is for all within ${figureOf(missed, "mm")}.`;
  try {
    const [radius, depth] = ASKED.slice(2).map((name) => typedIn(form, name));
    fill(body, { answer: [said, answered(shown, at, { radius, depth, missed, today: today() })] });
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    unanswered(shown, error.message);
  }
}

function answered({ context, face, under }, point, asked) {
  const { registry, notebook } = context;
  const said = answer(registry, notebook.site, face, point, asked);
  showActs(under, said.acts);
  const holds = notebook.site.of(face, "hold").filter(({ values }) => Math.hypot(values.x_mm - point[0], values.z_mm - point[1]) <= NEAR_MM);
  const around = { radius: (asked.radius ?? 0) + (asked.missed ?? 0), depth: asked.depth ?? null };
  const body = filled("here-answer", {
    depth: depthWords(said),
    "depth-why": said.limitedBy ? `Set by ${said.limitedBy.name}.` : "",
    hole: said.deep ? `A hole may go at most ${figureOf(said.deep, "mm")} deep.` : "",
    acts: said.acts.map((act) => actLine(context, face, point, around, act)),
  });
  const lines = holds.map((hold) => lineOf(context, hold, `${hold.values.sort}; may be used: ${hold.values.may_be_used}`));
  return fill(body, lines.length ? { holds: lines } : { "holds-part": null });
}

function actLine(context, face, point, asked, { act, answer: found, why, against, nearest }) {
  const { registry, notebook } = context;
  const line = filled("here-act", {
    act: `May I ${QUESTIONS[act]}?`,
    word: wordOf(SIGNS[found], found),
    why,
    against: against ? link(titleOf(registry, against), pageOf(against)) : "",
  });
  line.classList.add(classOf(SIGNS[found]));
  if (found === "no" && nearest !== null) sayNearest(slot(line, "nearest"), lookAround(registry, notebook.site, face, act, point, asked));
  else slot(line, "nearest").remove();
  return line;
}

/** All acts in one line, above the keys. */
function showActs(under, acts) {
  const line = slot(under, "verdict");
  line.hidden = !acts.length;
  fill(under, { verdict: acts.map(({ act, answer: found }) => filled("act-short", { sign: sign(SIGNS[found]), act: `${act}: ${found}` })) });
}

/** How deep something may stand, in words. */
export function depthWords({ clear, refusal }) {
  if (refusal) return `Not known: ${refusal.message}`;
  if (clear === null) return "Nothing recorded limits how far it may stand out";
  return clear <= 0 ? "Nothing may stand here: it must stay free" : `At most ${figureOf(clear, "mm")}`;
}

/** One place for the day's work at a face: its drawing, the next fixing, the tick, the photograph, and the next. */

import { appraise, worstWords } from "../book/appraisal.js";
import { placeOf, faceStretch } from "../book/places.js";
import { nextToSetOut, toSetOut } from "../book/setting_out.js";
import { titleOf } from "../book/site.js";
import { takenBack, undoneInWords } from "../book/undoing.js";
import { countOf } from "../book/wording.js";
import { elevation } from "../drawing/elevation.js";
import { viewing } from "../drawing/viewing.js";
import { once } from "../forms/saving.js";
import { stayAwake } from "../waking.js";
import { facePage } from "./face.js";
import { fill, filled, made, slot, wire } from "./markup.js";
import { nothing, pageOf, trailOf } from "./parts.js";
import { answerNear } from "./quick.js";
import { enterPhotographs } from "./taking.js";
import { tick } from "./tick.js";

const SETTLES_MS = 500; // a second quick tap is not meant for the fixing that comes next
const SCALE = 3; // mm a pixel at first: a metre and more on a narrow screen

/** The next fixing of a face, or the one the address names; the face itself where nothing is planned or was just done. */
export async function workPage(context, id, query) {
  const { site } = context.notebook;
  const face = site?.get(id);
  if (face?.kind !== "face") return null;
  context.notebook.choose({ face: id });
  const fixing = nextToSetOut(site, face);
  return fixing || query.has("done") ? atWork(context, face, fixing, query) : facePage(context, id);
}

/** A fixing of which the address tells, at work on its face. */
export async function fittedPage(context, id, query) {
  const fixing = context.notebook.site?.get(id);
  if (fixing?.kind !== "fixing") return null;
  return atWork(context, context.notebook.site.get(fixing.values.face), fixing, query);
}

async function atWork(context, face, fixing, query) {
  const { registry, notebook } = context;
  const { site } = notebook;
  const planned = toSetOut(site, face).length;
  const body = filled("work-page", { left: planned ? `${countOf(planned, "fixing")} to set out` : "" });
  slot(body, "new").href = `#/choose/${face.id}`;
  const words = worstWords(appraise(registry, site, face));
  const chosen = (/** @type {SVGElement} */ svg) => svg.querySelector(`[data-item="${fixing?.id}"]`)?.classList.add("chosen");
  const draw = (scale) => elevation(registry, site, face, words, scale);
  const view = viewing(slot(body, "drawing"), draw, faceStretch(face), fixing ? { point: placeOf(fixing), scale: SCALE } : null);
  view.mark("chosen", chosen);
  const shown = { context, face, body, view };
  const done = notebook.items.get(query.get("done"));
  if (done) addJustDone(shown, done);
  const ticking = fixing ? await tick(context, fixing, (one) => onwards(context, face, one)) : null;
  if (ticking && done) letSettle(ticking.body);
  fill(body, { tick: ticking ? ticking.body : nothing("Nothing more is planned on this face.") });
  slot(body, "drawing").addEventListener("click", (event) => touched(shown, event));
  wire(body, { larger: () => view.enlarge(1), smaller: () => view.enlarge(-1) });
  const shutter = shutterOf(shown, done ?? fixing);
  const sleep = stayAwake();
  if (query.has("measure")) ticking?.begin();
  const next = fixing ? nextToSetOut(site, face, fixing) : undefined;
  return {
    title: fixing ? titleOf(registry, fixing) : titleOf(registry, face),
    trail: trailOf(context, face),
    body,
    writing: Boolean(fixing),
    actions: [
      ...(next ? [{ words: `Next: ${titleOf(registry, next)}`, href: `#/fitted/${next.id}` }] : [{ words: "The face", href: `#/face/${face.id}` }]),
      { words: "Photograph", act: () => shutter(fixing ?? face) },
      ...(ticking ? [{ words: "Fitted", main: true, act: ticking.save }] : []),
    ],
    leave: async () => {
      sleep();
      await ticking?.leave();
    },
  };
}

/** What ticks off by one touch can be pressed a moment after the page has changed under the thumb. */
function letSettle(body) {
  const buttons = /** @type {HTMLButtonElement[]} */ ([...body.querySelectorAll(".ways button")]);
  for (const button of buttons) button.disabled = true;
  setTimeout(() => buttons.forEach((button) => (button.disabled = false)), SETTLES_MS);
}

/** To the next fixing of the face, with what was just done still in hand. */
function onwards(context, face, fixing) {
  const next = nextToSetOut(context.notebook.site, face, context.notebook.site.get(fixing.id));
  const measured = (context.notebook.items.get(fixing.id).values.fitted_x_mm ?? null) !== null ? "&measure=1" : "";
  return context.go(next ? `#/fitted/${next.id}?done=${fixing.id}${measured}` : `#/work/${face.id}?done=${fixing.id}`, { replace: true });
}

function addJustDone({ context, body }, done) {
  const { registry, notebook } = context;
  const photographs = notebook.site.photographsOf(done).length;
  const title = titleOf(registry, done);
  const part = filled("just-done", {
    words: `${title} is ${done.values.state}${photographs ? `, ${countOf(photographs, "photograph")}` : ""}. Saved on this phone.`,
    photograph: `Photograph ${title}`,
  });
  fill(body, { done: part });
  wire(part, {
    undo: once(() => undo(context, done)),
    photograph: () => body.dispatchEvent(new CustomEvent("shoot", { detail: done })),
  });
}

async function undo(context, done) {
  const { notebook } = context;
  const history = notebook.historyOf(done.id);
  const own = history.findLast(({ device }) => device === notebook.facts.device); // others may have changed it since
  const change = own && takenBack(history, own, notebook.items.get(done.id));
  if (!change) {
    context.say(`${titleOf(context.registry, done)} was changed elsewhere since: nothing is undone.`);
    return false;
  }
  try {
    await notebook.write([change]);
  } catch (error) {
    context.fail(error);
    return false;
  }
  context.say(`${titleOf(context.registry, done)}: ${undoneInWords(context.registry, own, change)}`);
  context.runner.nudge();
  await context.go(`#/fitted/${done.id}`, { replace: true });
  return true;
}

/** What takes photographs of a thing on this page, one after the other. */
function shutterOf({ context, body }, first) {
  const input = /** @type {HTMLInputElement} */ (made("shutter"));
  fill(body, { "shutter-place": input });
  let subject = first;
  const press = (of) => {
    subject = of;
    input.click();
  };
  body.addEventListener("shoot", (event) => press(/** @type {CustomEvent} */ (event).detail));
  input.addEventListener("change", async () => {
    const files = [...input.files];
    input.value = "";
    await enterPhotographs(context, subject, files);
    const part = body.querySelector(".just-done");
    if (part && subject.values.state !== "planned") addJustDone({ context, body }, subject);
  });
  return press;
}

function touched(shown, event) {
  const { context } = shown;
  const id = event.target.closest("[data-item]")?.dataset.item;
  const item = context.notebook.items.get(id);
  if (item?.kind === "fixing") context.go(`#/fitted/${id}`, { replace: true });
  else if (item && !["zone", "limit", "fitting"].includes(item.kind)) context.go(pageOf(item));
  else answerNear(shown, event);
}

/** Moved along, or more on it: a place and a mass go in, the answer comes out at once, and the new state is entered. */

import { against, movedBy } from "../book/moving.js";
import { today } from "../book/moments.js";
import { calledOf, titleOf } from "../book/site.js";
import { figureOf } from "../book/wording.js";
import { entered, figureIn } from "../forms/entering.js";
import { keepTyped } from "../forms/keeping.js";
import { once } from "../forms/saving.js";
import { fill, filled, lineOfList, slot } from "./markup.js";
import { trailOf, wordOf } from "./parts.js";

const [WITHIN, ASK] = ["within", "not agreed"];
const IN_FIGURES = "Give a place, or a mass, in figures.";

export async function movePage(context, id) {
  const { registry, notebook } = context;
  const present = () => notebook.site?.get(id);
  const fitting = present();
  if (fitting?.kind !== "fitting") return null;
  const body = filled("move-page", { title: titleOf(registry, fitting), now: nowOf(fitting) });
  const wanted = () => ({ x: figureIn(slot(body, "x")), kg: figureIn(slot(body, "kg"), "kg") });
  const reckon = () => {
    const asked = wanted();
    if (asked.x === null && asked.kg === null) return fill(body, { answer: "", reasons: [] });
    if (isUnread(asked)) return fill(body, { answer: "", reasons: [lineOfList(IN_FIGURES)] });
    const reasons = against(registry, notebook.site, present() ?? fitting, asked);
    return fill(body, { answer: reasons.length ? wordOf(ASK, "ask first") : wordOf(WITHIN, "within its room to move"), reasons: reasons.map(lineOfList) });
  };
  slot(body, "form").addEventListener("input", reckon);
  slot(body, "form").addEventListener("submit", (event) => event.preventDefault());
  const kept = await keepTyped(context, body, { key: `move ${id}`, title: `Moved: ${titleOf(registry, fitting)}` });
  reckon();
  /** What others did to it meanwhile is shown, and counts as seen. */
  const stop = notebook.onChange(() => {
    if (!present()) return;
    fill(body, { now: nowOf(present()) });
    kept.seen = notebook.cursor;
    reckon();
  });
  const save = once(() => saved(context, present() ?? fitting, wanted(), slot(body, "words").value.trim(), kept));
  return { title: titleOf(registry, fitting), trail: trailOf(context, fitting), body, writing: true, leave: stop, actions: [{ words: "Back", act: () => history.back() }, { words: "It is there now", main: true, act: save }] };
}

/** Whether what is typed is no figure, or can be read in two ways: it is within nothing. */
const isUnread = ({ x, kg }) => [x, kg].some(Number.isNaN);

function nowOf({ values: { x_mm: x, mass_loaded_kg: kg, moves_mm: moves } }) {
  return [`Now at x ${figureOf(x, "mm")}`, figureOf(kg, "kg") && `with ${figureOf(kg, "kg")} in all`, moves && `made to be moved by ${figureOf(moves, "mm")}`].filter(Boolean).join("; ");
}

/** What stands is entered even where it should have been asked first: the record tells what is there, and that it is to be asked. */
async function saved(context, fitting, { x, kg }, words, kept) {
  const { registry, notebook } = context;
  if ((x === null && kg === null) || isUnread({ x, kg })) {
    context.say(IN_FIGURES);
    return false;
  }
  const reasons = against(registry, notebook.site, fitting, { x, kg });
  const by = x === null ? 0 : x - fitting.values.x_mm;
  const moved = by ? movedBy(notebook.site, fitting, by) : [fitting];
  const changes = moved.map((one) => ({ kind: one.kind, item: notebook.site.get(one.id), values: changedIn(one, notebook.site.get(one.id)) }));
  if (kg !== null) Object.assign(changes[0].values, { mass_loaded_kg: kg });
  const said = [by && `moved to x ${figureOf(x, "mm")}`, kg !== null && `${figureOf(kg, "kg")} in all`].filter(Boolean).join(", ");
  const work = { site: notebook.site.item.id, what: `${calledOf(registry, fitting)} ${said}`.slice(0, 190), sort: "moved or loaded", fitting: fitting.id, on: today(), by: notebook.facts.inspected_by ?? notebook.facts.fitted_by, outcome: "done", done: words, found: reasons.length ? `To be asked: ${reasons.join("; ")}` : "" };
  const ids = await entered(context, [...changes.filter(({ values }) => Object.keys(values).length), { kind: "work", values: work }], reasons.length ? "Entered. It is to be asked about." : "Entered: within its room to move.", kept);
  if (!ids) return false;
  await context.go(`#/item/${fitting.id}`, { replace: true });
  return true;
}

function changedIn({ values }, before) {
  return Object.fromEntries(Object.entries(values).filter(([name, value]) => before.values[name] !== value));
}

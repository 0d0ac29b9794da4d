/** One fitting coming off: its steps, each ticked; what each fixing leaves beside what was expected; where it goes. */

import { today } from "../book/moments.js";
import { calledOf, stands, titleOf } from "../book/site.js";
import { TAKING_DOWN, offBefore, stages, stepsOff, ticked } from "../book/taking_down.js";
import { figureOf } from "../book/wording.js";
import { entered } from "../forms/entering.js";
import { keepTyped } from "../forms/keeping.js";
import { once } from "../forms/saving.js";
import { fill, filled, rows, slot, wire } from "./markup.js";
import { fixingComingOff } from "./off_fixing.js";
import { cautionsOf, trailOf } from "./parts.js";
import { shutter } from "./taking.js";

const HANDS = 2;
const LONGEST = 200; // what a line holds

export async function offPage(context, id) {
  const { registry, notebook } = context;
  const { site } = notebook;
  const fitting = site?.get(id);
  if (fitting?.kind !== "fitting" || !stands(fitting)) return null;
  if (![fitting, ...site.of(fitting, "fixing")].some(({ values }) => values.state === "fitted")) return notUp(context, fitting);
  const before = offBefore(site, fitting).filter(({ values }) => values.state === "fitted");
  const stage = stages(site).find((one) => one.fitting.id === id)?.stage;
  const fixings = site.of(fitting, "fixing");
  const body = filled("off-page", {
    stage: stage ? `Taking down, stage ${stage}` : "Taking down",
    title: titleOf(registry, fitting),
    facts: factsOf(fitting, fixings),
    cautions: cautionsOf(context, ["loads", "overhead work", "lifting"]),
    steps: stepsOff(fitting, fixings).map(stepOf),
    goes: goesTo(registry),
  });
  const hold = fixings.filter(({ values }) => values.state === "fitted");
  fill(body, hold.length ? { fixings: hold.map((one) => fixingComingOff(context, body, one)) } : { "fixings-part": null });
  fill(body, before.length ? { wait: `Not its turn: ${before.map((one) => calledOf(registry, one)).join(", ")} would come off first.` } : { early: null });
  slot(body, "by").value = notebook.facts.fitted_by ?? "";
  if (!slot(body, "steps").children.length) slot(body, "steps").replaceChildren("How to take it down is not entered.");
  const stop = notebook.onChange(() => showTicks(notebook, body, id));
  showTicks(notebook, body, id);
  const chosen = { goes: null };
  const kept = await keepTyped(context, body, { key: `off ${id}`, title: `Taking down ${titleOf(registry, fitting)}` }, chosen);
  const showChosen = () => [...slot(body, "goes").children].forEach((button) => button.setAttribute("aria-pressed", String(button.dataset.value === chosen.goes)));
  showChosen();
  wire(body, {
    tick: (_, pressed) => tick(context, body, id, pressed),
    answer(_, pressed) {
      chosen.goes = pressed.dataset.value;
      showChosen();
      kept.keep();
    },
  });
  const save = once(() => saved(context, body, id, { goes: chosen.goes, before, kept }));
  return { title: titleOf(registry, fitting), trail: trailOf(context, fitting), body, writing: true, leave: stop, actions: [{ words: "Taking down", href: "#/down" }, shutter(context, body, fitting, "before removal"), { words: "Taken down", main: true, act: save }] };
}

/** What never went up does not come down. */
function notUp(context, fitting) {
  const title = titleOf(context.registry, fitting);
  return { title, trail: trailOf(context, fitting), body: filled("nothing-to-do", { title, words: "It is planned, and not up: there is nothing to take down." }), actions: [{ words: "Taking down", href: "#/down" }] };
}

function factsOf({ values }, fixings) {
  const mass = values.mass_empty_kg ?? values.mass_loaded_kg ?? null;
  const people = values.people_to_remove ?? null;
  const tools = [...new Set(fixings.filter(stands).map((one) => one.values.removal_tool).filter(Boolean))];
  return rows("fact", [
    ["People", figureOf(people)],
    ["Time", figureOf(values.minutes_to_remove, "min")],
    ["Weight", mass === null ? "not entered: weigh it with care" : `${figureOf(mass, "kg")}${people ? `, about ${figureOf(Math.ceil((mass / people / HANDS) * 10) / 10, "kg")} in each hand` : ""}`],
    ["Tools", tools.join(", ")],
    ["Take care", values.note],
  ]);
}

function stepOf(words) {
  const step = filled("off-step", { words });
  slot(step, "box").dataset.step = words.slice(0, LONGEST);
  return step;
}

/** Those ticked by others too, while the page is open. */
function showTicks({ site }, body, id) {
  const fitting = site?.get(id);
  if (!fitting) return;
  const done = new Set([...(fitting.values.ticked_off ?? []).map(([step]) => step), ...ticked(site, fitting).map(({ values }) => values.what)]);
  for (const box of slot(body, "steps").querySelectorAll("input")) box.checked = done.has(box.dataset.step);
}

function goesTo(registry) {
  return registry.kinds.get("fitting").byName.get("went_to").choices.map((/** @type {string} */ word) => {
    const button = filled("answer-button", { word });
    button.dataset.value = word;
    return button;
  });
}

/** Each tick is kept at once, by itself: whoever takes over from here sees how far it is, and two at once do not cross. */
async function tick(context, body, id, box) {
  const { notebook } = context;
  const fitting = notebook.site.get(id);
  const step = box.dataset.step;
  const work = { site: notebook.site.item.id, what: step, sort: TAKING_DOWN, fitting: id, on: today(), by: slot(body, "by").value.trim() || null, outcome: "done" };
  const kept = box.checked ? await entered(context, [{ kind: "work", values: work }], "Ticked.") : await takenBack(context, fitting, step);
  if (!kept) box.checked = !box.checked;
}

async function takenBack(context, fitting, step) {
  const before = fitting.values.ticked_off ?? []; // as it was kept before each step was work done
  const rest = before.filter(([done]) => done !== step);
  const work = ticked(context.notebook.site, fitting).filter(({ values }) => values.what === step);
  const changes = work.map(({ kind, id }) => ({ kind, item: id, withdraw: true }));
  if (rest.length < before.length) changes.push({ kind: "fitting", item: fitting.id, set: { ticked_off: rest.length ? rest : null } });
  try {
    await context.notebook.write(changes);
  } catch (error) {
    context.fail(error);
    return false;
  }
  context.say("Tick taken back.");
  context.runner.nudge();
  return true;
}

async function saved(context, body, id, { goes, before, kept }) {
  const { registry, notebook } = context;
  const fitting = notebook.site.get(id);
  if (!fitting || !stands(fitting)) {
    await kept.drop();
    context.say("It was taken down elsewhere meanwhile, or withdrawn: nothing was entered.");
    await context.go("#/down", { replace: true });
    return true;
  }
  const why = before.length ? slot(body, "why").value.trim() : "";
  const holds = notebook.site.of(fitting, "fixing").filter(({ values }) => values.state === "fitted");
  const missing = holds.length
    ? `${holds.map((one) => calledOf(registry, one)).join(", ")} still holds it: say what was found there, and that it is off.`
    : before.length && !why ? "Say why it comes off before its turn." : goes ? "" : "Say where it goes.";
  if (missing) {
    context.say(missing);
    return false;
  }
  const planned = notebook.site.of(fitting, "fixing").filter(stands);
  const gone = planned.map((one) => ({ kind: "fixing", item: one, values: { state: "taken down" } })); // never went in
  const values = { state: "taken down", taken_down_on: today(), taken_down_by: slot(body, "by").value.trim() || null, out_of_order: why || null, went_to: goes, went_where: slot(body, "where").value.trim() || null };
  if (!(await entered(context, [...gone, { kind: "fitting", item: fitting, values }], `${calledOf(registry, fitting)} is down.`, kept))) return false;
  await context.go("#/down", { replace: true });
  return true;
}

/** On a round: the torque of a fixing found and left, and a place or a gap measured again, with how far it has changed. */

import { drift, driftWords } from "../../checks/drift.js";
import { monthsAfter } from "../../checks/rounds.js";
import { now } from "../forms/presets.js";
import { entered, figureIn } from "../forms/entering.js";
import { today } from "../book/moments.js";
import { calledOf, stands } from "../book/site.js";
import { slot, tell, wire } from "./markup.js";

const AGAIN_MONTHS = 12;
const AS_FITTED = { x: "fitted_x_mm", z: "fitted_z_mm" };

/** The part of a page that enters torque and measures of a fitting. */
export function addMeasuring(context, body, fitting) {
  const { registry, notebook } = context;
  const { site } = notebook;
  const fixings = site.of(fitting, "fixing").filter(stands);
  slot(body, "fixing").replaceChildren(new Option("the fitting itself", ""), ...fixings.map((one) => new Option(calledOf(registry, one), one.id)));
  if (fixings.length) slot(body, "fixing").value = fixings[0].id;
  const before = new Set(["x", "z", ...readingsOf(site, fitting).map(({ values }) => values.of)]);
  slot(body, "of-before").replaceChildren(...[...before].map((of) => new Option(of)));
  const part = slot(body, "measure");
  part.addEventListener("input", () => tell(slot(body, "change"), changeNow(context, body, fitting)));
  wire(part, { tighten: () => tighten(context, body, fitting), measured: () => measured(context, body, fitting) });
}

function readingsOf(site, fitting) {
  return site.all("reading").filter(({ values }) => values.fitting === fitting.id && values.of && values.unit === "mm");
}

/** What was measured of the same thing before, the oldest first; a fixing's place begins where it was fitted. */
function seriesOf(site, fitting, fixing, of) {
  const own = readingsOf(site, fitting).filter(({ values }) => (values.fixing ?? "") === (fixing?.id ?? "") && values.of === of);
  own.sort((one, other) => Date.parse(one.values.at) - Date.parse(other.values.at));
  const fitted = fixing?.values[AS_FITTED[of]] ?? null;
  return [...(fitted === null ? [] : [[fitted, null]]), ...own.map(({ values }) => [values.value, values.uncertainty ?? null])];
}

function changeNow({ notebook }, body, fitting) {
  const value = figureIn(slot(body, "measured"));
  const of = slot(body, "of").value.trim();
  if (value === null || !Number.isFinite(value) || !of) return "";
  const series = seriesOf(notebook.site, fitting, notebook.site.get(slot(body, "fixing").value), of);
  const unsure = figureIn(slot(body, "unsure"));
  if (Number.isNaN(unsure)) return "";
  const change = drift([...series, [value, unsure]]);
  return change ? driftWords(change) : "The first of its kind: later ones are held against it.";
}

async function tighten(context, body, fitting) {
  const { registry, notebook } = context;
  const fixing = notebook.site.get(slot(body, "fixing").value);
  const [found, left] = [figureIn(slot(body, "torque-before"), "N m"), figureIn(slot(body, "torque-after"), "N m")];
  if (!fixing || (found === null && left === null) || [found, left].some(Number.isNaN)) return context.say("Choose a fixing, and give the torque found or left, in figures.");
  const work = { site: notebook.site.item.id, what: `Tightness of ${calledOf(registry, fixing)}`, sort: "tightening", fitting: fitting.id, fixing: fixing.id, on: today(), by: notebook.facts.inspected_by ?? notebook.facts.fitted_by, outcome: "done", torque_before_nm: found, torque_after_nm: left };
  const next = fixing.values.looked_at_on ? [{ kind: "fixing", item: fixing, values: { looked_at_on: monthsAfter(today(), AGAIN_MONTHS) } }] : [];
  if (!(await entered(context, [{ kind: "work", values: work }, ...next], `${calledOf(registry, fixing)}: torque entered. Saved on this phone.`))) return undefined;
  for (const name of ["torque-before", "torque-after"]) empty(slot(body, name));
  return undefined;
}

async function measured(context, body, fitting) {
  const { registry, notebook } = context;
  const { face } = fitting.values;
  const fixing = notebook.site.get(slot(body, "fixing").value);
  const [value, of] = [figureIn(slot(body, "measured")), slot(body, "of").value.trim()];
  const uncertainty = figureIn(slot(body, "unsure"));
  if (value === null || !of || [value, uncertainty].some(Number.isNaN)) return context.say("Say of what, and give the figures in mm.");
  const values = { room: notebook.site.get(face).values.room, face, quantity: "distance", unit: "mm", value, uncertainty, at: now(), taken_by: notebook.facts.inspected_by ?? notebook.facts.fitted_by, fitting: fitting.id, fixing: fixing?.id, of };
  const said = changeNow(context, body, fitting);
  if (await entered(context, [{ kind: "reading", values }], `${calledOf(registry, fixing ?? fitting)}, ${of}: ${said}`)) empty(slot(body, "measured"));
  return undefined;
}

/** It is entered: nothing is to be kept of it. */
function empty(input) {
  input.value = "";
  input.dispatchEvent(new Event("input", { bubbles: true }));
}

/** Whether more weighs on what was agreed than did then. Mirrors fieldbook/findings/heavier.py. */

import { figure } from "../../checks/refusal.js";
import { need } from "./asking.js";
import { known } from "./places.js";
import { calledOf, stands } from "./site.js";

const PLAY = 1.05; // what a mass may come to when it is weighed again: common practice, no source
const FLOOR = "the floor";

/** That a fitting, or the one a fixing holds, weighs more with all on it than when it was agreed to, in words. */
export function heavier(asked, ruling, thing) {
  const { site } = asked;
  const fitting = thing.kind === "fixing" ? site.get(thing.values.fitting) : thing;
  if (!fitting || fitting.values.support === FLOOR || (thing.kind === "fixing" && thing.values.carries_load === 0)) return [];
  if (thing.kind === "fixing" && site.then(ruling, thing)?.carries_load === 0) return ["it carries load now"];
  const was = site.then(ruling, fitting) ?? {};
  const hung = allHungOn(site, fitting);
  const now = sum([fitting, ...hung].map((one) => need(asked, one, "mass_loaded_kg")));
  const weighs = `${calledOf(asked.registry, fitting)} weighs ${figure(now)} kg${hung.length ? " with what hangs on it" : ""}`;
  if (was.support === FLOOR) return [`${weighs}, which the floor carried then`];
  if (!known(was.mass_loaded_kg)) return [`${weighs}, which was not entered then`];
  const hungThen = sum(hung.map((one) => site.then(ruling, one)?.mass_loaded_kg ?? 0));
  const then = was.mass_loaded_kg + Math.max(hungThen, was.carries_kg ?? 0);
  return now > then * PLAY ? [`${weighs}, not ${figure(then)}`] : [];
}

/** All whose weight goes through a fitting, each once, itself left out even where it goes round in a circle. */
function allHungOn(site, fitting) {
  const found = new Map([[fitting.id, fitting]]);
  for (const carrier of found.values()) for (const one of hungOn(site, carrier)) if (!found.has(one.id)) found.set(one.id, one);
  return [...found.values()].slice(1);
}

/** The fittings that hang on one or are fixed to it, and stand. */
function hungOn(site, fitting) {
  const joined = site.those("fixing", (one) => stands(one) && one.values.other_fitting === fitting.id).map((one) => site.get(one.values.fitting));
  const hanging = site.those("fitting", ({ values }) => values.hangs_on === fitting.id);
  return [...hanging, ...joined].filter((one) => one && stands(one) && one.id !== fitting.id);
}

function sum(figures) {
  return figures.reduce((total, one) => total + one, 0);
}

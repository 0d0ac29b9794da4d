/** In which order things come down: what hangs on another, is fixed to it or covers it, comes off first. Mirrors fieldbook/findings/taking_down.py. */

import { stands } from "./site.js";

export const TAKING_DOWN = "taking down"; // the sort of work that a step of it is

/** @typedef {import("./site.js").Item} Item */

/** What must be off before a fitting is: those that hang on it, are fixed to it or cover it, and still stand. */
export function offBefore(site, fitting) {
  const fixedTo = new Set(site.all("fixing").filter((one) => stands(one) && one.values.other_fitting === fitting.id).map(({ values }) => values.fitting));
  const waits = ({ id, values }) => values.hangs_on === fitting.id || fixedTo.has(id) || (values.covers ?? []).includes(fitting.id);
  return site.all("fitting").filter((other) => other.id !== fitting.id && stands(other) && waits(other));
}

/**
 * Everything that stands, with its stage: 1 may come off now; 0 where things wait for each other.
 * @returns {{fitting: Item, stage: number, before: Item[]}[]}
 */
export function stages(site) {
  const up = site.all("fitting").filter(stands);
  const before = new Map(up.map((one) => [one.id, offBefore(site, one)]));
  const known = new Map();
  const stageOf = (id, above = new Set()) => {
    if (above.has(id)) return NaN; // round in a circle
    if (!known.has(id)) known.set(id, 1 + Math.max(0, ...before.get(id).map((one) => stageOf(one.id, new Set([...above, id])))));
    return known.get(id);
  };
  const told = up.map((fitting) => ({ fitting, stage: stageOf(fitting.id) || 0, before: before.get(fitting.id) }));
  return told.sort((one, other) => (one.stage || Infinity) - (other.stage || Infinity) || 0);
}

/** The steps of taking a fitting down that were ticked, each as work done: so those of two phones stand side by side. */
export function ticked(site, fitting) {
  return site.those("work", ({ values }) => values.fitting === fitting.id && values.sort === TAKING_DOWN);
}

/** Whether a fixing is in, or was until it came out on a day: one that was planned is taken down with its fitting. */
export function wasIn({ values }) {
  return stands({ values }) ? values.state === "fitted" : Boolean(values.taken_down_on);
}

/** The fixings of which nobody has said what they left, now that what they held is down; those never put in left nothing. Mirrors fieldbook/findings/taking_down.py. */
export function notSaid(site, fittings) {
  return fittings.flatMap((one) => site.of(one, "fixing")).filter((one) => wasIn(one) && !one.values.trace_found);
}

/** How a fitting and its fixings come off, in words, first to last. Mirrors fieldbook/record/coming_off.py. */
export function stepsOff(fitting, fixings) {
  const own = (fitting.values.removal ?? "").trim().split(/(?<=[.!?])\s+(?=[A-Z])|\s*\n\s*/).filter(Boolean);
  const up = fixings.filter(stands);
  const off = up.filter(({ values }) => values.removal).map(({ values }) => `${values.mark}${values.removal_tool ? ` (${values.removal_tool})` : ""}: ${values.removal}`);
  const good = up.filter(({ values }) => values.make_good).map(({ values }) => `Then, at ${values.mark}: ${values.make_good}`);
  return [...own, ...off, ...good];
}

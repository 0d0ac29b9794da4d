/**
 * Whether a fitting may be moved along, or carry so much, without asking: what was agreed and reckoned with holds, and
 * no answer at the wall becomes worse. What only the desk can calculate the phone has with it, as it was when they last
 * met; where something was entered since, it is asked first.
 */

import { WORDS } from "../../checks/verdict.js";
import { appraiseOne, consentOf } from "./appraisal.js";
import { numberTo, withoutNoise } from "./figures.js";
import { stands } from "./site.js";
import { supposing } from "./supposing.js";
import { offBefore } from "./taking_down.js";

/**
 * @param {import("./registry.js").Registry} registry
 * @param {import("./site.js").Site} site
 * @param {import("./site.js").Item} fitting
 * @param {{x: number|null, kg: number|null}} wanted
 * @returns {string[]} what speaks against it; empty: it is within its room
 */
export function against(registry, site, fitting, { x, kg }) {
  const { x_mm: at, moves_mm: moves, hangs_on: carrier } = fitting.values;
  const by = x === null ? 0 : withoutNoise(x - at);
  const found = atTheDesk(site, fitting, by, kg);
  if (!by) return found;
  if ((moves ?? null) === null) found.push("it is not made to be moved");
  else if (Math.abs(by) > moves) found.push(`it is made to be moved by ${numberTo(moves)} mm, not ${numberTo(Math.abs(by))} mm`);
  const beam = carrier ? site.get(carrier) : null;
  if (beam && (x < beam.values.x_mm || x + fitting.values.width_mm > beam.values.x_mm + beam.values.width_mm)) found.push(`it would stand beyond the end of ${beam.values.mark}`);
  const moved = movedBy(site, fitting, by);
  const along = new Set(moved.map(({ id }) => id));
  for (const one of site.all("fitting")) if (!along.has(one.id) && overlaps(one, fitting, x) && !overlaps(one, fitting, at)) found.push(`it would stand over ${one.values.mark}`);
  const then = moved.reduce((state, one) => supposing(registry, state, one), site);
  for (const one of moved) {
    const was = new Map(all(registry, site, site.get(one.id)).map(({ verdict }) => [verdict.check, verdict.word]));
    for (const { verdict } of all(registry, then, one)) {
      if (WORDS.indexOf(verdict.word) < WORDS.indexOf(was.get(verdict.check))) found.push(verdict.sentence);
    }
  }
  return found;
}

/** What speaks against it by what the desk calculated: room along and room for more, while nothing has changed since. */
function atTheDesk(site, fitting, by, kg) {
  const { id, values: { x_mm: at, mass_loaded_kg: loaded } } = fitting;
  const room = site.desk?.fresh ? site.desk.room?.[id] : null;
  const since = site.desk?.fresh ? "it is entered neither as made to be moved nor as made to carry things" : site.desk ? "something was entered since the desk calculated it" : "the desk has not calculated it yet";
  const found = [];
  const more = kg !== null && (loaded ?? null) !== null && kg > loaded;
  const most = numberTo(loaded + (room?.more_kg ?? 0)); // never more than was calculated
  if (kg !== null && (loaded ?? null) === null) found.push("what it may carry is not entered");
  else if (more && !room) found.push(`it was calculated with ${numberTo(loaded)} kg, not ${numberTo(kg)} kg; ${since}`);
  else if (more && by) found.push("another place and more on it at once are calculated at the desk");
  else if (more && kg > Number(most)) found.push(`it may weigh at most ${most} kg with all on it${room.set_by ? `: ${room.set_by}` : ""}`);
  if (by && !room) found.push(`what it comes to there is calculated at the desk: ${since}`);
  else if (by && !room.along_mm.some(([from, to]) => from <= withoutNoise(at + by) && withoutNoise(at + by) <= to)) found.push(`its left edge may stand at ${room.along_mm.map(([from, to]) => `x ${from} to ${to} mm`).join(" or ") || "no other place"}${room.set_by ? `: ${room.set_by}` : ""}`);
  return found;
}

/** A fitting, what hangs on it on the same face, and their fixings, as they would stand that much further along. */
export function movedBy(site, fitting, by) {
  const shifted = (item, ...names) => ({ ...item, values: { ...item.values, ...Object.fromEntries(names.filter((name) => (item.values[name] ?? null) !== null).map((name) => [name, withoutNoise(item.values[name] + by)])) } });
  const parts = withHung(site, fitting);
  const fixings = parts.flatMap((part) => site.of(part, "fixing")).filter((one) => stands(one) && one.values.face === fitting.values.face);
  return [...parts.map((one) => shifted(one, "x_mm", "centre_x_mm")), ...fixings.map((one) => shifted(one, "x_mm", "fitted_x_mm"))];
}

/** A fitting and all that hangs on it or is fixed to it, and goes where it goes. */
function withHung(site, fitting) {
  const found = [fitting];
  for (const one of found) for (const other of offBefore(site, one)) if (hangsOn(site, other, one) && other.values.face === fitting.values.face && !found.includes(other)) found.push(other);
  return found;
}

function hangsOn(site, one, other) {
  return one.values.hangs_on === other.id || site.of(one, "fixing").some((fixing) => stands(fixing) && fixing.values.other_fitting === other.id);
}

function overlaps(one, { id, values }, x) {
  const { face, x_mm: left, z_mm: low, width_mm: width, height_mm: height, hangs_on: on } = one.values;
  if (one.id === id || !stands(one) || face !== values.face || on === id || values.hangs_on === one.id) return false;
  return left < x + values.width_mm && x < left + width && low < values.z_mm + values.height_mm && values.z_mm < low + height;
}

/** Each question's finding; the worst alone would hide what became worse behind it. */
function all(registry, site, item) {
  return [...appraiseOne(registry, site, item), consentOf(registry, site, item)];
}

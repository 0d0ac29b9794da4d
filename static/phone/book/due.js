/** What is due on a site: when, by whom, where. Mirrors fieldbook/findings/due.py. */

import { daysBetween, monthsAfter, nextRound } from "../../checks/rounds.js";
import { calledOf, stands, titleOf } from "./site.js";

const PATCH_MONTHS = { 3: "three", 12: "twelve" };
const URGENT_MONTHS = { 3: 0, 2: 1, 1: 12 };
const EARLY_DAYS = 14;
const SOON_MONTHS = 3;
const DATED = { work: "on", visit: "on", observation: "at", patch: "looked_on" };
const UP_AND_DOWN = ["fitted_on", "taken_down_on"];
const HAPPENED = { ...Object.fromEntries(Object.entries(DATED).map(([kind, name]) => [kind, [name]])), fitting: UP_AND_DOWN, fixing: UP_AND_DOWN, colour: ["on"], statement: ["on"] };
export const [OVERDUE, SOON, LATER, UNDATED] = ["overdue", "soon", "later", "no day entered"];
const STATES = [OVERDUE, SOON, LATER, UNDATED];

/** @typedef {import("./site.js").Item} Item */
/** @typedef {{part: string, on: string|null, sort: string, what: string, item: Item, about: Item|null, by: string, every: number|null, whyNot: string, open: boolean}} Due */

/**
 * What is to be done on a site, what is overdue first, each part in the order of a walk through the rooms.
 * @param {import("./registry.js").Registry} registry
 * @param {import("./site.js").Site} site
 * @param {string} today
 * @returns {Due[]}
 */
export function dueOn(registry, site, today) {
  const place = walkOf(site);
  const key = (one) => [STATES.indexOf(stateOf(one, today)), ...place(one.about), one.on ?? today];
  return [...allDue(registry, site, today)].filter(({ open }) => open).map((one) => ({ one, key: key(one) })).sort(byKey).map(({ one }) => one);
}

/** Whether it should have been done by today, is to be done in the next months, or later. */
export function stateOf({ on }, today) {
  if (!on) return UNDATED;
  if (on <= today) return OVERDUE;
  return on <= monthsAfter(today, SOON_MONTHS) ? SOON : LATER;
}

/** What is dated after today: its clock was wrong, or this one is. */
export function datedAhead(site, today) {
  return Object.entries(HAPPENED).flatMap(([kind, names]) => site.all(kind).filter(({ values }) => names.some((name) => dayOf(values[name]) > today)));
}

/** The room something is in; null for what is of no room. */
export function roomOf(site, about) {
  let at = about ?? null;
  while (at && at.kind !== "room" && at.kind !== "site") at = (at.kind === "fixing" ? site.get(at.values.face) : site.parent(at)) ?? null;
  return at?.kind === "room" ? at : null;
}

function* allDue(registry, site, today) {
  yield* tasks(site, today);
  yield* visits(site, today);
  yield* agreements(site);
  yield* patches(registry, site, today);
  yield* tightness(registry, site, today);
  yield* seen(registry, site, today);
  yield* answers(registry, site, today);
}

const dayOf = (text) => (text ?? "").slice(0, 10);
const naming = (site, kind, name, target) => site.all(kind).filter(({ values }) => target && values[name] === target.id);
const wasDone = (today) => ({ values }) => values.outcome === "done" && values.on <= today;
const PLAIN = { about: null, by: "", every: null, whyNot: "", open: true };

function due(part, on, sort, what, item, more) {
  return { part, on, sort, what, item, ...PLAIN, ...more };
}

function* tasks(site, today) {
  for (const task of site.all("task")) {
    const { fitting, room, first_on: first, every_months: every, what, who } = task.values;
    const about = site.get(fitting) ?? site.get(room) ?? null;
    const works = naming(site, "work", "task", task);
    const visits = site.all("visit").filter(({ values }) => values.on <= today && names(values.done ?? "", what));
    const done = [...works.filter(wasDone(today)), ...visits].map(({ values }) => values.on);
    const on = nextRound(first ?? null, every ?? null, done);
    const tried = works.filter(({ values }) => values.outcome !== "done" && values.on <= today).sort(byText(({ id, values }) => `${values.on} ${id}`)).at(-1);
    const after = tried && on ? nextRound(first ?? null, every ?? null, [...done, tried.values.on]) : on; // had it been done then
    const whyNot = tried && on && (!after || after > on) ? tried.values.reason ?? "" : "";
    yield due("", on, "care", what, task, { about, by: who ?? "", every: every ?? null, whyNot, open: (!about || stands(about)) && !(done.length && !on) });
  }
}

/** Whether words name a thing whole, whatever the case of their letters and the spaces between. */
function names(words, what) {
  const [said, sought] = [words, what].map((one) => one.toLowerCase().split(/[^\p{L}\p{N}]+/u).filter(Boolean).join(" "));
  return Boolean(sought) && ` ${said} `.includes(` ${sought} `);
}

function* visits(site, today) {
  const sorted = site.all("visit").filter(({ values }) => values.on <= today).sort(byText(({ id, values }) => `${values.on} ${id}`));
  for (const [place, visit] of sorted.entries()) {
    if (visit.values.next_on) yield due("", visit.values.next_on, "visit", "Visit", visit, { by: visit.values.by ?? fitterOf(site), open: place + 1 === sorted.length });
  }
}

function* agreements(site) {
  for (const one of site.all("agreement")) {
    const { items, until, answer, reference, conditions, conditions_met: met, said_by: by, on } = one.values;
    const named = (items ?? []).map(site.get).filter(Boolean);
    const about = named.length === 1 ? named[0] : null;
    const standing = !named.length || named.some(stands);
    if (until) yield due("", until, "agreement", `End of agreement ${reference}: ask again`, one, { about, by, open: standing && answer !== "no" && !agreedAnew(site, one) });
    const unmet = standing && answer !== "no" && ["not yet", "no"].includes(met);
    if (conditions) yield due("conditions", on, "condition", `Conditions of agreement ${reference}: ${conditions}`, one, { about, by: fitterOf(site), open: unmet });
  }
}

function agreedAnew(site, old) {
  const { items, on, until } = old.values;
  const covers = ({ values }) => (items ?? []).every((id) => (values.items ?? []).includes(id)) && (!values.until || values.until > until);
  return Boolean(items?.length) && site.all("agreement").some((one) => one.id !== old.id && one.values.on > on && one.values.answer !== "no" && covers(one));
}

function* patches(registry, site, today) {
  for (const patch of site.all("patch")) {
    const looked = patch.values.looked_on;
    for (const [months, words] of Object.entries(PATCH_MONTHS)) {
      const on = monthsAfter(patch.values.laid_on, Number(months));
      const open = !(looked && looked <= today && daysBetween(looked, on) <= EARLY_DAYS);
      const what = `Test patch ${calledOf(registry, patch)}: look after ${words} months, with a photograph`;
      yield due(`${months} months`, on, "test patch", what, patch, { about: patch, by: patch.values.seen_by ?? fitterOf(site), open });
    }
  }
}

function* tightness(registry, site, today) {
  for (const fixing of site.those("fixing", ({ values }) => values.looked_at_on)) {
    const on = fixing.values.looked_at_on;
    const tightened = naming(site, "work", "fixing", fixing).filter(wasDone(today)).filter(({ values }) => values.sort === "tightening");
    const looked = tightened.some(({ values }) => daysBetween(values.on, on) <= EARLY_DAYS);
    const what = `Look whether ${calledOf(registry, fixing)} is tight`;
    yield due("", on, "tightness", what, fixing, { about: fixing, by: fixing.values.fitted_by ?? fitterOf(site), open: stands(fixing) && !looked });
  }
}

function* seen(registry, site, today) {
  for (const one of site.those("observation", ({ values }) => values.urgency_class in URGENT_MONTHS)) {
    const { urgency_class: urgency, at, fitting, face, room, what } = one.values;
    const months = URGENT_MONTHS[urgency];
    if (dayOf(at) > today) continue;
    const about = site.get(fitting) ?? site.get(face) ?? site.get(room) ?? null;
    const open = (!about || stands(about)) && !isSeenTo(site, one, today);
    yield due("", monthsAfter(dayOf(at), months), "finding", what ?? titleOf(registry, one), one, { about, by: fitterOf(site), open });
  }
}

/** What stands and is refused or over, as the desk last answered: the phone alone knows no loads. */
function* answers(registry, site, today) {
  for (const fitting of site.all("fitting")) {
    const sentences = (stands(fitting) && site.desk?.open?.[fitting.id]) || [];
    if (!sentences.length) continue;
    const more = sentences.length > 1 ? ` And ${sentences.length - 1} more.` : "";
    yield due("answers", today, "answer", `${calledOf(registry, fitting)} needs attention: ${sentences[0]}${more}`, fitting, { about: fitting, by: fitterOf(site) });
  }
}

/** Whether it was mended, or somebody has looked over the same fitting again since. */
export function isSeenTo(site, one, today) {
  if (naming(site, "work", "observation", one).some(wasDone(today))) return true;
  const moment = ({ id, values }) => `${new Date(values.at).toISOString()} ${id}`;
  const again = naming(site, "observation", "fitting", site.get(one.values.fitting));
  return again.some((other) => other.values.occasion === "inspection" && moment(other) > moment(one) && dayOf(other.values.at) <= today);
}

const fitterOf = (site) => site.item.values.fitter ?? "";

/** Where on a walk something stands: room by room, wall by wall, along each from its datum. */
function walkOf(site) {
  const rooms = new Map(site.all("room").map(({ id }, place) => [id, place]));
  const faces = new Map(site.all("face").map(({ id }, place) => [id, place]));
  return (about) => {
    const room = roomOf(site, about);
    if (!about || !room) return [rooms.size, 0, 0, 0];
    const face = about.kind === "face" ? about.id : about.values.face;
    return [rooms.get(room.id), faces.get(face) ?? -1, about.values.x_mm ?? 0, about.values.z_mm ?? 0];
  };
}

/** The fittings that are up, in the order of a walk. */
export function upInOrder(site) {
  const place = walkOf(site);
  const up = site.all("fitting").filter(({ values }) => values.state === "fitted");
  return up.map((one) => ({ one, key: place(one) })).sort(byKey).map(({ one }) => one);
}

function byKey({ key: one }, { key: other }) {
  const place = one.findIndex((value, at) => value !== other[at]);
  return place < 0 ? 0 : one[place] < other[place] ? -1 : 1;
}

function byText(text) {
  return (one, other) => (text(one) < text(other) ? -1 : text(one) > text(other) ? 1 : 0);
}

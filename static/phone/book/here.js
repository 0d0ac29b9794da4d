/** May I, here? What may be done at a point of a face, act by act, and how deep. Mirrors fieldbook/findings/at_point.py. */

import { clearDepth, stretch, widened } from "../../checks/clearance.js";
import { roundedDown } from "../../checks/limits.js";
import { Refusal, figure } from "../../checks/refusal.js";
import { fabricAt, knownTo, ofNoAge } from "./ages.js";
import { againstBehind } from "./behind_here.js";
import { cappedHere, refuseBeyond } from "./beyond.js";
import { headsBelow } from "./clearance.js";
import { notToHole } from "./holes_agreed.js";
import { ZONES, ahead, looked } from "./looked.js";
import { pastEdge } from "./off_place.js";
import { limitsOf, untold } from "./limits_here.js";
import { faceStretch, known } from "./places.js";
import { BY_HOLD, givenBy, holdHere, lapsed, mayBeUsed, rulingAt, saidBy, unsaid } from "./rulings.js";
import { calledOf } from "./site.js";
import { unseenAt } from "./unseen.js";
import { dayOf, joined } from "./wording.js";
import { forbidden, isForbidden, mayGo, perhaps, zonesAt } from "./zones_here.js";

const RING_STEP_MM = 5;
const RINGS = 400; // as far as 2 m
const BEARINGS = 48;
// The sign that stands with an answer: those of the findings, so that nobody learns two sets.
export const SIGNS = { no: "refused", "ask the keeper": "not agreed", agreed: "agreed", "nothing against it": "within", "not known": "not known" };
const FINE = ["agreed", "nothing against it"];
const LATER_UNSAID = "It is later work; whether the keeper is asked about that too is not entered with the site.";
const UNSIZED = "How far it reaches round its middle is not entered: nothing is so small that it touches a point alone.";
const NO = "no";

/**
 * What may be done by a round footprint at a point, and how deep something may stand there.
 * @param {import("./registry.js").Registry} registry
 * @param {import("./site.js").Site} site
 * @param {import("./site.js").Item} face
 * @param {[number, number]} at  x and z, mm
 * @param {{radius: number|null, missed?: number, depth?: number|null, today: string}} asked  mm; `radius` null: not told,
 *   and then nothing is agreed; `missed`: what the place may be wrong by, all of which is asked about; `depth` of a
 *   hole, null for any; the day
 * @throws {Refusal} outside-the-face
 */
export function answer(registry, site, face, at, { radius, missed = 0, depth = null, today }) {
  const off = offTheFace(face, at);
  if (off) throw off;
  const reach = (radius ?? 0) + missed;
  const place = { registry, site, face, at, radius: reach, sized: radius !== null, depth, today };
  const acts = registry.forbidden.map((act) => ({ act, ...actAt(place, act) }));
  return { acts, ...depthAt(registry, site, face, at, reach), deep: deepest(place), cautions: registry.at_the_wall };
}

/** @returns {[string, number, number, number][]} a point's field, value and bounds along each axis of a face */
function axesOf(face, /** @type {number[]} */ [x, z]) {
  const part = faceStretch(face);
  return [["x_mm", x, part.xFrom, part.xTo], ["z_mm", z, part.zFrom, part.zTo]];
}

const isBetween = ([, value, low, high]) => low <= value && value <= high;

/** The refusal of a point beyond the edges of a face; null when it is on it. */
export function offTheFace(face, /** @type {number[]} */ point) {
  for (const axis of axesOf(face, point)) {
    if (isBetween(axis)) continue;
    const [name, value, low, high] = axis;
    const reason = `${name[0]} is ${figure(value)} mm; the face reaches from ${figure(low)} to ${figure(high)} mm.`;
    return new Refusal("outside-the-face", reason, "Choose a point on it.", { field: name, value });
  }
  return null;
}

/** No before all else; then what is not known before a hole; then what was agreed; then what is old. */
function actAt(place, act) {
  const near = zonesAt(place, act);
  const nearest = near.length ? roundedDown(Math.min(...near.map(({ distance }) => distance))) : null;
  const behind = act === "drilling" ? againstBehind(place) : null;
  const said = forbidden(place, act, near) ?? refused(place, act) ?? (behind?.[0] === NO ? behind : null) ?? agreed(place, act) ?? byFabric(place, act);
  if (!place.sized && FINE.includes(said[0])) return { answer: "not known", why: UNSIZED, against: null, nearest };
  if (behind && FINE.includes(said[0])) return { answer: behind[0], why: behind[1], against: behind[2], nearest };
  const past = FINE.includes(said[0]) ? pastEdge(place) || perhaps(place, act) : "";
  if (past) return { answer: "not known", why: `${past} Without that: ${said[0]}. ${said[1]}`, against: null, nearest };
  const [found, reason, against] = cappedHere(place.site, said);
  return { answer: found, why: reason, against, nearest };
}

/** What the keeper said no to: for the face, or for a hold that is here. */
function refused(place, act) {
  const ruling = rulingAt(place, act);
  if (ruling?.values.answer === NO) return [NO, `${givenBy(ruling)}: no. ${ruling.values.words}`, ruling];
  const hold = holdHere(place);
  if (!BY_HOLD.includes(act) || hold?.values.may_be_used !== NO) return null;
  return [NO, `${calledOf(place.registry, hold)} is not to be used${saidBy(hold)}.`, hold];
}

/** What the keeper said yes to, unless it has ended or does not reach so far. */
function agreed(place, act) {
  const [ruling, hold] = [rulingAt(place, act), holdHere(place)];
  if (!ruling) {
    if (!BY_HOLD.includes(act) || !hold || !mayBeUsed(hold, place.today)) return null;
    return ["agreed", `${calledOf(place.registry, hold)} may be used again${saidBy(hold)}.`, hold];
  }
  const { until, conditions } = ruling.values;
  const given = givenBy(ruling);
  const not = lapsed(ruling, place.today) || (act === "drilling" ? notToHole(place, ruling) : "");
  if (not) return ["ask the keeper", `${given}${not}`, ruling];
  if (unsaid(ruling)) return ["not known", `${given}${unsaid(ruling)}`, ruling];
  const unseen = act === "drilling" ? unseenAt(place) : "";
  if (unseen) return ["not known", `${given} agrees to it, but ${unseen}`, ruling];
  const deep = act === "drilling" ? deepest(place) : null;
  const parts = [
    `${given}.`,
    deep === null ? "" : `Not deeper than ${figure(deep)} mm.`,
    conditions ? `On condition: ${conditions.replace(/\.+$/, "")}; met.` : "",
    until ? `Until ${dayOf(until)}.` : "",
  ];
  return ["agreed", parts.filter(Boolean).join(" "), ruling];
}

/** Where nothing was said about it: old fabric is asked about, and later work where nobody looked is not known. */
function byFabric(place, act) {
  const { registry, site, face, at, depth, radius } = place;
  const through = act === "drilling" ? depth : 0;
  const fabric = fabricAt(site, face, at, through, radius);
  const unseen = act === "drilling" ? unseenAt(place) : "";
  const also = unseen ? ` Also, ${unseen}` : "";
  const called = calledOf(registry, face);
  if (fabric === "old") return ["ask the keeper", `Nothing is agreed here, and it is old fabric.${also}`, null];
  if (fabric !== "later") {
    const deep = knownTo(site, face, at);
    const later = face.values.layers?.length && fabricAt(site, face, at, deep, radius) === "later";
    if (later) return ["not known", `It is later work; what lies deeper than ${figure(deep)} mm here is not entered.`, null];
    const what = calledOf(registry, ofNoAge(site, face, at, through, radius));
    return ["not known", `Whether ${what} is old or later work here is not entered.`, null];
  }
  if (site.item.values.asks_about_later_work) {
    return ["ask the keeper", `It is later work, about which the keeper is asked too.${also}`, null];
  }
  const seen = looked(place, face, ZONES);
  if (!seen) return ["not known", `It is later work, but nobody has looked for keep-off zones on ${called}.${ahead(place, face, [ZONES])}`, null];
  if (unseen) return ["not known", `It is later work, but ${unseen}`, null];
  if (!known(site.item.values.asks_about_later_work)) return ["not known", LATER_UNSAID, null];
  const deep = act === "drilling" ? deepest(place) : null;
  const most = deep === null ? "" : ` Not deeper than ${figure(deep)} mm.`;
  return ["nothing against it", `It is later work, and no zone forbids it: keep-off zones were ${seen}.${most}`, null];
}

/** The least of what zones and agreements here say about how deep a hole may go; null where none does. */
function deepest(place) {
  const zones = zonesAt(place, "drilling").filter(({ zone, distance }) => distance < zone.values.margin_mm);
  const bounds = zones.map(({ zone }) => mayGo(zone));
  const ruling = rulingAt(place, "drilling")?.values;
  if (ruling?.answer === NO) bounds.push(0);
  else if (known(ruling?.depth_mm)) bounds.push(ruling.depth_mm);
  return bounds.length ? Math.min(...bounds) : null;
}

function depthAt(registry, site, face, [x, z], radius) {
  try {
    refuseBeyond(site);
    const part = widened(stretch(x, x, z, z), radius);
    const { depth, limitedBy } = clearDepth(limitsOf(registry, site, face), part);
    const past = untold(registry, site, face, part, Infinity);
    const heads = past ? null : headsBelow(registry, site, face, part, depth ?? Infinity);
    const field = past?.blanks[0].field ?? heads?.missing[0] ?? "headroom_mm";
    if (past || heads) throw new Refusal("missing", (past ?? heads).sentence, "Enter it, and ask again.", { field });
    return { clear: depth === null ? null : roundedDown(depth), limitedBy, refusal: null };
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    return { clear: null, limitedBy: null, refusal: error };
  }
}

/**
 * The nearest point of the face where no zone forbids an act any more, for the same footprint; null within 2 m.
 * Looked for on rings 5 mm apart, so it is never nearer to a zone than it may be, but up to 5 mm farther off than needed.
 * @returns {{point: number[], distance: number}|null} mm
 */
export function nearestFree(registry, site, face, act, point, asked) {
  const search = lookAround(registry, site, face, act, point, asked);
  for (let step = search.next(); ; step = search.next()) if (step.done) return /** @type {any} */ (step.value);
}

/** The same, ring by ring, so that whoever looks can do something else between them. */
export function* lookAround(registry, site, face, act, point, { radius = 0, depth = null } = {}) {
  const place = { registry, site, face, radius, depth };
  // Some thousand places are tried: of each only whether, and no sentence why.
  const free = (at) => axesOf(face, at).every(isBetween) && !isForbidden({ ...place, at }, act);
  for (let ring = 1; ring <= RINGS; ring += 1) {
    for (let bearing = 0; bearing < BEARINGS; bearing += 1) {
      const angle = (2 * Math.PI * bearing) / BEARINGS;
      const distance = ring * RING_STEP_MM;
      const at = [Math.round(point[0] + distance * Math.cos(angle)), Math.round(point[1] + distance * Math.sin(angle))];
      if (free(at)) return { point: at, distance: Math.hypot(at[0] - point[0], at[1] - point[1]) };
    }
    yield ring;
  }
  return null;
}

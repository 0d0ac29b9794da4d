/** Whether what stands on a face keeps off what is forbidden there: the worst of all zones. Mirrors fieldbook/findings/keep_off.py. */

import { CLOSE_MM, KEEP_OFF_SOURCE, areaDistance, discDistance, keepOffVerdict } from "../../checks/keep_off.js";
import { roundedDown } from "../../checks/limits.js";
import { figure } from "../../checks/refusal.js";
import { FINE, notKnown, verdict } from "../../checks/verdict.js";
import { fittingActs, fixingActs, joinsOurs } from "./acts.js";
import { ZONES, ahead, blankInWords, looked, notLooked } from "./looked.js";
import { DRAWN, atFoot, mayStand } from "./on_floor.js";
import * as places from "./places.js";
import { movesOf } from "./reach.js";
import { calledOf } from "./site.js";
import { THROUGH_HOLES, comesOut } from "./through.js";
import { behind, zonesOf } from "./zones_seen.js";

// Radius of the widest hole that is ordinarily drilled for a fixing: common practice, no source.
const WIDEST_HOLE_MM = 12.5;
const AT_THE_NUT = ["contact", "load"];
const ANOTHER = "It joins two fittings and does not touch the face.";

/** A fixing, with all it does, held against every zone of the face it stands on. */
export function keepOffOfFixing(asked, fixing) {
  const { site } = asked;
  if (joinsOurs(asked, fixing)) return { against: null, verdict: said("does not apply", ANOTHER) };
  const [face, acts] = [site.get(fixing.values.face), fixingActs(site, fixing)];
  const held = zonesOf(site, face).flatMap(({ zone, missing, own }) => {
    const here = acts.filter(([act]) => zone.values.forbids.includes(act));
    if (!here.length) return [];
    const away = discDistance(zone.values.outline, places.placeOf(fixing), 0);
    const told = here.map(([act, blank]) => {
      const beside = () => heldBeside(act, zone, away - fixing.values.contact_radius_mm, blank);
      const one = act === "drilling" ? resting(drilled(fixing, zone, away), blank) : beside();
      return { ...one, missing: [...missing, ...one.missing] };
    });
    return told.filter(({ left, depth }) => own || left < CLOSE_MM || depth.length);
  });
  return judged(asked, face, [...held, ...comingOut(asked, face, fixing)]);
}

/** What the nut of a bolt that goes right through does on the other side, held against each zone there. */
function comingOut(asked, face, fixing) {
  if (!THROUGH_HOLES.includes(fixing.values.sort)) return [];
  const doneThere = ({ zone }) => AT_THE_NUT.find((one) => zone.values.forbids.includes(one));
  const struck = behind(asked.site, face).filter(doneThere);
  if (!struck.length || !comesOut(asked, fixing)) return [];
  const held = struck.map(({ zone, missing }) => {
    const distance = discDistance(zone.values.outline, places.placeOf(fixing), fixing.values.contact_radius_mm);
    return { ...heldBeside(doneThere({ zone }), zone, distance, null), missing };
  });
  return held.filter(({ left }) => left < CLOSE_MM);
}

/** A fitting, with what it touches and gives off, held against every zone of its face. */
export function keepOffOfFitting(asked, fitting) {
  const { site } = asked;
  const face = site.get(fitting.values.face);
  const part = places.fittingStretch(fitting);
  const moves = movesOf(site, fitting);
  const footprint = places.outlineOf({ ...part, xFrom: part.xFrom - moves, xTo: part.xTo + moves });
  const acts = fittingActs(fitting);
  const held = zonesOf(site, face).flatMap(({ zone, missing, own }) =>
    acts
      .filter(([act]) => zone.values.forbids.includes(act))
      .map(([act, blank]) => heldBeside(act, zone, areaDistance(zone.values.outline, footprint), blank))
      .map((one) => ({ ...one, missing: [...missing, ...one.missing] }))
      .filter(({ left }) => own || left < CLOSE_MM),
  );
  const below = atFoot(asked, fitting, moves).map(({ missing, zone, act, distance }) => ({ ...heldBeside(act, zone, distance, null), missing }));
  const found = judged(asked, face, [...held, ...below]);
  if (!FINE.includes(found.verdict.word) || !mayStand(site, fitting)) return found;
  return { ...found, verdict: { ...found.verdict, sentence: `${found.verdict.sentence} ${DRAWN}` } };
}

/** The same, where it rests on something that is not entered that it is done at all. */
function resting(held, blank) {
  if (!blank || held.missing.some(({ field }) => field === blank.field)) return held;
  return { ...held, missing: [...held.missing, blank] };
}

function heldBeside(act, zone, distance, blank) {
  return { left: distance - zone.values.margin_mm, act, zone, distance, missing: blank ? [blank] : [], depth: [] };
}

/** A hole: beside the zone by its distance; inside it, where some depth may be penetrated, by how deep it goes. */
function drilled(fixing, zone, away) {
  const { diameter_mm: diameter, contact_radius_mm: contact, penetration_mm: deep } = fixing.values;
  const { margin_mm: margin, safe_depth_mm: safe } = zone.values;
  const known = places.known(diameter);
  const distance = away - (known ? diameter / 2 : Math.max(contact, WIDEST_HOLE_MM));
  const left = distance - margin;
  const missing = known ? [] : [{ item: fixing, field: "diameter_mm" }];
  const held = { act: "drilling", zone, distance, depth: [] };
  if (left >= 0 || !places.known(safe)) return { ...held, left, missing: known || away < margin ? [] : missing };
  const mayGo = safe - margin;
  if (!places.known(deep)) {
    const blank = mayGo < 0 ? [] : [{ item: fixing, field: "penetration_mm" }];
    return { ...held, left: Math.min(left, mayGo), missing: blank };
  }
  return { ...held, left: mayGo - deep, missing, depth: [deep, safe] };
}

function judged(asked, face, held) {
  const { registry } = asked;
  const certain = held.filter(({ missing, left }) => !missing.length && left < 0);
  if (certain.length) return answerOf(registry, worst(certain));
  const doubtful = held.filter(({ left }) => left < 0);
  if (doubtful.length) return doubtfulOf(registry, worst(doubtful), doubtful);
  const seen = looked(asked, face, ZONES);
  if (!seen) return notLookedOf(asked, face, held);
  if (held.length) return answerOf(registry, worst(held));
  const sentence = `No zone of ${calledOf(registry, face)} forbids what it does. Keep-off zones were ${seen}.`;
  return { against: null, verdict: said("within", sentence) };
}

function worst(held) {
  return held.reduce((least, one) => (one.left < least.left ? one : least));
}

function answerOf(registry, { zone, act, distance, depth }) {
  const found = keepOffVerdict(calledOf(registry, zone), distance, zone.values.margin_mm, ...depth);
  return { against: zone, verdict: { ...found, sentence: `${found.sentence} ${why(registry, zone, act)}` } };
}

/** Why a zone forbids something, and who said so. */
export function why(registry, zone, act) {
  const { reason, said_by: by } = zone.values;
  return `No ${act} in ${calledOf(registry, zone)}: ${reason.replace(/\.+$/, "")}${by ? `, said by ${by}` : ""}.`;
}

function doubtfulOf(registry, { zone, act }, doubtful) {
  const blanks = doubtful.flatMap(({ missing }) => missing);
  const missing = [...new Map(blanks.map((blank) => [`${blank.item.id} ${blank.field}`, blank])).values()];
  const names = missing.map((blank) => blankInWords(registry, blank)).join("; ");
  const sentence = `Near ${calledOf(registry, zone)}, and not entered: ${names}. ${why(registry, zone, act)}`;
  return { against: zone, verdict: notKnown("keep-off", missing.map(({ field }) => field), sentence, KEEP_OFF_SOURCE) };
}

function notLookedOf(asked, face, held) {
  const nearest = held.length ? roundedDown(Math.min(...held.map(({ distance }) => distance))) : null;
  const far = nearest === null ? "" : ` The nearest that is recorded lies ${figure(nearest)} mm off.`;
  const sentence = `Nobody has looked for keep-off zones on ${calledOf(asked.registry, face)}, so others may be there.${far}${ahead(asked, face, [ZONES])}`;
  const { field } = notLooked(asked.registry, face, ZONES);
  return { against: null, verdict: { ...notKnown("keep-off", [field], sentence, KEEP_OFF_SOURCE), figure: nearest } };
}

function said(word, sentence) {
  return verdict("keep-off", word, [null, null, null], sentence, KEEP_OFF_SOURCE);
}

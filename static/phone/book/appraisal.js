/** Whether fittings and fixings of a face stand where they may: mirrors fieldbook/findings/places.py. */

import { CLEARANCE_SOURCE, clearDepth, meets, projectionVerdict } from "../../checks/clearance.js";
import { KEEP_OFF_SOURCE, areaDistance, discDistance, keepOffVerdict } from "../../checks/keep_off.js";
import { Refusal } from "../../checks/refusal.js";
import { WORDS, notKnown, notKnownBecause } from "../../checks/verdict.js";
import * as places from "./places.js";
import { calledOf, stands } from "./site.js";

/** @typedef {{subject: import("./site.js").Item, against: import("./site.js").Item|null, verdict: import("../../checks/verdict.js").Verdict}} Finding */

/**
 * All findings about what is on a face, worst first.
 * @returns {Finding[]}
 */
export function appraise(registry, site, face) {
  const rank = ({ verdict }) => [WORDS.indexOf(verdict.word), verdict.margin ?? Infinity];
  return [...keepOff(registry, site, face), ...clearance(site, face)].sort((one, other) => {
    const [[word, margin], [otherWord, otherMargin]] = [rank(one), rank(other)];
    return word - otherWord || (margin === otherMargin ? 0 : margin - otherMargin);
  });
}

/** The worst word found about each item, by its id. */
export function worstWords(findings) {
  const words = new Map();
  for (const { subject, verdict } of findings) {
    const before = words.get(subject.id);
    if (!before || WORDS.indexOf(verdict.word) < WORDS.indexOf(before)) words.set(subject.id, verdict.word);
  }
  return words;
}

/** What a fixing does to the fabric, in the words a zone forbids it with. */
export function fixingActs({ values }) {
  const acts = ["contact"];
  if (values.hole === "new") acts.push("drilling");
  if (values.adhesive || values.sort === "adhesive pad") acts.push("adhesive");
  if (values.carries_load) acts.push("load");
  return acts;
}

function* keepOff(registry, site, face) {
  const zones = site.of(face, "zone");
  for (const fixing of site.fixingsOn(face)) {
    if (!stands(fixing) || fixing.values.fabric === "another fitting") continue;
    for (const zone of zones) {
      const verdict = fixingInZone(registry, fixing, zone);
      if (verdict) yield { subject: fixing, against: zone, verdict };
    }
  }
  for (const fitting of site.of(face, "fitting").filter(stands)) {
    const acts = [...(fitting.values.gives ?? []), ...(fitting.values.touches_face ? ["contact"] : [])];
    for (const zone of zones.filter(({ values }) => values.forbids.some((act) => acts.includes(act)))) {
      const footprint = places.outlineOf(places.fittingStretch(fitting));
      const verdict = answered("keep-off", KEEP_OFF_SOURCE, () =>
        keepOffVerdict(calledOf(registry, zone), areaDistance(zone.values.outline, footprint), zone.values.margin_mm),
      );
      yield { subject: fitting, against: zone, verdict };
    }
  }
}

function fixingInZone(registry, fixing, zone) {
  const acts = fixingActs(fixing).filter((act) => zone.values.forbids.includes(act));
  if (!acts.length) return null;
  const called = calledOf(registry, zone);
  const { diameter_mm: diameter, contact_radius_mm: contact, hole, penetration_mm: penetration = null } = fixing.values;
  const holeOnly = acts.join() === "drilling"; // only the hole matters there, not the plate over it
  if (holeOnly && !places.known(diameter)) {
    const sentence = `The hole's diameter near ${called} is not entered.`;
    return notKnown("keep-off", ["diameter_mm"], sentence, KEEP_OFF_SOURCE);
  }
  const depthMatters = places.known(zone.values.safe_depth_mm) && hole !== "none";
  if (depthMatters && penetration === null) {
    const sentence = `How deep it goes in ${called} is not entered.`;
    return notKnown("keep-off", ["penetration_mm"], sentence, KEEP_OFF_SOURCE);
  }
  const depths = depthMatters ? [penetration, zone.values.safe_depth_mm] : [];
  return answered("keep-off", KEEP_OFF_SOURCE, () => {
    const distance = discDistance(zone.values.outline, places.placeOf(fixing), holeOnly ? diameter / 2 : contact);
    return keepOffVerdict(called, distance, zone.values.margin_mm, ...depths);
  });
}

function* clearance(site, face) {
  if (!site.of(face, "limit").length) return;
  for (const [subject, part, projection] of standingOut(site, face)) {
    let against = null;
    const verdict = answered("clearance", CLEARANCE_SOURCE, () => {
      const values = places.limitsOf(site, face);
      const { limitedBy } = clearDepth(values, part);
      against = limitedBy && site.get(limitedBy.id);
      return projectionVerdict(projection, values, part);
    });
    yield { subject, against, verdict };
  }
}

/** Fittings, and the fixings that stand out by themselves or lie outside their fitting. */
function* standingOut(site, face) {
  for (const fitting of site.of(face, "fitting")) {
    if (stands(fitting)) yield [fitting, places.fittingStretch(fitting), places.projectionOf(fitting)];
  }
  for (const fixing of site.fixingsOn(face)) {
    const part = places.fixingStretch(fixing);
    const fitting = site.get(fixing.values.fitting);
    const inside = fitting?.values.face === face.id && meets(part, places.fittingStretch(fitting));
    const out = fixing.values.stands_out_mm ?? null;
    if (stands(fixing) && (out !== null || !inside)) yield [fixing, part, out];
  }
}

function answered(check, source, reckon) {
  try {
    return reckon();
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    return notKnownBecause(check, error, source);
  }
}

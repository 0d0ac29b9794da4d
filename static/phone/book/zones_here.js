/** What the zones of a face say at a place of it, as fieldbook/findings/at_point.py has it. */

import { discDistance } from "../../checks/keep_off.js";
import { roundedDown } from "../../checks/limits.js";
import { figure } from "../../checks/refusal.js";
import { why } from "./keep_off.js";
import { ASBESTOS, hazardsAt } from "./looked.js";
import { known } from "./places.js";
import { calledOf } from "./site.js";
import { farSide } from "./through.js";
import { where } from "./walls.js";
import { zonesOf } from "./zones_seen.js";

/** The zones that forbid an act, with the distance of the footprint's edge. */
export function zonesAt(place, act) {
  return forbidding(place, act).filter(({ missing }) => !missing.length);
}

function forbidding({ site, face, at, radius }, act) {
  return zonesOf(site, face)
    .filter(({ zone }) => zone.values.forbids.includes(act))
    .map(({ zone, missing }) => ({ zone, missing, distance: discDistance(zone.values.outline, at, radius) }));
}

/** A sentence on a zone of the next wall that may reach here; "" for none. */
export function perhaps(place, act) {
  const [struck] = struckOf(place, act, forbidding(place, act).filter(({ missing }) => missing.length));
  return struck ? `${why(place.registry, struck.zone, act)} It may reach round the corner: ${where(struck.missing)}` : "";
}

/** Those of them that are struck: nearer than their margin, and without depth for the hole. */
function struckOf(place, act, near) {
  return near.filter(({ zone, distance }) => distance < zone.values.margin_mm && !bears(place, act, zone));
}

/** Where asbestos is entered, here or where a hole comes out: nothing is drilled there, zone or not. */
function asbestosAt(place, act) {
  if (act !== "drilling") return null;
  const here = hazardsAt(place.site, place.face).get(ASBESTOS);
  if (here) return `Asbestos is entered for this ${here.kind}`;
  const behind = farSide(place);
  const there = behind ? hazardsAt(place.site, behind).get(ASBESTOS) : null;
  return there ? `Asbestos is entered for ${calledOf(place.registry, there)}, where it comes out` : null;
}

/** Whether an act is forbidden at a place; `forbidden` says why as well. */
export function isForbidden(place, act) {
  return struckOf(place, act, zonesAt(place, act)).length > 0 || Boolean(asbestosAt(place, act));
}

/** What zones forbid: all of them hold. */
export function forbidden(place, act, near) {
  const struck = struckOf(place, act, near);
  if (struck.length) {
    const depth = ({ zone }) => (act === "drilling" ? mayGo(zone) : 0);
    const left = ({ zone, distance }) => distance - zone.values.margin_mm;
    // Before a hole the zone that leaves the least depth decides; else the one that reaches nearest.
    const worse = (one, other) => depth(one) - depth(other) || left(one) - left(other);
    const { zone, distance } = struck.reduce((least, one) => (worse(one, least) < 0 ? one : least));
    const where = distance >= 0 ? `${figure(roundedDown(distance))} mm from it` : `${figure(-roundedDown(distance))} mm inside it`;
    const deep = act === "drilling" ? depthTold(zone) : "";
    const keep = `The edge lies ${where}; ${figure(zone.values.margin_mm)} mm must be kept.`;
    return ["no", `${why(place.registry, zone, act)} ${keep}${deep}`, zone];
  }
  const there = asbestosAt(place, act);
  if (!there) return null;
  return ["no", `${there}: no hole until whoever is licensed has said where and how.`, null];
}

function depthTold(zone) {
  if (mayGo(zone) > 0) return ` A hole may go ${figure(mayGo(zone))} mm deep there.`;
  const safe = zone.values.safe_depth_mm;
  return safe ? ` Of the ${figure(safe)} mm that may be penetrated the margin leaves nothing.` : "";
}

/** Whether a zone about depth leaves room for the hole that is asked about. */
function bears({ depth }, act, zone) {
  const room = mayGo(zone);
  return act === "drilling" && room > 0 && (depth === null || depth <= room);
}

/** How deep a hole may go in a zone, mm; 0 where not at all. */
export function mayGo({ values }) {
  return known(values.safe_depth_mm) ? Math.max(values.safe_depth_mm - values.margin_mm, 0) : 0;
}

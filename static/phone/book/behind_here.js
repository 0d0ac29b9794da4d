/** What stands against a hole where it comes out on the other side of a wall. Mirrors fieldbook/findings/behind_here.py. */

import { fabricAt, knownTo, ofNoAge } from "./ages.js";
import { notToHole } from "./holes_agreed.js";
import { givenBy, lapsed, rulingAt, unsaid } from "./rulings.js";
import { calledOf } from "./site.js";
import { farSide, otherSide } from "./through.js";

/**
 * The answer, the reason and what decides; null where nothing stands against it, or it does not come out on what is entered.
 * @returns {[string, string, any]|null}
 */
export function againstBehind(place) {
  const { registry, site, face, at: [x, z] } = place;
  const [there, other] = [farSide(place), otherSide(site, face)];
  if (!there || !other) return null;
  const out = `It comes out on ${calledOf(registry, there)}`;
  if (other.x === null) return ["not known", `${out}; where there is not entered.`, null];
  const behind = { ...place, face: there, at: [other.x - x, z + other.z] };
  const ruling = rulingAt(behind, "drilling");
  return ruling ? byRuling(behind, ruling, out) : byFabric(behind, out);
}

/** @returns {[string, string, any]|null} */
function byRuling(behind, ruling, out) {
  const { answer, words } = ruling.values;
  const by = givenBy(ruling);
  if (answer === "no") return ["no", `${out}. ${by}: no. ${words}`, ruling];
  const why = lapsed(ruling, behind.today) || notToHole(behind, ruling);
  if (why) return ["ask the keeper", `${out}: ${by}${why}`, ruling];
  return unsaid(ruling) ? ["not known", `${out}: ${by}${unsaid(ruling)}`, ruling] : null;
}

/** @returns {[string, string, any]|null} */
function byFabric({ registry, site, face, at, radius }, out) {
  const deep = knownTo(site, face, at);
  const age = fabricAt(site, face, at, deep, radius);
  if (age === "old") return ["ask the keeper", `${out}, where nothing is agreed, and it is old fabric.`, null];
  if (age !== "later") {
    const what = calledOf(registry, ofNoAge(site, face, at, deep, radius));
    return ["not known", `${out}; whether ${what} is old or later work there is not entered.`, null];
  }
  if (!site.item.values.asks_about_later_work) return null;
  return ["ask the keeper", `${out}, where nothing is agreed; the keeper is asked about later work too.`, null];
}

/** What has to be looked for before a hole is made. Mirrors fieldbook/findings/before_hole.py. */

import { FINE, WORDS, verdict } from "../../checks/verdict.js";
import { depthThere, joinsOurs, makesHole, mayDeepen } from "./acts.js";
import { NotEntered } from "./asking.js";
import { ASBESTOS, LEAD_PAINT, SERVICES, ahead, hazardsAt, looked } from "./looked.js";
import { calledOf } from "./site.js";
import { comesOut, otherSide } from "./through.js";
import { joined } from "./wording.js";

const SOURCE = "Common practice, no source; the rules of the place on services, asbestos and lead decide";
const FIRST = [SERVICES, ASBESTOS, LEAD_PAINT];
const NO_HOLE = "It makes no new hole.";
export const COMES_OUT = "It goes right through, and nobody entered what is on the other side.";
const NOT_SAID = "Whether the hole that is there is deep enough is not entered.";
const MINDED = {
  [LEAD_PAINT]: (there) => `Old lead paint is entered for ${there}: no dry sanding, no heat, dust taken at the tool.`,
  "hidden services": (there) => `Hidden services are entered for ${there}: find them at the very place, and prove dead what is live.`,
};
const CAUTION = "Isolate and prove dead what is live; stop at anything unexpected behind the surface.";

/** Whether services, asbestos and lead paint were looked for where a fixing makes a new hole. */
export function beforeHole(asked, fixing) {
  const { site } = asked;
  if (joinsOurs(asked, fixing)) return said("does not apply", NO_HOLE);
  if (mayDeepen(site, fixing)) return ifDeeper(asked, fixing);
  if (!makesHole(site, fixing)) return said("does not apply", noHole(site, fixing));
  return ofHole(asked, fixing);
}

function noHole(site, fixing) {
  if (fixing.values.hole !== "existing") return NO_HOLE;
  if (depthThere(site, fixing) === null) return "By what is entered it uses a hole that is there already.";
  return "It goes no deeper than the hole that is there already.";
}

/** A hole that may have to be made deeper: how deep it goes is asked for unless the answer to a hole is fine. */
function ifDeeper(asked, fixing) {
  const found = ofHole(asked, fixing);
  if (FINE.includes(found.verdict.word)) return found;
  throw new NotEntered({ item: fixing, field: "penetration_mm" }, { why: NOT_SAID });
}

function ofHole(asked, fixing) {
  const face = asked.site.get(fixing.values.face);
  const found = inIt(asked, face);
  if (!FINE.includes(found.verdict.word) || !comesOut(asked, fixing)) return found;
  const other = otherSide(asked.site, face);
  if (!other) throw new NotEntered({ item: face, field: "behind" }, { why: COMES_OUT });
  const there = inIt(asked, other.face);
  const { against, verdict: worse } = WORDS.indexOf(there.verdict.word) < WORDS.indexOf(found.verdict.word) ? there : found;
  return { against, verdict: { ...worse, sentence: `${worse.sentence} It comes out on ${calledOf(asked.registry, other.face)}.` } };
}

/** What was looked for, and is known of, on one face that a hole goes into or comes out of. */
function inIt(asked, face) {
  const { registry, site } = asked;
  const hazards = hazardsAt(site, face);
  const fibres = hazards.get(ASBESTOS);
  if (fibres) return said("over", `Asbestos is entered for ${calledOf(registry, fibres)}: no hole until whoever is licensed for it has said where and how.`, fibres);
  const seen = FIRST.map((what) => [what, looked(asked, face, what)]);
  const unseen = seen.filter(([, words]) => !words).map(([what]) => what);
  if (unseen.length) {
    const found = said("not known", `Before a hole in ${calledOf(registry, face)}, look for ${joined(unseen)}.${ahead(asked, face, unseen)}`);
    return { ...found, verdict: { ...found.verdict, missing: ["looked_for"] } };
  }
  const how = seen.map(([what, words]) => `${what} ${words}`).join("; ");
  const told = `${how.slice(0, 1).toUpperCase()}${how.slice(1)}.`;
  const found = Object.keys(MINDED).filter((one) => hazards.has(one));
  if (!found.length) return said("within", `${told} ${CAUTION}`);
  const minded = found.map((one) => MINDED[one](calledOf(registry, hazards.get(one)))).join(" ");
  return said("close", `${minded} ${told}`, hazards.get(found[0]));
}

function said(word, sentence, against = null) {
  return { against, verdict: { ...verdict("before-hole", word, [null, null, null], sentence, SOURCE), unit: "" } };
}

/** What has to be looked for before a hole is made. Mirrors fieldbook/findings/before_hole.py. */

import { verdict } from "../../checks/verdict.js";
import { makesHole } from "./acts.js";
import { ASBESTOS, LEAD_PAINT, SERVICES, looked } from "./looked.js";
import { calledOf } from "./site.js";
import { joined } from "./wording.js";

const SOURCE = "Common practice, no source; the rules of the place on services, asbestos and lead decide";
const FIRST = [SERVICES, ASBESTOS, LEAD_PAINT];
const CAUTION = "Isolate and prove dead what is live; stop at anything unexpected behind the surface.";

/** Whether services, asbestos and lead paint were looked for where a fixing makes a new hole. */
export function beforeHole(registry, site, fixing) {
  if (!makesHole(site, fixing)) return said("does not apply", "It makes no new hole.");
  const face = site.get(fixing.values.face);
  const room = site.get(face.values.room);
  const [hazards, called] = [room.values.hazards ?? [], calledOf(registry, room)];
  if (hazards.includes("asbestos")) {
    return said("over", `Asbestos is entered for ${called}: no hole until whoever is licensed for it has said where and how.`, room);
  }
  const seen = FIRST.map((what) => [what, looked(site, face, what)]);
  const unseen = seen.filter(([, words]) => !words).map(([what]) => what);
  if (unseen.length) {
    const found = said("not known", `Before a hole in ${calledOf(registry, face)}, look for ${joined(unseen)}.`);
    return { ...found, verdict: { ...found.verdict, missing: ["looked_for"] } };
  }
  const how = seen.map(([what, words]) => `${what} ${words}`).join("; ");
  const told = `${how.slice(0, 1).toUpperCase()}${how.slice(1)}.`;
  if (!hazards.includes("old lead paint")) return said("within", `${told} ${CAUTION}`);
  return said("close", `Old lead paint is entered for ${called}: no dry sanding, no heat, dust taken at the tool. ${told}`, room);
}

function said(word, sentence, against = null) {
  return { against, verdict: { ...verdict("before-hole", word, [null, null, null], sentence, SOURCE), unit: "" } };
}

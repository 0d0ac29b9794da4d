/** How far a fitting stands out at worst, and whether its packers are those called for. Mirrors fieldbook/findings/projection.py. */

import { held } from "../../checks/clearance.js";
import { roundedUp } from "../../checks/limits.js";
import { figure } from "../../checks/refusal.js";
import { notKnown, verdict } from "../../checks/verdict.js";
import { NotEntered } from "./asking.js";
import { clearOver } from "./clearance.js";
import { blankInWords } from "./looked.js";
import { packed } from "./packing.js";
import { fittingStretch, known } from "./places.js";
import { fixedToFace, inWords, leastOf, packersUnseen, packingLayer, reachOf } from "./reach.js";
import { calledOf } from "./site.js";

const SOURCE = "Tolerance chain: the worst case is the sum of the tolerances; the wall between two readings is taken at the prouder of them";
const AGREE_MM = 1; // what packers may differ by and still be those called for: common practice, no source

/** The front at worst, the wall, packers, layers and carriers counted, against the depth that is clear there. */
export function standsOut({ registry, site }, fitting) {
  const face = site.get(fitting.values.face);
  const fixings = fixedToFace(site, fitting);
  const called = face.values.surface?.length && fixings.length > 1 ? packed(face, fixings) : null;
  const reach = reachOf(registry, site, fitting);
  const most = reach.high === Infinity ? null : roundedUp(reach.high);
  const told = packersDiffer(registry, fitting, fixings, called ?? []);
  if (told) return { against: null, verdict: verdict("projection", "over", [most, null, null], told, SOURCE, reach.steps) };
  const [unseen] = packersUnseen(fixings);
  if (unseen && (packingLayer(fitting) || called)) throw new NotEntered({ item: unseen, field: "packers_mm" }, { figure: most, unit: "mm" });
  const clear = clearOver(registry, site, face, fittingStretch(fitting), reach.low);
  const against = (clear.limitedBy && site.get(clear.limitedBy.id)) ?? null;
  const depth = clear.depth ?? Infinity;
  if ((reach.high > depth && depth >= reach.low) || reach.high === Infinity) return { against, verdict: unsure(registry, reach) };
  const found = held(reach.low > depth ? reach.low : reach.high, clear);
  return { against, verdict: { ...found, check: "projection", source: SOURCE, working: [...reach.steps, ...found.working] } };
}

function unsure(registry, reach) {
  const names = reach.missing.map((blank) => blankInWords(registry, blank)).join("; ");
  const found = notKnown("projection", reach.missing.map(({ field }) => field), `${inWords(reach)}. Not entered: ${names}.`, SOURCE);
  return { ...found, figure: leastOf(reach), working: reach.steps };
}

/** How the packers entered, those the wall calls for and the layer that stands for them differ; "" if they agree. */
function packersDiffer(registry, fitting, fixings, called) {
  const layer = packingLayer(fitting);
  const entered = fixings.map(({ values }) => values.packers_mm).filter(known);
  const thick = layer ? layer[0] + layer[1] : Infinity;
  const said = layer ? `The layer for packers is ${figure(layer[0])} ± ${figure(layer[1])} mm, and` : "";
  if (Math.max(...entered) > thick) return `${said} the thickest packer entered is ${figure(Math.max(...entered))} mm. Correct one of them.`;
  const most = Math.max(...called.map(({ packer }) => packer));
  if (most > thick) return `${said} the wall calls for ${figure(roundedUp(most))} mm of them. Make the layer thicker, or measure again.`;
  const differing = called.filter(({ difference }) => difference !== null);
  if (differing.length < 2) return "";
  // All thicker by the same: as plumb, only farther out.
  const thicker = Math.max(Math.min(...differing.map(({ difference }) => difference)), 0);
  const off = ({ difference }) => Math.abs(difference - thicker);
  const worst = differing.reduce((one, other) => (off(other) > off(one) ? other : one));
  if (off(worst) <= AGREE_MM) return "";
  const wanted = figure(roundedUp(worst.packer + thicker));
  return `${calledOf(registry, worst.fixing)} has packers of ${figure(worst.fixing.values.packers_mm)} mm, and the wall calls for ${wanted} mm there. Change them, or measure again.`;
}

/** How far a colour measured again is from that of its card, in words. Mirrors `faded` of fieldbook/findings/change.py. */

import { ciede2000, seen } from "../../checks/colour_difference.js";

const LAB = ["lab_l", "lab_a", "lab_b"];

/**
 * @param {Record<string, any>} card  values of the finish
 * @param {Record<string, any>} colour  values of what was measured
 */
export function faded(card, colour) {
  const [before, now] = [card, colour].map((values) => LAB.map((name) => values[name] ?? null));
  if (before.includes(null) || !card.lab_white) return "not known: the card has no colour";
  if (colour.lab_white !== card.lab_white) return `not known: the card is for ${card.lab_white}, this for ${colour.lab_white}`;
  const difference = ciede2000(before, now);
  return `difference ${difference.toFixed(1)} (CIEDE2000): ${seen(difference)}`;
}

/**
 * What to do at once when something happened to a fitting, from what the record knows of it.
 * Whoever stands there may be no fitter: what is heavy, high, glazed, live or not known is made safe and left to others.
 * Source: common practice, no source.
 */

import { offBefore } from "./taking_down.js";

export const [LEAVE, MAKE_SAFE, TAKE_OFF] = ["leave it", "make it safe", "take it off"];
const LIGHT_KG = 5;
const WITHIN_REACH_MM = 1_800;
const HANGS_LOOSE = ["a knock", "loose", "fallen", "broken"];

/**
 * @param {import("./site.js").Site} site
 * @param {import("./site.js").Item|null} fitting
 * @param {string} happened
 * @returns {{act: string, words: string[], call: string, urgency: string}}
 */
export function whatToDo(site, fitting, happened) {
  const call = site.item.values.call || site.item.values.keeper || "";
  const damp = happened === "damp";
  const words = [];
  if (fitting && isLive(fitting) && (damp || HANGS_LOOSE.includes(happened))) words.push(`It is lit or heated: touch no metal of it. Switch it off where it is shut off: ${(site.item.values.isolators || "where is not entered").replace(/[. ]+$/, "")}.`);
  if (damp) words.push("Where the water comes from is the first question. Move nothing that is wet and swollen; note how far it reaches.");
  if (!HANGS_LOOSE.includes(happened)) return { act: LEAVE, words: [...words, "Leave it as it is, photograph it from where you stand, and report it."], call, urgency: damp ? "3" : "2" };
  const reason = fitting ? notByHand(site, fitting) : "what it is, is not known";
  if (reason) return { act: MAKE_SAFE, words: [...words, "Keep people from beneath and in front of it. Do not retighten or lift it.", `Leave it to others: ${reason}.`], call, urgency: "3" };
  return { act: TAKE_OFF, words: [...words, "One person may take it off, by its steps, and lay it flat out of the way. Touch no wall with a tool."], call, urgency: "3" };
}

/** Why somebody who is no fitter takes it down by no means; "" where nothing speaks against it. */
function notByHand(site, fitting) {
  const { mass_loaded_kg: loaded, mass_empty_kg: empty, people_to_remove: people, z_mm: low, height_mm: height, glass, gives, removal } = fitting.values;
  const mass = loaded ?? empty ?? null;
  if (mass === null) return "how heavy it is, is not entered";
  if (mass > LIGHT_KG) return `it weighs ${mass} kg`;
  if (low + height > WITHIN_REACH_MM) return "it is not within reach from the floor";
  if (glass && glass !== "none") return "it is glazed";
  if (isLive(fitting)) return "it is lit or heated";
  if (people !== 1) return people ? `it takes ${people} people` : "how many it takes is not entered";
  const first = offBefore(site, fitting);
  if (first.length) return `${first.map(({ values }) => values.mark).join(", ")} would have to come off first`;
  if (!removal) return "how it comes off is not entered";
  if (!glass) return "whether it is glazed is not entered";
  return gives?.length ? "" : "whether it is lit or heated is not entered";
}

/** Whether it is said to give off light or heat. */
function isLive({ values }) {
  return (values.gives ?? []).some((/** @type {string} */ one) => one !== "nothing");
}

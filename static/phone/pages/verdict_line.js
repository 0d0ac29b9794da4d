/** The verdict about what is being typed, beside the figures; what is over or refused asks for words before it is saved. */

import { Refusal } from "../../checks/refusal.js";
import { tellHeight } from "../standing.js";
import { fill, made, slot, text } from "./markup.js";
import { wordOf } from "./parts.js";

const STOPS = ["refused", "over"];

/** What stands under the thumb on a page with a form: the line, and the pad for figures. */
export function underThumb() {
  const under = made("under-thumb");
  tellHeight(under, "--thumb");
  return under;
}

/** Show the worst of what was found; nothing found hides the line. */
export function showVerdict(under, found) {
  const line = slot(under, "verdict");
  line.hidden = !found.length;
  if (found.length) fill(line, { verdict: [wordOf(found[0].verdict.word), text(` ${found[0].verdict.sentence}`)] });
}

/** Why it may not be saved yet; null when nothing stops it, or when words say why it stands all the same. */
export function wordsNeeded(found, note) {
  const stop = found.find(({ verdict }) => STOPS.includes(verdict.word));
  if (!stop || note?.trim()) return null;
  const { word, sentence } = stop.verdict;
  return new Refusal("missing", `This is ${word}: ${sentence}`, "Correct it, or say in the note why it stands all the same.", { field: "note" });
}

/** What was taken out of the laptop's book, a person's name or a photograph of one, goes from this phone as well (S18). */

import { readFacts } from "../store/facts.js";
import { clearTakenOut } from "../store/taken_out.js";
import { askTakenOut } from "./channel.js";

/** Follow the laptop, if more was taken out of its book than here. Returns whether something has gone. */
export async function followTakenOut(/** @type {{taken_out?: string}} */ answer) {
  const facts = await readFacts();
  if (answer.taken_out === undefined || answer.taken_out === (facts.takenOut ?? "")) return false;
  return clearTakenOut(await askTakenOut(facts));
}

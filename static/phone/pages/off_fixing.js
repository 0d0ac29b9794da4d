/** One fixing coming off: the trace found beside the one expected, the wall before and after, and how it was made good. */

import { today } from "../book/moments.js";
import { calledOf } from "../book/site.js";
import { entered } from "../forms/entering.js";
import { once } from "../forms/saving.js";
import { fill, filled, slot, tell, wire } from "./markup.js";
import { openGuide } from "./guide.js";

const [BEFORE, AFTER] = ["before removal", "after removal"];

/**
 * @param {import("../book/registry.js").Context} context
 * @param {HTMLElement} page
 * @param {import("../book/site.js").Item} fixing
 */
export function fixingComingOff(context, page, fixing) {
  const { registry, notebook } = context;
  const seen = notebook.cursor;
  const { trace, make_good: good, sort } = fixing.values;
  const part = filled("off-fixing", { title: `${calledOf(registry, fixing)}, ${sort}`, expected: trace, taken: takenOf(notebook.site, fixing) });
  const { choices } = registry.kinds.get("fixing").byName.get("trace_found");
  part.dataset.of = fixing.id;
  slot(part, "found").replaceChildren(new Option("look, and choose", ""), ...choices.map((word) => new Option(word === trace ? `${word} (as expected)` : word, word)));
  fill(part, { planned: good ? `Planned: ${good}` : null });
  slot(part, "as-planned").hidden = !good;
  const shoot = async (purpose) => {
    const before = notebook.site.photographsOf(fixing).find(({ values }) => values.purpose === BEFORE);
    await openGuide(context, page, fixing, { before: purpose === AFTER ? before : undefined, purpose });
  };
  const off = once(() => saved(context, part, fixing, seen));
  const asPlanned = () => {
    slot(part, "good").value = good;
    slot(part, "good").dispatchEvent(new Event("input", { bubbles: true }));
  };
  wire(part, { "as-planned": asPlanned, before: () => shoot(BEFORE), after: () => shoot(AFTER), off });
  const taken = slot(part, "taken");
  const stop = notebook.onChange(() => {
    tell(taken, takenOf(notebook.site, fixing));
    if (!taken.isConnected) stop();
  });
  return part;
}

function takenOf(site, fixing) {
  const count = (purpose) => site.photographsOf(fixing).filter(({ values }) => values.purpose === purpose).length;
  return `Photographs: ${count(BEFORE)} before, ${count(AFTER)} after.`;
}

async function saved(context, part, fixing, seen) {
  const { registry, notebook } = context;
  const present = notebook.site.get(fixing.id);
  if (present?.values.state !== "fitted") {
    done(part, `${calledOf(registry, fixing)} was entered as off elsewhere meanwhile.`);
    return true;
  }
  const [found, words] = [slot(part, "found").value, slot(part, "words").value.trim()];
  if (!found) {
    context.say("Look at the place, and choose the trace that is there.");
    return false;
  }
  const differs = found !== fixing.values.trace;
  if (differs && !words) {
    context.say("It is not what was expected: say in words what was found.");
    return false;
  }
  const values = { state: "taken down", taken_down_on: today(), trace_found: found, trace_words: words || null, made_good: slot(part, "good").value.trim() || null, left_behind: slot(part, "left").value.trim() || null };
  if (!(await entered(context, [{ kind: "fixing", item: present, values }], `${calledOf(registry, fixing)} is off.`, undefined, seen))) return false;
  done(part, `${calledOf(registry, fixing)} is off: ${found}.`);
  return true;
}

function done(part, words) {
  part.replaceChildren(filled("nothing", {}));
  tell(part.firstElementChild, words);
}

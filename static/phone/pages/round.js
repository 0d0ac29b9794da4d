/** An inspection round along the walls: which fittings were looked at today, and which comes next. */

import { upInOrder } from "../book/due.js";
import { today } from "../book/moments.js";
import { calledOf } from "../book/site.js";
import { countOf, dayOf } from "../book/wording.js";
import { filled, slot } from "./markup.js";
import { lineOf } from "./parts.js";

/** The inspections of a fitting, the latest last. */
export function inspectionsOf(site, fitting) {
  const own = site.all("observation").filter(({ values }) => values.fitting === fitting.id && values.occasion === "inspection");
  return own.sort((one, other) => Date.parse(one.values.at) - Date.parse(other.values.at));
}

const lookedAtToday = (site, fitting) => inspectionsOf(site, fitting).some(({ values }) => values.at.slice(0, 10) === today());

/** The fitting that is looked at next on this walk; undefined when all were today. */
export function nextToInspect(site, after = null) {
  const up = upInOrder(site);
  const at = up.findIndex(({ id }) => id === after?.id);
  return [...up.slice(at + 1), ...up.slice(0, at + 1)].find((one) => !lookedAtToday(site, one));
}

export function roundPage(context) {
  const { registry, notebook } = context;
  const { site, facts } = notebook;
  if (!site) return null;
  const up = upInOrder(site);
  const left = up.filter((one) => !lookedAtToday(site, one)).length;
  const lines = up.map((one) => {
    const last = inspectionsOf(site, one).at(-1);
    const said = !last ? "no inspection entered" : `${dayOf(last.values.at.slice(0, 10))}: ${last.values.what.toLowerCase()}`;
    return lineOf(context, one, `${calledOf(registry, site.get(one.values.face))} · ${said}`, `#/inspect/${one.id}`);
  });
  const body = filled("round-page", {
    left: left ? `${countOf(left, "fitting")} to look at, in the order of the walls.` : up.length ? "All that is up was looked at today." : "Nothing is up.",
    fittings: lines,
  });
  const by = slot(body, "by");
  by.value = facts.inspected_by ?? "";
  by.addEventListener("change", () => notebook.choose({ inspected_by: by.value.trim() || null }));
  const next = nextToInspect(site);
  const last = next ? { words: "Begin", href: `#/inspect/${next.id}`, main: true } : { words: "Enter the visit", href: `#/new/visit?site=${site.item.id}&purpose=inspection`, main: true };
  return { title: "Inspection round", body, actions: [{ words: "Due", href: "#/due" }, { words: "Something happened", href: "#/happened" }, last] };
}

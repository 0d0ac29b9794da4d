/** One item of any kind: what is entered, whether it keeps to its limits, how it comes down, and its history. */

import { shown } from "../../checks/refusal.js";
import { appraise, consentOf } from "../book/appraisal.js";
import { faded } from "../book/fading.js";
import { stands, titleOf } from "../book/site.js";
import { goesWith } from "../book/undoing.js";
import { figureOf, keptTogether, labelOf, momentInWords, said } from "../book/wording.js";
import { drawingOf } from "../forms/pad.js";
import { fill, filled, link, rows, slot, text, wire } from "./markup.js";
import { agreementOn } from "./signing.js";
import { shutter } from "./taking.js";
import { cautionsOf, childrenOf, findingOf, listsOf, pageOf, picturesOf, titled, trailOf } from "./parts.js";

const DRAWN = ["signature", "fitter_signature"];

export function itemPage(context, id) {
  const { registry, notebook } = context;
  const item = notebook.items.get(id);
  if (!item) return null;
  const kind = registry.kinds.get(item.kind);
  const body = filled("item-page", {
    kind: kind.label,
    title: titleOf(registry, item),
    state: stateOf(context, item),
    shelf: notebook.shelf.filter(({ entry }) => entry.item === id).map(({ n }) => link("A change of this was refused: correct it", `#/mend/${n}`, "button")),
    lists: listsOf(context, item, childrenOf(registry, item)),
    groups: groupsOf(context, kind, item),
    empty: emptyOf(kind, item),
    pictures: picturesOf(context, item),
    withdraw: item.withdrawn ? "Bring it back" : "Withdraw it",
  });
  addFindings(context, item, body);
  addRemoval(context, item, body);
  slot(body, "history").href = `#/history/${id}`;
  const another = item.kind !== "site" && !kind.with_a_file;
  if (another) slot(body, "like").href = `#/new/${item.kind}?like=${id}`;
  else slot(body, "like").remove();
  if (item.kind === "fixing") slot(body, "row").href = `#/row/${id}`;
  else slot(body, "row").remove();
  if (item.kind === "fitting") slot(body, "agree").href = agreementOn(context, item);
  else slot(body, "agree").remove();
  wire(body, { withdraw: () => withdraw(context, item) });
  /** @type {object[]} */
  const actions = [{ words: "Change", href: `#/change/${id}` }, shutter(context, body, item)];
  if (item.values.state === "planned" && item.kind === "fixing") actions.push({ words: "Fitted", href: `#/fitted/${id}`, main: true });
  else if (childrenOf(registry, item).length) actions.push({ words: "New…", href: `#/choose/${id}`, main: true });
  return { title: titleOf(registry, item), trail: trailOf(context, item), live: () => true, body, actions };
}

function stateOf(context, item) {
  const { notebook } = context;
  const parts = [item.withdrawn ? "Withdrawn" : item.values.state, notebook.waits(item.id) ? "not sent yet" : ""];
  return [text(parts.filter(Boolean).join(" · ")), ...disagreements(context, item)];
}

const inQuotes = (words) => (words ? `“${words}”` : "empty");

/** What two devices set without having seen each other, with both values. */
function disagreements(context, item) {
  const { registry, notebook } = context;
  const { byAnyName } = registry.kinds.get(item.kind);
  const pairs = notebook.conflicts.filter((pair) => pair.item === item.id);
  const history = pairs.length ? notebook.historyOf(item.id) : [];
  const at = (revision) => history.find((entry) => entry.revision === revision);
  const valueOf = (field, revision) => (DRAWN.includes(field.name) ? "drawn" : inQuotes(said(field, at(revision)?.set?.[field.name], titled(context))));
  return pairs.map(({ field: name, earlier, later }) => {
    const field = byAnyName.get(name);
    const words = (revision) => (field ? valueOf(field, revision) : at(revision)?.withdraw ? "withdrawn" : "kept");
    const told = `${field ? labelOf(field) : "State"} was set in two ways, ${words(earlier)} and then ${words(later)}: to be settled at the desk.`;
    return Object.assign(document.createElement("span"), { className: "disagreement", textContent: keptTogether(told) });
  });
}

function groupsOf(context, kind, item) {
  const groups = new Map([["", []]]);
  for (const field of kind.fields) {
    const words = DRAWN.includes(field.name) ? "" : said(field, item.values[field.name], titled(context));
    if (!groups.has(field.group)) groups.set(field.group, []);
    if (words) groups.get(field.group).push([labelOf(field), words]);
  }
  const made = [...groups].filter(([, pairs]) => pairs.length).map(([heading, pairs]) => filled("group", { heading: heading || null, facts: rows("fact", pairs) }));
  const card = item.kind === "colour" ? context.notebook.site?.get(item.values.finish) : null;
  if (card) made.push(filled("group", { heading: null, facts: rows("fact", [["Against its card", faded(card.values, item.values)]]) }));
  const newer = Object.entries(item.newer ?? {}).map(([name, value]) => [name, shown(value)]);
  if (newer.length) made.push(filled("group", { heading: "From a newer Fieldbook", facts: rows("fact", newer) }));
  for (const name of DRAWN) if (item.values[name]?.length) made.push(filled("signature", { drawn: drawingOf(item.values[name]) }));
  return made;
}

function emptyOf(kind, { values }) {
  const empty = kind.fields.filter(({ name, retired }) => !retired && (values[name] ?? null) === null).map(({ label }) => label);
  return empty.length ? `Nothing entered: ${empty.join(" · ")}` : "";
}

function addFindings(context, item, body) {
  const { registry, notebook } = context;
  const face = notebook.site?.get(item.kind === "fixing" || item.kind === "fitting" ? item.values.face : null);
  const found = face ? appraise(registry, notebook.site, face).filter(({ subject }) => subject.id === item.id) : [];
  if (face && stands(item)) found.unshift(consentOf(registry, notebook.site, item));
  fill(body, found.length ? { findings: found.map((one) => findingOf(context, one)) } : { "findings-part": null });
}

/** How a fitting or a fixing comes down again, in order: readable with nothing else at hand. */
function addRemoval(context, item, body) {
  if (!["fitting", "fixing"].includes(item.kind)) return fill(body, { "removal-part": null });
  const { registry, notebook } = context;
  const { values } = item;
  const fixings = item.kind === "fitting" ? notebook.site.of(item, "fixing") : [item];
  const up = notebook.site.all("fitting").filter(stands);
  const first = up.filter((other) => other.values.hangs_on === item.id);
  const covering = up.filter((other) => (other.values.covers ?? []).includes(item.id));
  const named = (items) => items.map((one) => titleOf(registry, one)).join(", ");
  const removal = filled("removal-steps", {
    facts: rows("fact", [
      ["First take off", named([...covering, ...first])],
      ["People", figureOf(values.people_to_remove)],
      ["Time", figureOf(values.minutes_to_remove, "min")],
      ["Mass", figureOf(values.mass_loaded_kg ?? values.mass_empty_kg, "kg")],
      ["Make good", values.make_good],
      ["Marks left", values.trace],
    ]),
    how: values.removal ?? "How to take it down is not entered.",
    fixings: item.kind === "fitting" ? fixings.map((fixing) => stepOf(registry, fixing)) : [],
    cautions: cautionsOf(context, ["loads", "overhead work", "lifting"]),
  });
  return fill(body, { removal });
}

function stepOf(registry, fixing) {
  const { values } = fixing;
  const words = [values.sort, values.size, values.removal_tool && `with ${values.removal_tool}`, values.removal, values.make_good && `make good: ${values.make_good}`];
  const step = filled("removal-step", { link: titleOf(registry, fixing), words: `: ${words.filter(Boolean).join("; ")}` });
  slot(step, "link").href = pageOf(fixing);
  return step;
}

async function withdraw(context, item) {
  const question = item.withdrawn ? "Bring it back?" : `Withdraw it? ${goesWith(context, item)} The ledger keeps it all, and it can be brought back.`;
  if (!confirm(question)) return;
  await context.notebook.write([{ kind: item.kind, item: item.id, withdraw: !item.withdrawn }]).catch(context.fail);
  context.runner.nudge();
  context.refresh();
}

/** Every entry about an item that is on this phone, the latest first. */
export function historyPage(context, id) {
  const { registry, notebook } = context;
  const item = notebook.items.get(id);
  if (!item) return null;
  const { byName } = registry.kinds.get(item.kind);
  const steps = notebook.historyOf(id).map((entry) => {
    const changed = Object.entries(entry.set ?? {}).map(([name, value]) => {
      const field = byName.get(name);
      return [field ? labelOf(field) : name, DRAWN.includes(name) ? "drawn" : field ? said(field, value, titled(context)) || "(emptied)" : String(value)];
    });
    changed.push(...Object.entries(entry.unknown).map(([name, value]) => [`${name} (a newer Fieldbook’s)`, shown(value)]));
    if ("withdraw" in entry) changed.push(["State", entry.withdraw ? "withdrawn" : "brought back"]);
    const who = entry.device === notebook.facts.device ? "on this phone" : entry.device === "desk" ? "at the desk" : "on another phone";
    const sent = entry.revision ? `entry ${entry.revision}` : "not sent yet, or not confirmed";
    return filled("history-step", { when: momentInWords(entry.at), who: `${who}, ${sent}`, changes: rows("fact", changed) });
  });
  const body = filled("history-page", { title: titleOf(registry, item), steps: steps.reverse() });
  return { title: "History", trail: trailOf(context, item), body, actions: [{ words: "Back", href: pageOf(item) }] };
}

/** What is due, overdue first, room by room; what was done is one touch, why not a sentence. */

import { dayOf } from "../book/wording.js";
import { calledOf, titleOf } from "../book/site.js";
import { LATER, OVERDUE, SOON, UNDATED, datedAhead, dueOn, roomOf, stateOf } from "../book/due.js";
import { today } from "../book/moments.js";
import { entered } from "../forms/entering.js";
import { filled, link, slot, wire } from "./markup.js";
import { nothing, pageOf } from "./parts.js";

const HEADINGS = { [OVERDUE]: "Overdue, or due today", [SOON]: "In the next three months", [LATER]: "Later", [UNDATED]: "No day entered" };
const SORTS = { care: "care", tightness: "tightening", finding: "repair" };

export function duePage(context) {
  const { registry, notebook } = context;
  if (!notebook.site) return null;
  const now = today();
  const found = dueOn(registry, notebook.site, now);
  const ahead = datedAhead(notebook.site, now);
  const parts = Object.keys(HEADINGS).map((state) => partOf(context, state, found.filter((one) => stateOf(one, now) === state))).filter(Boolean);
  const body = filled("due-page", {
    parts: parts.length ? parts : [nothing("Nothing is due: no care, no visit and no patch is entered.")],
    desk: deskWords(notebook.site.desk),
    ahead: ahead.length ? `Dated after today: ${ahead.map((one) => titleOf(registry, one)).join(", ")}. What was done counts when its day has come. A clock was wrong, or this phone’s is: it says ${dayOf(now)}.` : null,
  });
  wire(body, { done: (_, pressed) => done(context, found[Number(pressed.dataset.at)]) });
  for (const button of /** @type {NodeListOf<HTMLElement>} */ (body.querySelectorAll("[data-uid]"))) button.dataset.at = String(found.findIndex((one) => keyOf(one) === button.dataset.uid));
  return { title: "Due", live: () => true, body, actions: [{ words: "Something happened", href: "#/happened" }, { words: "Inspection round", href: "#/round", main: true }] };
}

function deskWords(desk) {
  if (!desk) return "What is refused or over is not known here yet: the desk answers it when this phone and the laptop next meet.";
  return desk.fresh ? null : `What is refused or over is as the desk answered on ${dayOf(desk.day)}; something was entered since.`;
}

const keyOf = ({ item, part }) => `${item.id} ${part}`;

function partOf(context, state, those) {
  if (!those.length) return null;
  const { site } = context.notebook;
  const lines = [];
  let at;
  for (const one of those) {
    const room = roomOf(site, one.about);
    if (room !== at) lines.push(filled("due-room", { room: room ? titleOf(context.registry, room) : "The site as a whole" }));
    at = room;
    lines.push(lineOf(context, one));
  }
  return filled("due-part", { heading: HEADINGS[state], lines });
}

function lineOf({ registry, notebook }, one) {
  const { about, item, on, by, whyNot, sort } = one;
  const words = [on ? dayOf(on) : "", by || "nobody is named", whyNot && `not done: ${whyNot}`].filter(Boolean).join(" · ");
  const line = filled("due-line", { what: link(`${one.what}${about && !one.what.includes(calledOf(registry, about)) ? `, ${calledOf(registry, about)}` : ""}`, pageOf(about ?? item)), words });
  if (sort === "answer") {
    slot(line, "done").remove();
    slot(line, "not-done").replaceChildren("See it");
    slot(line, "not-done").href = pageOf(item);
    return line;
  }
  if (!(sort in SORTS)) {
    slot(line, "done").remove();
    slot(line, "not-done").replaceChildren("Enter it");
    slot(line, "not-done").href = sort === "visit" ? `#/new/visit?site=${notebook.site.item.id}&purpose=inspection` : `#/change/${item.id}`;
    return line;
  }
  slot(line, "done").dataset.uid = keyOf(one);
  slot(line, "not-done").href = `#/new/work?${new URLSearchParams({ ...workOf(one, notebook.site), outcome: "not done" })}`;
  return line;
}

/** What a piece of work that does what is due is entered with. */
export function workOf({ sort, what, about, item }, site) {
  const at = about && ["fitting", "fixing"].includes(about.kind) ? { [about.kind]: about.id } : {};
  const says = { care: { task: item.id }, finding: { observation: item.id } }[sort] ?? {};
  return { site: site.item.id, what, sort: SORTS[sort], on: today(), ...at, ...says };
}

async function done(context, one) {
  const { site, facts } = context.notebook;
  const work = { kind: "work", values: { ...workOf(one, site), outcome: "done", by: facts.inspected_by ?? facts.fitted_by } };
  if (await entered(context, [work], `${one.what}: done. Saved on this phone; it can be undone under “My entries today”.`)) context.refresh();
}

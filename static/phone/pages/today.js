/** The site one is on: what is not sent yet, what was begun, what is to be set out, and the rooms. */

import { countOf, momentInWords, sizeOf } from "../book/wording.js";
import { OVERDUE, dueOn, stateOf } from "../book/due.js";
import { today } from "../book/moments.js";
import { calledOf, titleOf } from "../book/site.js";
import { everyDraft } from "../store/drafts.js";
import { againAt } from "./again.js";
import { fill, filled, link, made } from "./markup.js";
import { lineOf, none, nothing, pageOf, titled } from "./parts.js";
import { shutter } from "./taking.js";

export async function todayPage(context) {
  const { registry, notebook } = context;
  if (!notebook.site) return { title: "On site", live: () => true, body: made("no-site"), actions: [{ words: "This phone", href: "#/storage" }] };
  const drafts = await everyDraft();
  const waits = waitingOf(notebook);
  const now = today();
  const planned = countPlanned(notebook.site);
  const overdue = dueOn(registry, notebook.site, now).filter((one) => stateOf(one, now) === OVERDUE).length;
  const body = filled("today", {
    site: link(titleOf(registry, notebook.site.item), pageOf(notebook.site.item)),
    date: new Intl.DateTimeFormat("en-GB", { weekday: "long", day: "numeric", month: "long" }).format(new Date()),
    due: overdue ? `Due: ${countOf(overdue, "thing")} by today` : "What is due",
    waits: waits.words,
    since: waits.oldest ? `The oldest is from ${momentInWords(waits.oldest)}.` : null,
    rooms: notebook.site.all("room").length ? notebook.site.all("room").map((room) => roomPart(context, room, planned)) : [nothing("No rooms yet.")],
  });
  part(body, "drafts", drafts.map((draft) => draftLine(draft)));
  part(body, "rivals", rivalsOf(context));
  part(body, "shelf", notebook.shelf.map((row) => shelfLine(context, row)));
  const site = notebook.site.item;
  const face = notebook.site.get(notebook.facts.face);
  part(body, "again", face ? againAt(context, face) : []);
  return {
    title: "On site",
    live: () => true,
    body,
    actions: [
      { words: face ? `New at ${calledOf(registry, face)}` : "New…", href: `#/choose/${(face ?? site).id}` },
      { words: "New room", href: `#/new/room?site=${site.id}` },
      shutter(context, body, face ?? site),
      face ? { words: `May I, at ${calledOf(registry, face)}?`, href: `#/here/${face.id}`, main: true } : { words: "This phone", href: "#/storage" },
    ],
  };
}

/** What is not sent yet: how much, how large, since when. */
export function waitingOf({ outbox, pictures, shelf }) {
  const photographs = pictures.filter(({ state }) => state === "waiting");
  const refused = shelf.length + pictures.filter(({ state }) => state === "refused").length;
  const size =
    photographs.reduce((sum, picture) => sum + picture.size, 0) +
    outbox.reduce((sum, { entry }) => sum + JSON.stringify(entry).length, 0);
  const [oldest] = [...outbox.map(({ entry }) => entry.at), ...photographs.map(({ at }) => at)].sort();
  const counted = [
    outbox.length ? countOf(outbox.length, "entry", "entries") : "",
    photographs.length ? countOf(photographs.length, "photograph") : "",
  ].filter(Boolean);
  const count = outbox.length + photographs.length;
  const waiting = count ? `${counted.join(", ")}, ${sizeOf(size)}` : refused ? "Nothing" : "Nothing: all is on the laptop";
  return { count, size, oldest, refused, words: refused ? `${waiting}; ${refused} refused` : waiting };
}

function part(body, name, lines) {
  fill(body, lines.length ? { [name]: lines } : { [`${name}-part`]: null });
}

function draftLine({ route, title, at }) {
  const line = filled("line", { mark: "", name: title, aside: momentInWords(at) });
  line.querySelector("a").href = route;
  return line;
}

function shelfLine(context, { n, entry, findings }) {
  const name = titled(context)(entry.item);
  const label = context.registry.kinds.get(entry.kind)?.label ?? entry.kind;
  const line = filled("line", { mark: "", name: name === "(not here yet)" ? label : name, aside: findings[0]?.reason ?? "" });
  line.querySelector("a").href = `#/mend/${n}`;
  return line;
}

/** What two devices set without having seen each other, thing by thing. */
function rivalsOf(context) {
  const { registry, notebook } = context;
  const fields = new Map();
  for (const { item, field } of notebook.conflicts) if (notebook.items.has(item)) fields.set(item, [...(fields.get(item) ?? []), field]);
  return [...fields].map(([id, names]) => {
    const item = notebook.items.get(id);
    const labels = names.map((name) => registry.kinds.get(item.kind).byAnyName.get(name)?.label ?? "State");
    return lineOf(context, item, [...new Set(labels)].join(", "));
  });
}

/** A room with its faces: one touch leads to the work at each. */
function roomPart(context, room, planned) {
  const { notebook, registry } = context;
  const faces = notebook.site.of(room, "face");
  const part = filled("room-part", { faces: faces.length ? faces.map((face) => faceLine(context, face, planned.get(face.id))) : [none("No faces yet.")] });
  fill(part, { room: link(titleOf(registry, room), pageOf(room)) });
  return part;
}

/** How many fixings are to be set out on each face, by its id. */
function countPlanned(site) {
  const planned = new Map();
  for (const { values } of site.those("fixing", ({ values }) => values.state === "planned")) planned.set(values.face, (planned.get(values.face) ?? 0) + 1);
  return planned;
}

function faceLine(context, face, planned) {
  return lineOf(context, face, planned ? `${countOf(planned, "fixing")} to set out` : "", `#/work/${face.id}`);
}

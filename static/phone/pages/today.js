/** Today: what waits, what was begun, what is to be set out, and the rooms. */

import { countOf, figureOf, momentInWords, sizeOf } from "../book/wording.js";
import { placeOf } from "../book/places.js";
import { calledOf, titleOf } from "../book/site.js";
import { everyDraft } from "../store/drafts.js";
import { fill, filled, link, made } from "./markup.js";
import { lineOf, none, nothing, pageOf, titled } from "./parts.js";

export async function todayPage(context) {
  const { notebook } = context;
  if (!notebook.site) return { title: "Today", live: () => true, body: made("no-site"), actions: [{ words: "This phone", href: "#/storage" }] };
  const drafts = await everyDraft();
  const waits = waitingOf(notebook);
  const body = filled("today", {
    date: new Intl.DateTimeFormat("en-GB", { weekday: "long", day: "numeric", month: "long" }).format(new Date()),
    others: siteLine(context),
    waits: waits.words,
    since: waits.oldest ? `The oldest since ${momentInWords(waits.oldest)}.` : null,
    planned: plannedFaces(context),
    rooms: roomLines(context),
  });
  part(body, "drafts", drafts.map((draft) => draftLine(draft)));
  part(body, "shelf", notebook.shelf.map((row) => shelfLine(context, row)));
  const site = notebook.site.item;
  return {
    title: "Today",
    live: () => true,
    body,
    actions: [
      { words: "The site", href: pageOf(site) },
      { words: "New room", href: `#/new/room?site=${site.id}` },
      { words: "Photograph", href: `#/photograph/${site.id}`, main: true },
      { words: "This phone", href: "#/storage" },
    ],
  };
}

/** What waits: how much, how large, since when. */
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
  const waiting = count ? `${counted.join(", ")}, ${sizeOf(size)}` : "Nothing: all is on the laptop";
  return { count, size, oldest, refused, words: refused ? `${waiting}; ${refused} refused` : waiting };
}

function part(body, name, lines) {
  fill(body, lines.length ? { [name]: lines } : { [`${name}-part`]: null });
}

function siteLine({ registry, notebook }) {
  const line = document.createElement("p");
  line.className = "kind";
  line.append(link(titleOf(registry, notebook.site.item), pageOf(notebook.site.item)));
  return line;
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

function roomLines(context) {
  const { notebook } = context;
  const rooms = notebook.site.all("room");
  if (!rooms.length) return [none("No rooms yet.")];
  return rooms.map((room) => {
    const faces = notebook.site.of(room, "face");
    return lineOf(context, room, countOf(faces.length, "face"));
  });
}

function plannedFaces(context) {
  const { registry, notebook } = context;
  const { site } = notebook;
  const faces = site.all("face").map((face) => [face, site.fixingsOn(face).filter(({ values }) => values.state === "planned")]);
  const open = faces.filter(([, fixings]) => fixings.length);
  if (!open.length) return [nothing("No fixing is planned that is not fitted.")];
  return open.map(([face, fixings]) => {
    const part = filled("to-set-out", {
      face: `${calledOf(registry, site.parent(face))} · ${titleOf(registry, face)}`,
      count: countOf(fixings.length, "fixing"),
    });
    // Only what is looked at is made: a site has hundreds of them.
    const lines = () => [...fixings.map((fixing) => fixingLine(context, fixing)), lineOf(context, face, "the whole face")];
    part.addEventListener("toggle", () => /** @type {HTMLDetailsElement} */ (part).open && fill(part, { fixings: lines() }));
    return part;
  });
}

function fixingLine(context, fixing) {
  const [x, z] = placeOf(fixing);
  return lineOf(context, fixing, `x ${figureOf(x)}, z ${figureOf(z)}`, `#/fitted/${fixing.id}`);
}

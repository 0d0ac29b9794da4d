/** The pages of a site and of a room, and the choice of what to enter. */

import { FINE } from "../../checks/verdict.js";
import { consentOf } from "../book/appraisal.js";
import { lastLike } from "../book/next_mark.js";
import { countOf, dayOf, figureOf, said } from "../book/wording.js";
import { stands, titleOf } from "../book/site.js";
import { aboutIt, likeLast, linkTo } from "./again.js";
import { filled, link, rows, slot } from "./markup.js";
import { cautionsOf, childrenOf, lineOf, listsOf, none, pageOf, picturesOf, titled, trailOf } from "./parts.js";
import { agreementOn } from "./signing.js";
import { shutter } from "./taking.js";
import { wallsLacking } from "./walls.js";

const MOST_ALSO = 6;

export function sitePage(context, id) {
  const { registry, notebook } = context;
  const item = notebook.items.get(id);
  if (item?.kind !== "site") return null;
  if (notebook.site?.item.id !== id) notebook.choose({ site: id });
  const body = filled("site-page", {
    title: titleOf(registry, item),
    choose: notebook.sites.filter((one) => one.id !== id).map((one) => link(`Change to ${[titleOf(registry, one), one.values.address].filter(Boolean).join(", ")}`, pageOf(one), "button")),
    facts: factsOf(context, item),
    lists: listsOf(context, item, childrenOf(registry, item), { visit: ({ values }) => dayOf(values.on) }),
  });
  slot(body, "all").href = `#/item/${id}`;
  return {
    title: titleOf(registry, item),
    live: () => true,
    body,
    actions: [
      { words: "Agreement", href: `#/new/agreement?site=${id}` },
      { ...shutter(context, body, item), main: true },
      { words: "New…", href: `#/choose/${id}` },
    ],
  };
}

export function roomPage(context, id) {
  const { registry, notebook } = context;
  const item = notebook.site?.get(id);
  if (item?.kind !== "room") return null;
  const faces = notebook.site.of(item, "face");
  const body = filled("room-page", {
    title: titleOf(registry, item),
    cautions: cautionsOf(context, item.values.hazards ?? []),
    faces: faces.length ? faces.map((face) => lineOf(context, face, faceAside(notebook.site, face))) : [none("No faces yet.")],
    facts: factsOf(context, item),
    lists: listsOf(context, item, childrenOf(registry, item).filter((kind) => kind !== "face"), {
      reading: ({ values }) => `${figureOf(values.value, values.unit)}, ${dayOf(values.at)}`,
      observation: ({ values }) => dayOf(values.at),
    }),
    pictures: picturesOf(context, item),
    walls: wallsLacking(notebook.site, item).map(({ name, mark }) => link(`New: ${name}`, `#/new/face?${new URLSearchParams({ room: id, name, mark, sort: "wall" })}`)),
  });
  slot(body, "all").href = `#/item/${id}`;
  slot(body, "observe").href = `#/new/observation?room=${id}`;
  slot(body, "measure").href = `#/new/reading?room=${id}`;
  return {
    title: titleOf(registry, item),
    trail: trailOf(context, item),
    live: () => true,
    body,
    actions: [
      { words: "New face", href: `#/new/face?room=${id}` },
      { ...shutter(context, body, item), main: true },
      { words: "New…", href: `#/choose/${id}` },
    ],
  };
}

/** What may be entered about an item. */
export function choosePage(context, id) {
  const { registry, notebook } = context;
  const item = notebook.site?.get(id);
  if (!item) return null;
  const choices = [...registry.kinds.values()].filter((kind) => !kind.with_a_file && linkTo(kind, item)).map((kind) => choiceOf(kind, aboutIt(kind, item), likeLast(context, kind, item)));
  if (item.kind === "face") choices.push(agreeing(context, item));
  const body = filled("choose-page", { title: `New, about ${titleOf(registry, item)}`, choices });
  return { title: "New", trail: trailOf(context, item), body, actions: [] };
}

function choiceOf(kind, given, also) {
  const choice = filled("choice", { name: kind.label, meaning: kind.meaning, also });
  slot(choice, "link").href = `#/new/${kind.name}?${new URLSearchParams(given)}`;
  return choice;
}

/** An agreement on a face, or on a fitting there with all its fixings that is not agreed to yet. */
function agreeing(context, face) {
  const { registry, notebook } = context;
  const { site } = notebook;
  const open = site.of(face, "fitting").filter((one) => stands(one) && !FINE.includes(consentOf(registry, site, one).verdict.word));
  const also = open.slice(0, MOST_ALSO).map((one) => link(`On ${titleOf(registry, one)}`, agreementOn(context, one)));
  return choiceOf(registry.kinds.get("agreement"), { site: site.item.id, items: face.id }, also);
}

/** Name and words of an item's foremost fields, those that are filled in. */
export function factsOf(context, item) {
  const fields = context.registry.kinds.get(item.kind).fields.filter(({ foremost }) => foremost);
  return rows("fact", fields.map((field) => [field.label, said(field, item.values[field.name], titled(context))]));
}

function faceAside(site, face) {
  const fixings = site.fixingsOn(face);
  const planned = fixings.filter(({ values }) => values.state === "planned").length;
  const size = `${figureOf(face.values.width_mm)} × ${figureOf(face.values.height_mm, "mm")}`;
  return planned ? `${size} · ${countOf(planned, "fixing")} to set out` : size;
}

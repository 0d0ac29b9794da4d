/** Looking at one fitting on a round: as it should be, in one touch; or what is not, in classes, words and a photograph. */

import { now } from "../forms/presets.js";
import { entered } from "../forms/entering.js";
import { keepTyped } from "../forms/keeping.js";
import { once } from "../forms/saving.js";
import { isSeenTo } from "../book/due.js";
import { today } from "../book/moments.js";
import { calledOf, stands, titleOf } from "../book/site.js";
import { dayOf, figureOf } from "../book/wording.js";
import { fill, filled, link, rows, slot, wire } from "./markup.js";
import { openGuide } from "./guide.js";
import { addMeasuring } from "./measuring.js";
import { showPicture, trailOf } from "./parts.js";
import { inspectionsOf, nextToInspect } from "./round.js";
import { shutter } from "./taking.js";

const SHOWN_BEFORE = ["inspection", "as fitted", "at work"];

export async function inspectPage(context, id) {
  const { registry, notebook } = context;
  const { site } = notebook;
  const fitting = site?.get(id);
  if (fitting?.kind !== "fitting") return null;
  const face = site.get(fitting.values.face);
  const last = inspectionsOf(site, fitting).at(-1);
  const picture = latestPicture(site, fitting);
  const body = filled("inspect-page", {
    where: `${titleOf(registry, site.parent(face))} · ${calledOf(registry, face)} · x ${figureOf(fitting.values.x_mm)}, z ${figureOf(fitting.values.z_mm, "mm")}`,
    title: titleOf(registry, fitting),
    before: openOf(site, fitting),
    facts: factsOf(site, fitting),
    condition: classes("condition"),
    urgency: classes("urgency"),
    links: linksOf(site, fitting),
  });
  if (picture) {
    fill(body, { caption: `${picture.values.purpose}${picture.values.taken_at ? `, ${dayOf(picture.values.taken_at.slice(0, 10))}` : ""}` });
    slot(body, "image").alt = `${titleOf(registry, fitting)}, ${picture.values.purpose}`;
    showPicture(slot(body, "image"), picture.values.sha256);
  } else fill(body, { figure: null });
  const chosen = { condition: "", urgency: "" };
  addMeasuring(context, body, fitting);
  const kept = await keepTyped(context, body, { key: `inspect ${id}`, title: `Inspecting ${titleOf(registry, fitting)}` }, chosen);
  showChosen(body, chosen);
  const save = once((more) => saved(context, fitting, more, kept));
  wire(body, {
    fine: () => save({ what: "As it should be", condition_class: "0", urgency_class: "0" }),
    found: () => {
      const words = slot(body, "words").value.trim();
      if (!chosen.condition || !chosen.urgency) return context.say("Choose a class of condition and one of urgency.");
      return save({ what: words.split("\n")[0].slice(0, 180).replace(/\.$/, "") || `Condition ${chosen.condition}, urgency ${chosen.urgency}`, words, condition_class: chosen.condition, urgency_class: chosen.urgency });
    },
    answer(_, { dataset: { name, value } }) {
      chosen[name] = value;
      showChosen(body, chosen);
      kept.keep();
    },
    guide: () => openGuide(context, body, fitting, { before: picture, purpose: "inspection" }),
  });
  const next = nextToInspect(site, fitting);
  return {
    title: titleOf(registry, fitting),
    trail: trailOf(context, fitting),
    body,
    writing: true,
    actions: [{ words: "The round", href: "#/round" }, shutter(context, body, fitting, "inspection"), ...(next && next.id !== id ? [{ words: `Next: ${calledOf(registry, next)}`, href: `#/inspect/${next.id}` }] : last ? [{ words: "Last time", href: `#/item/${last.id}` }] : [])],
  };
}

/** The photograph of a fitting that shows it as it was left last. */
export function latestPicture(site, fitting) {
  const known = site.photographsOf(fitting).filter(({ values }) => SHOWN_BEFORE.includes(values.purpose));
  return known.sort((one, other) => (one.values.taken_at ?? "").localeCompare(other.values.taken_at ?? "") || (one.id < other.id ? -1 : 1)).at(-1);
}

function openOf(site, fitting) {
  const open = site.all("observation").filter((one) => one.values.fitting === fitting.id && one.values.urgency_class > "0" && !isSeenTo(site, one, today()));
  return open.length ? `Open since ${open.map(({ values }) => `${dayOf(values.at.slice(0, 10))}: ${values.what}`).join("; ")}` : null;
}

function factsOf(site, { id, values }) {
  const finishes = (values.finishes ?? []).map(site.get).filter(Boolean);
  const tight = site.all("fixing").filter((one) => one.values.fitting === id && one.values.torque_nm && stands(one));
  return rows("fact", [
    ["With all on it", figureOf(values.mass_loaded_kg, "kg")],
    ["Torque", tight.map((one) => `${one.values.mark} ${figureOf(one.values.torque_nm, "N m")}`).join(", ")],
    ["Finish", finishes.map((one) => one.values.name).join(", ")],
    ["Care", values.care],
  ]);
}

function linksOf(site, fitting) {
  const about = { site: site.item.id, fitting: fitting.id };
  const [finish] = (fitting.values.finishes ?? []).map(site.get).filter(Boolean);
  const touchUp = { ...about, sort: "touch-up", what: "Touched up", outcome: "done", ...(finish && { finish: finish.id, batch: finish.values.batch ?? "" }) };
  return [
    link("Something happened to it", `#/happened?about=${fitting.id}`),
    link("Touched up", `#/new/work?${new URLSearchParams(touchUp)}`),
    ...(finish ? [link("Colour measured again", `#/new/colour?finish=${finish.id}&fitting=${fitting.id}`)] : []),
    link("Moved, or more on it", `#/move/${fitting.id}`),
  ];
}

function classes(name) {
  return ["0", "1", "2", "3"].map((word) => {
    const button = filled("answer-button", { word });
    button.dataset.value = word;
    button.dataset.name = name;
    return button;
  });
}

/** What was chosen before is looked at without opening the part first. */
function showChosen(body, chosen) {
  for (const [name, value] of Object.entries(chosen)) {
    for (const button of slot(body, name).children) button.setAttribute("aria-pressed", String(button.dataset.value === value));
  }
  if (chosen.condition || chosen.urgency || slot(body, "words").value) slot(body, "wrong").open = true;
}

async function saved(context, fitting, more, kept) {
  const { registry, notebook } = context;
  const { face } = fitting.values;
  const place = { room: notebook.site.get(face).values.room, face, fitting: fitting.id };
  const values = { ...place, at: now(), occasion: "inspection", seen_by: notebook.facts.inspected_by ?? notebook.facts.fitted_by, ...more };
  const ids = await entered(context, [{ kind: "observation", values }], `${calledOf(registry, fitting)}: ${more.what.toLowerCase()}. Saved on this phone.`, kept);
  if (!ids) return false;
  const next = nextToInspect(notebook.site, fitting);
  await context.go(next ? `#/inspect/${next.id}` : "#/round", { replace: true });
  return true;
}

/** The workshop sheets as the desk answered them: what is cut out of what, where holes go, what is bought and coated. */

import { lineNames, overtaken, withTick } from "../book/made.js";
import { today } from "../book/moments.js";
import { titleOf } from "../book/site.js";
import { dayOf, figureOf } from "../book/wording.js";
import { filled, link, slot, text } from "./markup.js";
import { nothing, pageOf } from "./parts.js";

export function workshopPage(context) {
  const { notebook } = context;
  if (!notebook.site) return null;
  const { desk } = notebook.site;
  const told = desk?.workshop ?? [];
  const body = filled("workshop-page", {
    desk: !desk ? "The desk answers this when phone and desk next meet." : desk.fresh ? null : `As the desk answered on ${dayOf(desk.day)}; something was entered since.`,
    phases: told.length ? told.map((phase) => phaseOf(context, phase)) : [nothing(desk ? "Nothing is planned." : "No sheet is here yet.")],
  });
  if (desk) letTick(context, body);
  else for (const name of ["ticks", "overtaken"]) slot(body, name).remove();
  return { title: "Workshop", live: () => true, body, actions: [{ words: "Phases", href: "#/phases" }] };
}

/** What is cut, drilled, bought and coated is ticked off; each tick is kept at once, on this phone. */
function letTick({ notebook, fail }, body) {
  const site = notebook.site.item.id;
  const lines = /** @type {HTMLElement[]} */ ([...body.querySelectorAll("[data-line]")]);
  const headOf = (line) => line.closest("section").querySelector("h2").textContent;
  const names = lineNames(lines.map((line) => `${headOf(line)}: ${line.dataset.line} ${line.textContent.trim()}`.replace(/\s+/g, " ")));
  const made = () => notebook.facts.made?.[site] ?? {};
  const keep = (changed) => notebook.choose({ made: { ...notebook.facts.made, [site]: changed } });
  lines.forEach((line, at) => {
    const box = /** @type {HTMLInputElement} */ (line.querySelector("input"));
    const words = line.querySelector("[data-words]");
    words.id = `line-${at + 1}`;
    box.setAttribute("aria-labelledby", words.id);
    box.checked = names[at] in made();
    box.addEventListener("change", () => keep(withTick(made(), names[at], box.checked ? today() : null)).catch((error) => {
      box.checked = !box.checked;
      fail(error);
    }));
  });
  const gone = overtaken(made(), names);
  const part = slot(body, "overtaken");
  if (!gone.length) return part.remove();
  slot(part, "words").textContent = `${gone.length} tick${gone.length > 1 ? "s were" : " was"} for what no longer stands here so: ${gone.join("; ")}`;
  return slot(part, "clear").addEventListener("click", () => {
    keep(gone.reduce((left, line) => withTick(left, line, null), made())).then(() => part.remove(), fail);
  });
}

function phaseOf(context, { name, cut, drill, buy, finishes }) {
  return filled("workshop-phase", {
    name: name ? `Phase ${name}` : "No phase entered",
    cut: cut.length ? cut.map((lot) => lotOf(context, lot)) : [nothing("No parts to cut are entered.")],
    drill: drill.length ? drill.map((batch) => batchOf(context, batch)) : [nothing("No fixings are planned.")],
    buy: buy.length ? buy.map(([what, length, width, number]) => lineOf("buy", `${number} × ${what}${length === null ? "" : `, ${sizeIn(length, width)}`}`)) : [filled("workshop-plain", { words: "Nothing." })],
    finishes: finishes.length ? finishes.map((finish) => lineOf("coat", ...finishIn(context, finish))) : [filled("workshop-plain", { words: "None." })],
  });
}

function lotOf(context, { what, parts, pieces, refusal }) {
  const part = ([name, length, width, count, fittings]) => filled("workshop-plain", { words: wordsOf(`${count} × ${name}, ${sizeIn(length, width)}, for `, ...namesOf(context, fittings)) });
  return filled("workshop-lot", {
    what,
    parts: parts.map(part),
    refusal: refusal ? `Not known how it is laid out. ${refusal}` : null,
    pieces: pieces.length ? pieces.map(([source, length, width, cuts]) => lineOf("cut", `${sizeIn(length, width)}, ${source}: ${cuts.map(cutIn).join("; ")}`)) : null,
  });
}

/** A part with where it begins in its piece: along a length, or along and up on a sheet. */
const cutIn = ([part, length, width, along, up]) => `${part} ${sizeIn(length, width)} at ${figureOf(along)}${width === null ? "" : `, ${figureOf(up)}`}`;

function batchOf(context, { fittings, holes }) {
  const hole = ([fixing, along, up]) => {
    const what = whatOf(context.notebook.items.get(fixing));
    return lineOf("drill", ...namesOf(context, [fixing]), `: ${figureOf(along)} along, ${figureOf(up)} up${what ? `; ${what}` : ""}`);
  };
  return filled("workshop-batch", { fittings: namesOf(context, fittings), holes: holes.map(hole) });
}

function whatOf(item) {
  const { sort, size, diameter_mm: diameter } = item?.values ?? {};
  return [[sort, size].filter(Boolean).join(" "), diameter ? `⌀ ${figureOf(diameter, "mm")}` : ""].filter(Boolean).join(", ");
}

function finishIn(context, [finish, coats, litres, lacking, fittings]) {
  const much = litres === null ? `not known how much; the desk asks for ${lacking.join(", ")}` : figureOf(litres, "l");
  const times = coats ? `, ${coats} coat${coats > 1 ? "s" : ""}` : "";
  return [...namesOf(context, [finish]), `${times}: ${much}; for `, ...namesOf(context, fittings)];
}

const sizeIn = (length, width) => figureOf(length) + (width === null ? "" : ` × ${figureOf(width)}`);
const wordsOf = (...words) => words.map((one) => (typeof one === "string" ? text(one) : one));

/** A line to be ticked; `act` keeps what is bought and what is cut of the same words apart. */
function lineOf(act, ...words) {
  const line = filled("workshop-line", { words: wordsOf(...words) });
  line.dataset.line = act;
  return line;
}

function namesOf({ registry, notebook }, ids) {
  return ids.flatMap((id, at) => {
    const item = notebook.items.get(id);
    const named = item ? link(item.values.mark || titleOf(registry, item), pageOf(item)) : text("something no longer there");
    return at ? [text(", "), named] : [named];
  });
}

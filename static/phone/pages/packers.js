/** Packers behind points just measured. */

import { within } from "../../checks/limits.js";
import { PACKERS_SOURCE, fromBox, packers } from "../../checks/packers.js";
import { Refusal } from "../../checks/refusal.js";
import { lengthsIn } from "../book/figures.js";
import { numberTo } from "../book/typed.js";
import { countOf, figureOf } from "../book/wording.js";
import { titleOf } from "../book/site.js";
import { keepTyped } from "../forms/keeping.js";
import { fill, filled, slot, wire } from "./markup.js";
import { nothing, trailOf } from "./parts.js";

const [PLACES_MM, PACKERS_MM] = [[-100_000, 100_000], [0, 500]];

export async function packersPage(context, id) {
  const { registry, notebook } = context;
  const face = notebook.site?.get(id);
  if (face?.kind !== "face") return null;
  const body = filled("packers-page", { face: titleOf(registry, face) });
  const form = slot(body, "form");
  const surface = face.values.surface ?? [];
  if (!surface.length) slot(body, "surveyed").remove();
  wire(body, {
    surveyed() {
      form.elements.points.value = surface.map((row) => row.map(numberTo).join(" ")).join("\n");
      form.elements.points.dispatchEvent(new Event("input", { bubbles: true }));
    },
  });
  await keepTyped(context, body, { key: `packers ${id}`, title: `Packers: ${titleOf(registry, face)}` });
  form.addEventListener("input", () => reckon(body, form));
  form.addEventListener("submit", (event) => event.preventDefault());
  reckon(body, form);
  return { title: "Packers", trail: trailOf(context, face), body, actions: [{ words: "The face", href: `#/face/${id}` }] };
}

function reckon(body, form) {
  const { points, plane, stock, least } = form.elements;
  try {
    const measured = points.value.split("\n").flatMap((line, at) => (line.trim() ? [threeOf(line, at + 1)] : []));
    const [thinnest = 0] = figuresIn(least.value, "Thinnest packer anywhere");
    const answer = measured.length ? answered(measured, plane.value, figuresIn(stock.value, "In the box"), thinnest) : nothing("Type the points measured.");
    fill(body, { answer });
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    fill(body, { answer: nothing(error.message) });
  }
}

function answered(points, plane, stock, least) {
  const made = stock.length ? fromBox(points, plane, stock, least) : null;
  const wanted = made ? made.stacks.map((stack) => stack.reduce((sum, piece) => sum + piece, 0)) : packers(points, plane, least);
  return filled("packers-answer", {
    rows: points.map(([x, z], at) =>
      filled("packer-row", {
        place: `${figureOf(x)} / ${figureOf(z)}`,
        packer: figureOf(Math.round(wanted[at] * 100) / 100, "mm"),
        "made-of": made?.stacks[at].length ? `from the box: ${made.stacks[at].map(numberTo).join(" + ")}` : "",
      }),
    ),
    off: made ? `These leave the work at most ${figureOf(Math.ceil(made.off * 100) / 100, "mm")} off the plane.` : "",
    source: PACKERS_SOURCE,
  });
}

function threeOf(/** @type {string} */ line, /** @type {number} */ number) {
  const point = figuresIn(line, `Line ${number}`, PLACES_MM);
  if (point.length === 3) return point;
  throw new Refusal("unsuitable-shape", `Line ${number} has ${countOf(point.length, "figure")}.`, "Give x, z and proud.", { field: "points" });
}

/** The lengths of a line, each within what it can be. @param {string} line @returns {number[]} mm */
function figuresIn(line, called, [low, high] = PACKERS_MM) {
  return lengthsIn(line).map((figure) => {
    if (typeof figure === "number") return within(called, figure, low, high, "mm");
    const about = { field: "points", value: figure };
    throw new Refusal("not-a-number", `${called}: “${figure}” cannot be read as lengths in mm.`, "Write each without a mark for thousands, and a unit behind all of them or none.", about);
  });
}

/** Packers behind points just measured. */

import { PACKERS_SOURCE, fromBox, packers } from "../../checks/packers.js";
import { Refusal } from "../../checks/refusal.js";
import { lengthsIn } from "../book/figures.js";
import { numberTo } from "../book/typed.js";
import { figureOf } from "../book/wording.js";
import { titleOf } from "../book/site.js";
import { fill, filled, slot, wire } from "./markup.js";
import { nothing, trailOf } from "./parts.js";

export function packersPage(context, id) {
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
      reckon(body, form);
    },
  });
  form.addEventListener("input", () => reckon(body, form));
  form.addEventListener("submit", (event) => event.preventDefault());
  reckon(body, form);
  return { title: "Packers", trail: trailOf(context, face), body, actions: [{ words: "The face", href: `#/face/${id}` }] };
}

function reckon(body, form) {
  const points = numbers(form.elements.points.value.split("\n"));
  const [stock = []] = numbers([form.elements.stock.value]);
  const [[least = 0] = []] = numbers([form.elements.least.value]);
  if (!points.length) {
    fill(body, { answer: nothing("Type the points measured.") });
    return;
  }
  try {
    fill(body, { answer: answered(points.map(threeOf), form.elements.plane.value, stock, least) });
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
        "made-of": made ? made.stacks[at].map(numberTo).join(" + ") || "none" : "",
      }),
    ),
    off: made ? `These leave the work at most ${figureOf(Math.ceil(made.off * 100) / 100, "mm")} off the plane.` : "",
    source: PACKERS_SOURCE,
  });
}

function threeOf(point, place) {
  if (point.length === 3) return point;
  throw new Refusal("unsuitable-shape", `Line ${place + 1} has ${point.length} figures.`, "Give x, z and proud.", { field: "points" });
}

function numbers(lines) {
  return lines.map(lengthsIn).filter((line) => line.length);
}

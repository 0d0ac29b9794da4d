/** Measuring in a photograph: points of known place are marked on it, and a touch then tells where on the face it is. */

import { asked, faceOf, missedBy, planeTyped, recordedOn, saidOf, wholePlace } from "../book/in_picture.js";
import { numberIn } from "../book/figures.js";
import { numberTo } from "../book/typed.js";
import { titleOf } from "../book/site.js";
import { cross, grip, hearTouches, overPicture, recordedOver } from "../drawing/over_picture.js";
import { draftOf } from "../forms/draft.js";
import { figureIn } from "../forms/entering.js";
import { addSignToggles, showErrors } from "../forms/inputs.js";
import { changedOf, once, wrote } from "../forms/saving.js";
import { fill, filled, slot, wire } from "./markup.js";
import { showPicture, trailOf } from "./parts.js";

const COLUMNS = ["across", "down", "x", "z", "off"];
const told = (figure) => (typeof figure === "number" ? numberTo(figure) : "");

export async function measurePage(context, id) {
  const { registry, notebook } = context;
  const item = notebook.items.get(id);
  if (item?.kind !== "photograph" || !notebook.site) return null;
  const { values } = item;
  const title = `Measure in ${titleOf(registry, item)}`;
  const draft = await draftOf(notebook, { key: `measure ${id}`, route: location.hash, title });
  const size = { width: values.width_px ?? 1600, height: values.height_px ?? 1200 };
  const body = filled("measure-page", { title });
  const state = { context, item, body, draft, size, svg: overPicture(size.width, size.height), marking: !values.plane_marks?.length, corners: [], touched: false };
  slot(body, "picture").append(state.svg);
  const image = slot(body, "image");
  image.alt = values.caption || `${values.purpose}, photograph`;
  showPicture(image, values.sha256, true);
  const { marks, markPx, face } = draft.before?.typed ?? { marks: (values.plane_marks ?? []).map((row) => row.map(told)), markPx: told(values.mark_px) };
  offerFaces(state, face);
  slot(body, "mark-px").value = markPx ?? "";
  for (const row of marks) addMark(state, row);
  hearTouches(state.svg, {
    touched: (point) => touched(state, point),
    chosen: (at) => inputOf(slot(body, "marks").children[at], "x").focus(),
    moved: (at, point) => moved(state, at, point),
    ended: () => changed(state),
  });
  slot(body, "form").addEventListener("input", () => changed(state));
  slot(body, "form").addEventListener("submit", (event) => event.preventDefault());
  wire(body, {
    marking: () => turn(state, true),
    measuring: () => turn(state, false),
    remove: (_, pressed) => { pressed.closest("fieldset").remove(); changed(state); },
    ask: () => askByFigures(state),
    corner: () => { state.corners.push(state.point); show(state); },
  });
  turn(state, state.marking);
  return {
    title,
    trail: trailOf(context, item),
    body,
    writing: true,
    actions: [{ words: "Back", act: () => history.back() }, { words: "Save the marks", main: true, act: once(() => save(state)) }],
    leave: () => state.touched && keep(state),
  };
}

/** None is chosen where the photograph does not say which face it shows: whoever marks it knows. */
function offerFaces({ context: { registry, notebook }, item, body }, before) {
  const faces = notebook.site.all("face").map((face) => new Option(titleOf(registry, face), face.id));
  slot(body, "face").append(new Option("–", ""), ...faces);
  slot(body, "face").value = before ?? faceOf(notebook.site, item)?.id ?? "";
}

/** Whether a touch marks a known point, or asks where something is. */
function turn(state, marking) {
  state.marking = marking;
  slot(state.body, "marking").setAttribute("aria-pressed", String(marking));
  slot(state.body, "measuring").setAttribute("aria-pressed", String(!marking));
  show(state);
}

function touched(state, point) {
  if (!state.marking) return ask(state, point);
  inputOf(addMark(state, point.map(numberTo)), "x").focus();
  return changed(state);
}

function moved(state, at, point) {
  ["across", "down"].forEach((name, k) => (inputOf(slot(state.body, "marks").children[at], name).value = numberTo(point[k])));
  show(state);
}

function addMark({ body }, row) {
  const mark = filled("plane-mark", {});
  COLUMNS.forEach((name, at) => (inputOf(mark, name).value = row[at] ?? ""));
  addSignToggles(mark, (name) => name === "x" || name === "z");
  slot(body, "marks").append(mark);
  return mark;
}

const marksOf = ({ body }) => [...slot(body, "marks").children].map((mark) => COLUMNS.map((name) => inputOf(mark, name).value.trim()));

/** @returns {HTMLInputElement} */
const inputOf = (mark, name) => mark.querySelector(`[name=${name}]`);

/**
 * The marks as figures; an empty one is null, words stay words, to be refused.
 * @returns {any[][]}
 */
const figuresOf = (state) => marksOf(state).map((row) => row.map((text, at) => (text ? numberIn(text, at < 2 ? "px" : "mm") : null)));

function changed(state) {
  state.touched = true;
  show(state);
  return keep(state);
}

function keep(state) {
  const { body } = state;
  return state.draft.keep({ marks: marksOf(state), markPx: slot(body, "mark-px").value, face: slot(body, "face").value });
}

function ask(state, point) {
  state.point = point;
  show(state);
}

function askByFigures(state) {
  const point = COLUMNS.slice(0, 2).map((name) => figureIn(slot(state.body, `ask-${name}`), "px"));
  return point.every(Number.isFinite) ? ask(state, point) : state.context.say("Give both across and down, in px.");
}

function show(state) {
  const { context, body, svg, size } = state;
  const marks = figuresOf(state);
  const ready = marks.filter((row) => row.slice(0, 4).every((part) => part !== null));
  const { plane, refusal } = planeTyped(context.registry, ready, markPxOf(state));
  const missed = plane ? missedBy(plane) : [];
  [...slot(body, "marks").children].forEach((mark, at) => {
    const place = ready.indexOf(marks[at]);
    fill(mark, { number: `Mark ${at + 1}`, missed: place < 0 ? "its place on the face is still needed" : missed[place] ?? "" });
  });
  fill(body, { said: plane ? saidOf(plane) : `${refusal.reason} ${refusal.remedy}` });
  const found = plane && state.point ? asked(plane, state.point, size) : null;
  const words = found && "refusal" in found ? `${found.refusal.reason} ${found.refusal.remedy}` : found && "words" in found ? found.words : "";
  fill(body, { place: words || (state.marking ? "" : "Touch the photograph.") });
  offerPlaces(state, plane);
  const u = size.width / Math.max(320, svg.clientWidth);
  const face = context.notebook.items.get(slot(body, "face").value);
  const over = plane && face ? recordedOver(plane, recordedOn(context.registry, context.notebook.site, face), u) : [];
  const crosses = marks.flatMap(([across, down], at) => {
    if (typeof across !== "number" || typeof down !== "number") return [];
    return [cross([across, down], String(at + 1), u), ...(state.marking ? [grip([across, down], at, u)] : [])];
  });
  svg.replaceChildren(...over, ...crosses, ...(state.point ? [cross(state.point, "", u, "asked")] : []));
}

/** What may be entered at the place that was touched, and of the corners, as the marks have them now. */
function offerPlaces({ context: { notebook }, item, body, point, corners: points }, plane) {
  const how = (within) => `from photograph ${item.values.sha256.slice(0, 8)}, within ${within} mm in 95 cases of 100`;
  const face = slot(body, "face").value;
  const [at, ...corners] = [point, ...points].map((one) => wholePlace(plane, one));
  const last = face ? notebook.site.fixingsOn(notebook.items.get(face)).at(-1) : null;
  slot(body, "at-place").hidden = !at;
  for (const name of ["fixing", "may-i"]) slot(body, name).hidden = !face;
  slot(body, "no-face").hidden = Boolean(face) || !(at || points.length);
  if (at) {
    const place = `x_mm=${at.place[0]}&z_mm=${at.place[1]}`;
    const noted = `note=${encodeURIComponent(`Place ${how(at.within)}.`)}`;
    slot(body, "fixing").href = `#/new/fixing?face=${face}&${place}&${noted}${last ? `&like=${last.id}` : ""}`;
    slot(body, "may-i").href = `#/here/${face}?${place}`;
  }
  const whole = face && corners.length >= 3 && corners.every(Boolean);
  slot(body, "zone").hidden = !whole;
  slot(body, "corners").textContent = corners.length ? `${corners.length} kept` : "";
  if (!whole) return;
  const within = Math.max(...corners.map((corner) => corner.within));
  const outline = corners.map((corner) => corner.place.join(" ")).join("\n");
  slot(body, "zone").href = `#/new/zone?${new URLSearchParams({ face, outline, margin_mm: String(within), evidence: `Corners ${how(within)}; the margin allows for it.` })}`;
}

function markPxOf({ body }) {
  const text = slot(body, "mark-px").value.trim();
  return text ? /** @type {number} */ (numberIn(text, "px")) : null;
}

/** Gives whether it was saved. Marks that are not whole are refused as in any form. */
async function save(state) {
  const { context, item, body, draft } = state;
  const set = { plane_face: slot(body, "face").value || null, plane_marks: figuresOf(state), mark_px: markPxOf(state) };
  const judged = context.notebook.judge({ kind: "photograph", id: item.id, before: item.values, values: set });
  if (judged.findings.length) {
    showErrors(body, slot(body, "form"), judged.findings);
    return false;
  }
  const changed = changedOf(judged.values, item.values);
  const any = Object.keys(changed).length > 0;
  if (!any) await draft.drop();
  else if (!(await wrote(context, draft, [{ kind: "photograph", item: item.id, set: changed }]))) return false;
  context.say(any ? "Marks saved on this phone." : "Nothing was changed.");
  await context.refresh();
  return true;
}

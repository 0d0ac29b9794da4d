/** A colour from a photograph, at the wall: a card and the finish beside it are marked, and what comes of them is told at once. */

import { Refusal } from "../../checks/refusal.js";
import { cardBefore, inWords, measuredAgain, readCard } from "../book/card_in_picture.js";
import { faded } from "../book/fading.js";
import { uuid7 } from "../book/identity.js";
import { titleOf } from "../book/site.js";
import { numberFrom, numberTo } from "../book/typed.js";
import { grip, hearTouches, overPicture, squareOver } from "../drawing/over_picture.js";
import { draftOf } from "../forms/draft.js";
import { addSignToggles, showErrors } from "../forms/inputs.js";
import { changedOf, once, wrote } from "../forms/saving.js";
import { pixelsOf } from "../pixels.js";
import { fill, filled, slot, wire } from "./markup.js";
import { showPicture, trailOf } from "./parts.js";

const PLACE = ["across", "down", "reach"];
const COLUMNS = [...PLACE, "l", "a", "b"];
const OF_WIDTH = 80; // a square reaches this part of the picture's width to each side, where nothing was said before

export async function colourPage(context, id) {
  const { registry, notebook } = context;
  const item = notebook.items.get(id);
  if (item?.kind !== "photograph" || !notebook.site) return null;
  const { values } = item;
  const title = `A colour from ${titleOf(registry, item)}`;
  const draft = await draftOf(notebook, { key: `colour ${id}`, route: location.hash, title });
  const size = { width: values.width_px ?? 1600, height: values.height_px ?? 1200 };
  const body = filled("colour-page", { title });
  const svg = overPicture(size.width, size.height, "The photograph: touch the card’s patches and the finish");
  const pixels = await pixelsOf(values.sha256, true);
  const state = { context, item, body, draft, size, svg, pixels, onCard: !values.card_patches?.length, before: cardBefore(notebook.site, item), touched: false };
  offerFinishes(state);
  slot(body, "picture").append(svg);
  const image = slot(body, "image");
  image.alt = values.caption || `${values.purpose}, photograph`;
  showPicture(image, values.sha256, true);
  const typed = draft.before?.typed ?? { patches: (values.card_patches ?? []).map((row) => row.map(told)), spot: ["", "", ""], finish: null };
  for (const row of typed.patches) addPatch(state, row);
  PLACE.forEach((name, at) => (inputOf(slot(body, "spot"), name).value = typed.spot[at]));
  if (typed.finish) slot(body, "finish").value = typed.finish;
  hearTouches(svg, {
    touched: (point) => touched(state, point),
    chosen: (at) => inputOf(partsOf(state)[at], at ? "l" : "reach").focus(),
    moved: (at, point) => put(state, partsOf(state)[at], point),
    ended: () => changed(state),
  });
  slot(body, "form").addEventListener("input", () => changed(state));
  slot(body, "form").addEventListener("submit", (event) => event.preventDefault());
  wire(body, {
    card: () => turn(state, true),
    spot: () => turn(state, false),
    remove: (_, pressed) => { pressed.closest("fieldset").remove(); changed(state); },
  });
  turn(state, state.onCard);
  return {
    title,
    trail: trailOf(context, item),
    body,
    writing: true,
    actions: [{ words: "Back", act: () => history.back() }, { words: "Enter the colour", main: true, act: once(() => save(state)) }],
    leave: () => state.touched && keep(state),
  };
}

const told = (figure) => (typeof figure === "number" ? numberTo(figure) : "");

/** @returns {HTMLInputElement} */
const inputOf = (part, name) => part.querySelector(`[name=${name}]`);

/** What can be moved on the picture: the finish, then the card's patches. @returns {HTMLElement[]} */
const partsOf = ({ body }) => [slot(body, "spot"), ...slot(body, "patches").children];

const typedOf = (part, names) => names.map((name) => inputOf(part, name).value.trim());
const meantBy = (texts) => texts.map((text) => (text ? numberFrom(text) : null));

/** None is chosen where there are several and the photograph is of none of them. */
function offerFinishes({ context: { registry, notebook }, item, body }) {
  const finishes = notebook.site.all("finish");
  const own = finishes.length === 1 ? finishes[0] : finishes.find(({ id }) => id === item.values.subject);
  slot(body, "finish").append(...(own ? [] : [new Option("–", "")]), ...finishes.map((finish) => new Option(titleOf(registry, finish), finish.id)));
  slot(body, "finish").value = own?.id ?? "";
  slot(body, "no-finish").hidden = Boolean(finishes.length);
}

/** Whether a touch adds a patch of the card, or sets where the finish is. */
function turn(state, onCard) {
  state.onCard = onCard;
  slot(state.body, "card").setAttribute("aria-pressed", String(onCard));
  slot(state.body, "on-finish").setAttribute("aria-pressed", String(!onCard));
  show(state);
}

function touched(state, point) {
  if (!state.onCard) {
    put(state, slot(state.body, "spot"), point);
    return changed(state);
  }
  const { children } = slot(state.body, "patches");
  const reach = children.length ? inputOf(children[children.length - 1], "reach").value : usualReach(state);
  const known = state.before[children.length] ?? [];
  const patch = addPatch(state, [...point.map(numberTo), reach, ...known.map(told)]);
  if (!known.length) inputOf(patch, "l").focus();
  return changed(state);
}

const usualReach = ({ size }) => numberTo(Math.round(size.width / OF_WIDTH));

function put(state, part, point) {
  point.forEach((figure, at) => (inputOf(part, PLACE[at]).value = numberTo(figure)));
  inputOf(part, "reach").value ||= usualReach(state);
  show(state);
}

function addPatch({ body }, row) {
  const patch = filled("card-patch", {});
  COLUMNS.forEach((name, at) => (inputOf(patch, name).value = row[at] ?? ""));
  addSignToggles(patch, (name) => name === "a" || name === "b");
  slot(body, "patches").append(patch);
  return patch;
}

function changed(state) {
  state.touched = true;
  show(state);
  return keep(state);
}

function keep({ draft, body }) {
  const [spot, ...patches] = partsOf({ body });
  return draft.keep({ patches: patches.map((part) => typedOf(part, COLUMNS)), spot: typedOf(spot, PLACE), finish: slot(body, "finish").value });
}

/** What the marks come to, or why they come to nothing; what a patch lacks stands beside it. */
function reckoned(state) {
  const [spot, ...parts] = partsOf(state);
  const rows = parts.map((part) => meantBy(typedOf(part, COLUMNS)));
  const card = state.context.registry.kinds.get("photograph").byName.get("card_patches");
  const answer = readCard(card, state.pixels, state.size.width, rows, meantBy(typedOf(spot, PLACE)));
  parts.forEach((part, at) => fill(part, { number: `Patch ${at + 1}`, lacks: answer.lacks[at] }));
  return { rows, ...answer };
}

function show(state) {
  const { body, svg, size, context } = state;
  const { rows, found, refusal } = reckoned(state);
  const finish = context.notebook.items.get(slot(body, "finish").value);
  fill(body, {
    said: found ? inWords(found, rows.length) : refusal.message,
    against: found && finish ? `Against its card: ${faded(finish.values, measuredAgain(state.item.values, finish.id, found, rows.length))}` : "",
  });
  const u = size.width / Math.max(320, svg.clientWidth);
  const places = partsOf(state).map((part) => meantBy(typedOf(part, PLACE)));
  svg.replaceChildren(...places.flatMap((place, at) => squareOver(place, at ? String(at) : "", u)), ...places.flatMap(([across, down], at) => (typeof across === "number" && typeof down === "number" ? [grip([across, down], at, u)] : [])));
}

/** Gives whether it was saved. The card goes with its photograph, the colour with its finish. */
async function save(state) {
  const { context, item, body, draft } = state;
  const { notebook } = context;
  const finish = notebook.items.get(slot(body, "finish").value);
  const { rows, found, refusal } = reckoned(state);
  const stop = finish ? refusal : new Refusal("missing", "No finish is chosen.", "Choose the one that was photographed.", { field: "finish" });
  if (stop) return refused(state, [stop]);
  const card = notebook.judge({ kind: "photograph", id: item.id, before: item.values, values: { card_patches: rows } });
  const id = uuid7();
  const values = Object.fromEntries(Object.entries(measuredAgain(item.values, finish.id, found, rows.length)).filter(([, value]) => value !== null));
  const colour = notebook.judge({ kind: "colour", id, values });
  const findings = [...card.findings, ...colour.findings];
  if (findings.length) return refused(state, findings);
  const set = changedOf(card.values, item.values);
  const changes = [...(Object.keys(set).length ? [{ kind: "photograph", item: item.id, set }] : []), { kind: "colour", item: id, set: colour.values }];
  if (!(await wrote(context, draft, changes))) return false;
  context.say("Colour saved on this phone.");
  await context.go(`#/item/${id}`, { replace: true });
  return true;
}

function refused({ body }, findings) {
  showErrors(body, slot(body, "form"), findings);
  return false;
}

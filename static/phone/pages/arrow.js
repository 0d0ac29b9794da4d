/** An arrow and words on a copy of a photograph: a photograph of its own; the first one stays as it was taken. */

import { Refusal } from "../../checks/refusal.js";
import { uuid7 } from "../book/identity.js";
import { titleOf } from "../book/site.js";
import { fieldsOf, readPhotograph } from "../camera.js";
import { showErrors } from "../forms/inputs.js";
import { draftOf } from "../forms/draft.js";
import { once, thrownAway, wrote } from "../forms/saving.js";
import { copyOf, originalOf } from "../store/photographs.js";
import { sayDraftKept } from "./form.js";
import { fill, filled, slot, wire } from "./markup.js";
import { nothing, trailOf } from "./parts.js";

const LONGEST_PX = 2_000;
const TAKEN_OVER = ["site", "subject", "purpose", "taken_at", "taken_by"];

export async function arrowPage(context, id) {
  const { notebook } = context;
  const item = notebook.items.get(id);
  if (item?.kind !== "photograph") return null;
  const bytes = (await originalOf(item.values.sha256)) ?? (await copyOf(item.values.sha256));
  const body = filled("arrow-page", {});
  const subject = notebook.items.get(item.values.subject);
  const view = { title: "An arrow on it", trail: subject ? trailOf(context, subject) : [], body, writing: true };
  if (!bytes) {
    fill(body, { holder: nothing("This photograph is not on this phone yet.") });
    return { ...view, actions: [{ words: "Back", act: () => history.back() }] };
  }
  const draft = await draftOf(notebook, { key: `arrow ${id}`, route: location.hash, title: view.title });
  const state = { context, item, body, draft, touched: false, arrow: draft.before?.typed.arrow ?? null, picture: await createImageBitmap(new Blob([bytes])), canvas: document.createElement("canvas") };
  const share = Math.min(1, LONGEST_PX / Math.max(state.picture.width, state.picture.height));
  Object.assign(state.canvas, { width: Math.round(state.picture.width * share), height: Math.round(state.picture.height * share) });
  state.canvas.setAttribute("role", "img");
  state.canvas.setAttribute("aria-label", "The photograph: draw from where the words go to what they are about");
  fill(body, { holder: state.canvas });
  slot(body, "words").value = draft.before?.typed.words ?? "";
  if (draft.before) sayDraftKept(body, draft.before.at);
  draw(state);
  follow(state);
  slot(body, "words").addEventListener("input", () => touch(state));
  const wipe = () => {
    state.arrow = null;
    touch(state);
  };
  wire(body, { wipe, discard: () => thrownAway(context, draft, state.touched || draft.before) });
  const leave = () => state.touched && keep(state);
  return { ...view, leave, actions: [{ words: "Back", act: () => history.back() }, { words: "Save", main: true, act: once(() => save(state)) }] };
}

function touch(state) {
  state.touched = true;
  draw(state);
  return keep(state);
}

function keep({ body, arrow, draft }) {
  return draft.keep({ words: slot(body, "words").value, arrow });
}

/** The arrow goes from where the finger touches to where it leaves. */
function follow(state) {
  const { canvas } = state;
  const at = ({ clientX, clientY }) => {
    const box = canvas.getBoundingClientRect();
    return [((clientX - box.left) * canvas.width) / box.width, ((clientY - box.top) * canvas.height) / box.height];
  };
  let from = null;
  canvas.addEventListener("pointerdown", (event) => {
    from = at(event);
    canvas.setPointerCapture(event.pointerId);
    event.preventDefault();
  });
  canvas.addEventListener("pointermove", (event) => {
    if (!from) return;
    state.arrow = [from, at(event)];
    draw(state);
  });
  for (const end of ["pointerup", "pointercancel"]) canvas.addEventListener(end, () => {
    if (from) touch(state);
    from = null;
  });
}

function draw({ canvas, picture, arrow, body }) {
  const paper = canvas.getContext("2d");
  paper.drawImage(picture, 0, 0, canvas.width, canvas.height);
  if (!arrow) return;
  const [[x0, y0], [x1, y1]] = arrow;
  const unit = Math.max(canvas.width, canvas.height) / 100;
  const angle = Math.atan2(y1 - y0, x1 - x0);
  const barb = (turn) => [x1 - 4 * unit * Math.cos(angle + turn), y1 - 4 * unit * Math.sin(angle + turn)];
  Object.assign(paper, { lineCap: "round", lineJoin: "round", font: `600 ${3.5 * unit}px Inter, sans-serif`, textBaseline: "middle" });
  const words = slot(body, "words").value;
  const wide = paper.measureText(words).width;
  const left = Math.max(unit, Math.min(canvas.width - wide - unit, x1 > x0 ? x0 - wide - unit : x0 + unit));
  for (const [colour, width] of [["#fff", 1.6 * unit], ["#b3261e", 0.7 * unit]]) {
    Object.assign(paper, { strokeStyle: colour, lineWidth: width });
    paper.beginPath();
    for (const [from, to] of [[[x0, y0], [x1, y1]], [barb(0.5), [x1, y1]], [[x1, y1], barb(-0.5)]]) {
      paper.moveTo(from[0], from[1]);
      paper.lineTo(to[0], to[1]);
    }
    paper.stroke();
  }
  Object.assign(paper, { strokeStyle: "#fff", lineWidth: unit, fillStyle: "#b3261e" });
  paper.strokeText(words, left, y0);
  paper.fillText(words, left, y0);
}

async function save({ context, item, body, draft, arrow, canvas }) {
  const { notebook, registry } = context;
  const words = slot(body, "words").value.trim();
  const lacks = [
    arrow ? null : new Refusal("missing", "There is no arrow yet.", "Draw one with a finger.", { field: "arrow" }),
    words ? null : new Refusal("missing", "There are no words yet.", "Say what the arrow shows.", { field: "arrow-words" }),
  ].filter(Boolean);
  if (lacks.length) return refuse(body, lacks);
  try {
    const drawn = await new Promise((keep) => canvas.toBlob(keep, "image/jpeg", 0.9));
    const picture = await readPhotograph(new File([drawn], "arrow.jpg", { type: "image/jpeg" }));
    const over = Object.fromEntries(TAKEN_OVER.map((name) => [name, item.values[name] ?? null]).filter(([, value]) => value !== null));
    const id = uuid7();
    const judged = notebook.judge({ kind: "photograph", id, values: { ...over, caption: `${words} (arrow drawn on a copy)`, ...fieldsOf(picture) } });
    if (judged.findings.length) return refuse(body, judged.findings);
    const entered = [{ kind: "photograph", item: id, set: judged.values }];
    if (!(await wrote(context, draft, entered, { picture: { ...picture, state: "waiting" } }))) return false;
    context.say(`Saved on this phone, beside ${titleOf(registry, item)}.`);
    await context.go(`#/picture/${id}`, { replace: true });
    return true;
  } catch (error) {
    context.fail(error);
    return false;
  }
}

function refuse(body, findings) {
  showErrors(body, slot(body, "form"), findings);
  return false;
}

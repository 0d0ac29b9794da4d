/** A photograph: taken with the camera, kept at once, and entered about something. */

import { Refusal } from "../../checks/refusal.js";
import { uuid7 } from "../book/identity.js";
import { momentInWords, sizeOf } from "../book/wording.js";
import { titleOf } from "../book/site.js";
import { REDUCED_PX, TOO_LARGE, fieldsOf, readPhotograph } from "../camera.js";
import { draftOf } from "../forms/draft.js";
import { addNowButtons, addSignToggles, asTyped, showErrors, fieldsInForm, meant, show, typedIn } from "../forms/inputs.js";
import { offer } from "../forms/options.js";
import { now, presets } from "../forms/presets.js";
import { enteredAlready, once, thrownAway, wrote } from "../forms/saving.js";
import { dropUnused } from "../store/photographs.js";
import { fill, filled, made, slot, tell, wire } from "./markup.js";
import { showNumbered } from "./numbered.js";
import { pageOf, showPicture, titled, trailOf } from "./parts.js";
import { factsOf } from "./places.js";
import { purposeOf } from "./taking.js";
import { sayDraftKept } from "./form.js";

/** Taking a photograph of something. */
export async function photographPage(context, subjectId, query) {
  const { registry, notebook } = context;
  const subject = notebook.items.get(subjectId);
  if (!subject) return null;
  const kind = registry.kinds.get("photograph");
  const title = `Photograph of ${titleOf(registry, subject)}`;
  const draft = await draftOf(notebook, { key: `photograph ${subjectId}`, route: location.hash, title, item: uuid7() });
  if (notebook.items.has(draft.row.item)) draft.row.item = uuid7(); // that one was saved
  const fields = fieldsInForm(kind);
  query.set("subject", subjectId);
  if (!query.has("purpose")) query.set("purpose", purposeOf(subject));
  const values = presets(context, kind, query);
  const body = filled("form-page", { title });
  const form = slot(body, "form");
  form.append(...made("form-photograph").childNodes);
  offer(form, fields, context, values);
  addSignToggles(form, (name) => (kind.byName.get(name)?.low ?? 0) < 0);
  addNowButtons(form, fields, now);
  const typed = draft.before?.typed ?? asTyped(fields, values);
  show(form, fields, typed);
  const camera = made("camera");
  slot(body, "before").append(camera);
  const longest = notebook.facts.longest_px;
  if (longest) tell(slot(camera, "said"), `It is kept with at most ${longest} px on its longer side, as is set for photographs.`);
  const state = { context, kind, body, form, fields, draft, camera, picture: typed.picture ?? null, former: typed.former ?? null, subject, touched: false };
  if (draft.before) sayDraftKept(body, draft.before.at);
  if (state.picture) showTaken(state);
  form.addEventListener("input", () => touch(state));
  form.addEventListener("submit", (event) => event.preventDefault());
  for (const input of camera.querySelectorAll("input")) {
    // The phone may put the app away while the camera is open: what was typed is kept before.
    input.addEventListener("click", () => keep(state));
    input.addEventListener("change", () => taken(state, input));
  }
  wire(body, { discard: () => discard(state), former: () => swap(state) });
  return {
    title,
    trail: trailOf(context, subject),
    body,
    writing: true,
    actions: [{ words: "Back", act: () => history.back() }, { words: "Save", main: true, act: once(() => save(state)) }],
    leave: () => state.touched && keep(state),
  };
}

function taken(state, input) {
  const [file] = input.files;
  input.value = "";
  return file && take(state, file, state.context.notebook.facts.longest_px ?? 0);
}

async function take(state, file, longestPx) {
  const said = slot(state.camera, "said");
  const reduce = slot(state.camera, "reduce");
  said.textContent = "Keeping the photograph…";
  reduce.hidden = true;
  try {
    const taken = await readPhotograph(file, longestPx);
    if (state.picture && state.picture.sha256 !== taken.sha256) {
      if (state.former) await dropUnused(state.former.sha256);
      state.former = state.picture;
    }
    state.picture = taken;
    await touch(state);
    showTaken(state);
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    tell(said, error.message);
    reduce.hidden = error.code !== TOO_LARGE;
    reduce.onclick = () => take(state, file, REDUCED_PX);
  }
}

/** Take the photograph from before the last one instead, or that one again. */
function swap(state) {
  [state.picture, state.former] = [state.former, state.picture];
  touch(state);
  showTaken(state);
}

function showTaken({ camera, picture, former }) {
  const image = slot(camera, "image");
  image.hidden = false;
  showPicture(image, picture.sha256);
  slot(camera, "words").textContent = "Take it again";
  slot(camera, "former").hidden = !former;
  slot(camera, "said").textContent = `${picture.width} × ${picture.height} px, ${sizeOf(picture.size)}, kept on this phone.`;
}

function touch(state) {
  state.touched = true;
  return keep(state);
}

function keep({ form, fields, draft, picture, former }) {
  return draft.keep({ ...typedIn(form, fields), picture, former });
}

async function discard({ context, draft, picture, former, touched }) {
  if (!(await thrownAway(context, draft, touched || draft.before))) return;
  for (const one of [picture, former]) if (one) await dropUnused(one.sha256);
}

/** Gives whether it was saved. */
async function save({ context, kind, body, form, fields, draft, picture, former, subject }) {
  const { notebook } = context;
  const read = meant(fields, typedIn(form, fields));
  if (!picture) {
    read.findings.unshift(new Refusal("missing", "There is no photograph yet.", "Take one.", { field: "photograph" }));
  }
  const id = draft.row.item;
  if (notebook.items.has(id)) return enteredAlready(context, draft, subject);
  const values = Object.fromEntries(Object.entries({ ...read.values, ...(picture ? fieldsOf(picture) : {}) }).filter(([, value]) => value !== null));
  const judged = read.findings.length ? read : notebook.judge({ kind: kind.name, id, values });
  if (judged.findings.length) {
    showErrors(body, form, judged.findings);
    return false;
  }
  const waits = ["draft", "refused"].includes(picture.state) ? { ...picture, state: "waiting", findings: undefined } : undefined;
  if (!(await wrote(context, draft, [{ kind: kind.name, item: id, set: judged.values }], { picture: waits }))) return false;
  if (former) await dropUnused(former.sha256);
  context.say("Photograph saved on this phone.");
  await context.go(pageOf(subject), { replace: true });
  return true;
}

/** One photograph, as large as it is here. */
export function picturePage(context, id) {
  const { registry, notebook } = context;
  const item = notebook.items.get(id);
  if (item?.kind !== "photograph") return null;
  const { values } = item;
  const known = notebook.pictures.find(({ sha256 }) => sha256 === values.sha256);
  const body = filled("picture-page", {
    title: titleOf(registry, item),
    state: stateOf(known),
    facts: factsOf(context, item),
    subject: `Of ${titled(context)(values.subject)}`,
  });
  const subject = notebook.items.get(values.subject);
  if (subject) slot(body, "subject").href = pageOf(subject);
  slot(body, "change").href = `#/change/${id}`;
  slot(body, "arrow").href = `#/arrow/${id}`;
  slot(body, "measure").href = `#/measure/${id}`;
  slot(body, "colour").href = `#/colour/${id}`;
  slot(body, "number").href = `#/new/pointer?photograph=${id}`;
  fill(body, { legend: showNumbered(context, item, slot(body, "holder")) });
  const image = slot(body, "image");
  image.alt = values.caption || `${values.purpose}, photograph`;
  showPicture(image, values.sha256, true);
  return { title: "Photograph", trail: subject ? trailOf(context, subject) : [], body, actions: [{ words: "Back", act: () => history.back() }] };
}

function stateOf(known) {
  if (!known) return "A smaller copy; the original is on the laptop.";
  if (known.state === "sent") return "On the laptop, and still on this phone.";
  if (known.state === "refused") return known.findings.map(({ reason, remedy }) => `${reason} ${remedy}`).join(" ");
  return `Not sent yet, on this phone since ${momentInWords(known.at)}: ${sizeOf(known.received)} of ${sizeOf(known.size)} are on the laptop.`;
}

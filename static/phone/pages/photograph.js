/** A photograph: taken with the camera, kept at once, and entered about something. */

import { Refusal } from "../../checks/refusal.js";
import { uuid7 } from "../book/identity.js";
import { momentInWords, sizeOf } from "../book/wording.js";
import { titleOf } from "../book/site.js";
import { fieldsOf, readPhotograph } from "../camera.js";
import { draftOf } from "../forms/draft.js";
import { addNowButtons, addSignToggles, asTyped, showErrors, fieldsInForm, meant, show, typedIn } from "../forms/inputs.js";
import { offer } from "../forms/options.js";
import { now, presets } from "../forms/presets.js";
import { dropUnused } from "../store/photographs.js";
import { filled, made, slot, wire } from "./markup.js";
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
  const draft = await draftOf({ key: `photograph ${subjectId}`, route: location.hash, title });
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
  const state = { context, kind, body, form, fields, draft, camera, picture: typed.picture ?? null, subject };
  if (draft.before) sayDraftKept(body, draft.before.at);
  if (state.picture) showTaken(state);
  form.addEventListener("input", () => touch(state));
  form.addEventListener("submit", (event) => event.preventDefault());
  for (const input of camera.querySelectorAll("input")) {
    // The phone may put the app away while the camera is open: what was typed is kept before.
    input.addEventListener("click", () => keep(state));
    input.addEventListener("change", () => taken(state, input));
  }
  wire(body, { discard: () => discard(state) });
  return {
    title,
    trail: trailOf(context, subject),
    body,
    writing: true,
    actions: [{ words: "Back", act: () => history.back() }, { words: "Save", main: true, act: () => save(state) }],
    leave: () => state.touched && keep(state),
  };
}

async function taken(state, input) {
  const [file] = input.files;
  input.value = "";
  if (!file) return;
  const said = slot(state.camera, "said");
  said.textContent = "Keeping the photograph…";
  try {
    const before = state.picture;
    state.picture = await readPhotograph(file, state.context.notebook.facts.longest_px ?? 0);
    await touch(state);
    if (before && before.sha256 !== state.picture.sha256) await dropUnused(before.sha256);
    showTaken(state);
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    said.textContent = error.message;
  }
}

function showTaken({ camera, picture }) {
  const image = slot(camera, "image");
  image.hidden = false;
  showPicture(image, picture.sha256);
  slot(camera, "words").textContent = "Take it again";
  slot(camera, "said").textContent = `${picture.width} × ${picture.height} px, ${sizeOf(picture.size)}, kept on this phone.`;
}

function touch(state) {
  state.touched = true;
  return keep(state);
}

function keep({ form, fields, draft, picture }) {
  return draft.keep({ ...typedIn(form, fields), picture });
}

async function discard({ context, draft, picture }) {
  await draft.drop();
  if (picture) await dropUnused(picture.sha256);
  context.say("Thrown away.");
  history.back();
}

async function save({ context, kind, body, form, fields, draft, picture, subject }) {
  const { notebook } = context;
  const read = meant(fields, typedIn(form, fields));
  if (!picture) {
    read.findings.unshift(new Refusal("missing", "There is no photograph yet.", "Take one.", { field: "photograph" }));
  }
  const id = uuid7();
  const values = Object.fromEntries(Object.entries({ ...read.values, ...(picture ? fieldsOf(picture) : {}) }).filter(([, value]) => value !== null));
  const judged = read.findings.length ? read : notebook.judge({ kind: kind.name, id, values });
  if (judged.findings.length) return showErrors(body, form, judged.findings);
  await draft.end();
  try {
    const waits = ["draft", "refused"].includes(picture.state) ? { ...picture, state: "waiting", findings: undefined } : undefined;
    await notebook.write([{ kind: kind.name, item: id, set: judged.values }], { draft: draft.key, picture: waits });
  } catch (error) {
    draft.resume();
    return context.fail(error);
  }
  context.say("Photograph saved on this phone.");
  context.runner.nudge();
  return context.go(pageOf(subject), { replace: true });
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
  const image = slot(body, "image");
  image.alt = values.caption || `${values.purpose}, photograph`;
  showPicture(image, values.sha256, true);
  return { title: "Photograph", trail: subject ? trailOf(context, subject) : [], body, actions: [{ words: "Back", act: () => history.back() }] };
}

function stateOf(known) {
  if (!known) return "A smaller copy; the original is on the laptop.";
  if (known.state === "sent") return "On the laptop, and still on this phone.";
  if (known.state === "refused") return known.findings.map(({ reason, remedy }) => `${reason} ${remedy}`).join(" ");
  return `Waits on this phone since ${momentInWords(known.at)}: ${sizeOf(known.received)} of ${sizeOf(known.size)} are on the laptop.`;
}

/** Something happened: what, to which fitting, what to do now and whom to call; a sentence, and it is entered. */

import { upInOrder } from "../book/due.js";
import { titleOf } from "../book/site.js";
import { whatToDo } from "../book/happened.js";
import { now } from "../forms/presets.js";
import { entered } from "../forms/entering.js";
import { keepTyped } from "../forms/keeping.js";
import { once } from "../forms/saving.js";
import { fill, filled, lineOfList, link, slot, wire } from "./markup.js";
import { shutter } from "./taking.js";

/**
 * @param {import("../book/registry.js").Context} context
 * @param {URLSearchParams} query  what happened and to what, as far as it is known
 */
export function happenedPage(context, query) {
  const { registry, notebook } = context;
  const { site } = notebook;
  if (!site) return null;
  const [what, about] = [query.get("what"), site.get(query.get("about"))];
  const body = filled("happened-page", { heading: !what ? "What happened?" : !about ? "To what?" : titleOf(registry, about) });
  const { choices } = registry.kinds.get("observation").byName.get("happened");
  if (!what) return ask(body, choices.map((word) => link(word, `#/happened?${new URLSearchParams({ what: word, about: query.get("about") ?? "" })}`, "button")));
  const addressOf = ({ id }) => `#/happened?${new URLSearchParams({ what, about: id })}`;
  if (!about) return ask(body, [...upInOrder(site), ...site.all("room")].map((one) => link(titleOf(registry, one), addressOf(one), "button")));
  return tell(context, body, what, about);
}

const capital = (words) => `${words[0].toUpperCase()}${words.slice(1)}`;

function ask(body, choices) {
  fill(body, { choices, advice: null });
  return { title: "Something happened", body, actions: [{ words: "Back", act: () => history.back() }] };
}

async function tell(context, body, what, about) {
  const { registry, notebook } = context;
  const fitting = about.kind === "fitting" ? about : null;
  const { act, words, call, urgency } = whatToDo(notebook.site, fitting, what);
  const advice = filled("happened-advice", { act: `${capital(what)}: ${act}`, words: words.map(lineOfList), call: call ? `Call: ${call}` : "Whom to call is not entered: the keeper of the building." });
  fill(body, { choices: [], advice });
  const steps = slot(advice, "steps");
  if (fitting) steps.replaceChildren(link("How it comes off", `#/off/${fitting.id}`));
  else steps.remove();
  const chosen = { atOnce: null };
  const buttons = registry.kinds.get("observation").byName.get("at_once").choices.map((word) => {
    const button = filled("answer-button", { word });
    button.dataset.value = word;
    return button;
  });
  fill(advice, { "at-once": buttons });
  const kept = await keepTyped(context, advice, { key: `happened ${what} ${about.id}`, title: `${capital(what)}: ${titleOf(registry, about)}` }, chosen);
  const showChosen = () => buttons.forEach((button) => button.setAttribute("aria-pressed", String(button.dataset.value === chosen.atOnce)));
  showChosen();
  const save = once(async () => {
    const sentence = slot(advice, "sentence").value;
    const place = fitting ? { fitting: fitting.id, face: fitting.values.face, room: notebook.site.get(fitting.values.face).values.room } : { room: about.id };
    const values = { ...place, what: `${capital(what)}: ${titleOf(registry, about)}`, at: now(), urgency_class: urgency, words: sentence, seen_by: notebook.facts.inspected_by ?? notebook.facts.fitted_by, occasion: "something happened", happened: what, at_once: chosen.atOnce };
    const ids = await entered(context, [{ kind: "observation", values }], "Entered, and kept on this phone. Now call.", kept);
    if (!ids) return false;
    await context.go(`#/item/${ids[0]}`, { replace: true });
    return true;
  });
  wire(advice, {
    answer: (_, pressed) => {
      chosen.atOnce = pressed.dataset.value;
      showChosen();
      kept.keep();
    },
  });
  return { title: "Something happened", body, writing: true, actions: [{ words: "Back", act: () => history.back() }, shutter(context, body, about), { words: "Save", main: true, act: save }] };
}

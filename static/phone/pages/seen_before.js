/** What was seen before, with its classes, in the words of a button: touched, it says the same of what is seen now. */

import { asTyped, show, typedIn } from "../forms/inputs.js";
import { filled, wire } from "./markup.js";

const SAID = { what: "", condition_class: "condition", urgency_class: "urgency", recommendation_class: "recommendation" };
const MOST = 4;

/**
 * Put buttons before the form of an observation; each fills in what it says, and nothing else.
 * @param {any} state  of a new form
 * @param {HTMLElement} before  where they go
 */
export function addSeenBefore({ context, form, fields }, before) {
  const own = fields.filter(({ name }) => name in SAID);
  const latestFirst = [...context.notebook.site.all("observation")].sort((one, other) => (one.id < other.id ? 1 : -1));
  const byWords = new Map();
  // What an inspection or an accident was entered with is about one thing alone.
  for (const { values } of latestFirst) if (values.what && !values.occasion && !byWords.has(wordsOf(values))) byWords.set(wordsOf(values), asTyped(own, values));
  const offered = [...byWords].slice(0, MOST);
  if (!offered.length) return;
  const buttons = offered.map(([word], at) => {
    const button = filled("answer-button", { word });
    button.dataset.at = String(at);
    return button;
  });
  const part = filled("seen-before", { seen: buttons });
  const look = () => {
    const now = JSON.stringify(typedIn(form, own));
    buttons.forEach((button, at) => button.setAttribute("aria-pressed", String(JSON.stringify(offered[at][1]) === now)));
  };
  wire(part, {
    answer(_, pressed) {
      show(form, own, offered[Number(pressed.dataset.at)][1]);
      form.dispatchEvent(new Event("input", { bubbles: true }));
    },
  });
  form.addEventListener("input", look);
  look();
  before.append(part);
}

/** All that the button fills in: "Plaster hollow: condition 1, urgency 1". */
function wordsOf(values) {
  const classes = Object.entries(SAID).filter(([name, word]) => word && (values[name] ?? null) !== null).map(([name, word]) => `${word} ${values[name]}`);
  return [values.what, classes.join(", ")].filter(Boolean).join(": ");
}

/** Markup is made by the server, in templates; here they are copied and filled with text, never with more markup. */

import { keptTogether } from "../book/wording.js";

/**
 * A copy of the first element of a template.
 * @param {string} name  the template's id
 * @returns {HTMLElement}
 */
export function made(name) {
  const template = /** @type {HTMLTemplateElement|null} */ (document.querySelector(`template[id="${CSS.escape(name)}"]`)); // a field may bear the same id
  if (!template) throw new Error(`There is no template “${name}”.`);
  return /** @type {HTMLElement} */ (document.importNode(template.content.firstElementChild, true));
}

/** The element of a piece of markup that carries a name. */
export function slot(root, name) {
  const found = root.matches(`[data-slot="${name}"]`) ? root : root.querySelector(`[data-slot="${name}"]`);
  if (!found) throw new Error(`There is no “${name}” in this markup.`);
  return found;
}

/**
 * Fill slots: text or elements go in; null takes the slot away.
 * @param {HTMLElement} root
 * @param {Record<string, string|number|Node|Node[]|null>} values
 * @returns {HTMLElement} the root
 */
export function fill(root, values) {
  for (const [name, value] of Object.entries(values)) {
    const place = slot(root, name);
    if (value === null || value === undefined) place.remove();
    else if (Array.isArray(value)) place.replaceChildren(...value);
    else if (typeof value === "string") tell(place, value);
    else place.replaceChildren(/** @type {any} */ (value));
  }
  return root;
}

/** Put words into a place of the screen: where they break into lines no figure is parted from its unit. */
export function tell(/** @type {Element} */ place, /** @type {string} */ words) {
  place.textContent = keptTogether(words);
}

/** Words beside other things in one place. */
export function text(/** @type {string} */ words) {
  return document.createTextNode(keptTogether(words));
}

/** A line of a list. */
export function lineOfList(/** @type {string} */ words) {
  const line = document.createElement("li");
  tell(line, words);
  return line;
}

/** A copy of a template, filled. */
export function filled(name, values) {
  return fill(made(name), values);
}

/** A link to a page of the app. */
export function link(words, href, className = "") {
  const a = document.createElement("a");
  a.href = href;
  if (className) a.className = className;
  a.append(typeof words === "string" ? keptTogether(words) : words);
  return a;
}

/** Call `act` with the event when something named in `data-do` is pressed; a second press does nothing while the first is at work. */
export function wire(root, acts) {
  const atWork = new Set();
  root.addEventListener("click", (event) => {
    const pressed = event.target.closest("[data-do]");
    const name = root.contains(pressed) ? pressed.dataset.do : "";
    if (!acts[name] || atWork.has(name)) return;
    const work = acts[name](event, pressed);
    if (!(work instanceof Promise)) return;
    atWork.add(name);
    work.finally(() => atWork.delete(name));
  });
  return root;
}

/** Pieces of text as one row of elements, those that are empty left out. */
export function rows(template, pairs) {
  return pairs.filter(([, value]) => value).map(([name, value]) => filled(template, { name, value }));
}

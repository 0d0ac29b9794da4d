/** What differs from one photograph to the next, asked beside each that is chosen; an empty line says what the form says. */

import { partTogether } from "../phone/forms/written_together.js";

/** @type {HTMLInputElement} */
const files = document.querySelector("#files");
/** @type {HTMLOListElement} */
const list = document.querySelector(".each");
const names = list.dataset.own.split(" ");
// What was typed before, by the name of the file: for one, and for another of this name from another folder.
/** @type {Map<string, Record<string, string>[]>} */
const said = new Map(Object.entries(JSON.parse(list.dataset.said)));

partTogether(files.form);
files.addEventListener("change", () => {
  keepWhatIsTyped();
  const chosen = [...files.files];
  const before = (name, at) => chosen.slice(0, at).filter((file) => file.name === name).length;
  list.replaceChildren(...chosen.map((file, at) => lineOf(file, said.get(file.name)?.[before(file.name, at)])));
  list.hidden = !list.children.length;
});

/** A small picture, its file's name, and the inputs of one photograph. */
function lineOf(file, typed) {
  const line = document.createElement("li");
  const picture = Object.assign(document.createElement("img"), { alt: "", src: URL.createObjectURL(file) });
  picture.addEventListener("load", () => URL.revokeObjectURL(picture.src));
  const name = Object.assign(document.createElement("b"), { textContent: file.name, dir: "auto" });
  line.append(picture, name, ...names.map((own) => inputOf(own, typed?.[own])));
  line.dataset.file = file.name;
  return line;
}

/** An input as the form below has it, with what was typed into it before. */
function inputOf(own, typed = "") {
  const below = /** @type {HTMLInputElement|HTMLSelectElement} */ (document.getElementById(own));
  const input = /** @type {typeof below} */ (below.cloneNode(true));
  for (const tied of ["id", "aria-required", "aria-describedby", "aria-invalid"]) input.removeAttribute(tied);
  input.name = `each-${own}`;
  if (input instanceof HTMLSelectElement) {
    if (input.options[0]?.value) input.prepend(document.createElement("option"));
    input.options[0].textContent = "as below";
  }
  input.value = typed;
  const label = document.createElement("label");
  const [words, unit] = [document.querySelector(`label[for="${own}"]`), document.querySelector(`label[for="${own}"] .unit`)];
  label.append(words.firstChild.textContent, unit?.cloneNode(true) ?? "", input);
  const part = Object.assign(document.createElement("div"), { className: `input its-${own}` });
  part.append(label);
  return part;
}

/** Other files may be chosen, and these again. */
function keepWhatIsTyped() {
  const lines = /** @type {HTMLElement[]} */ ([...list.children]);
  for (const line of lines) said.delete(line.dataset.file);
  for (const line of lines) {
    const inputs = /** @type {(HTMLInputElement|HTMLSelectElement)[]} */ ([...line.querySelectorAll("input, select")]);
    const typed = Object.fromEntries(inputs.map((one, at) => [names[at], one.value]));
    said.set(line.dataset.file, [...(said.get(line.dataset.file) ?? []), typed]);
  }
}

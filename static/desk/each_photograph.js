/** What differs from one photograph to the next, asked beside each that is chosen; an empty line says what the form says. */

/** @type {HTMLInputElement} */
const files = document.querySelector("#files");
/** @type {HTMLOListElement} */
const list = document.querySelector(".each");
const names = list.dataset.own.split(" ");
const said = new Map(Object.entries(JSON.parse(list.dataset.said))); // what was typed before, by the name of the file

files.addEventListener("change", () => {
  keepWhatIsTyped();
  list.replaceChildren(...[...files.files].map(lineOf));
  list.hidden = !list.children.length;
});

/** A small picture, its file's name, and the inputs of one photograph. */
function lineOf(file) {
  const line = document.createElement("li");
  const picture = Object.assign(document.createElement("img"), { alt: "", src: URL.createObjectURL(file) });
  picture.addEventListener("load", () => URL.revokeObjectURL(picture.src));
  const name = Object.assign(document.createElement("b"), { textContent: file.name, dir: "auto" });
  line.append(picture, name, ...names.map((own) => inputOf(own, file.name)));
  line.dataset.file = file.name;
  return line;
}

/** An input as the form below has it, empty. */
function inputOf(own, file) {
  const below = /** @type {HTMLInputElement|HTMLSelectElement} */ (document.getElementById(own));
  const input = /** @type {typeof below} */ (below.cloneNode(true));
  for (const tied of ["id", "aria-required", "aria-describedby", "aria-invalid"]) input.removeAttribute(tied);
  input.name = `each-${own}`;
  if (input instanceof HTMLSelectElement) {
    if (input.options[0]?.value) input.prepend(document.createElement("option"));
    input.options[0].textContent = "as below";
  }
  input.value = said.get(file)?.[own] ?? "";
  const label = document.createElement("label");
  const [words, unit] = [document.querySelector(`label[for="${own}"]`), document.querySelector(`label[for="${own}"] .unit`)];
  label.append(words.firstChild.textContent, unit?.cloneNode(true) ?? "", input);
  const part = Object.assign(document.createElement("div"), { className: `input its-${own}` });
  part.append(label);
  return part;
}

/** Other files may be chosen, and these again. */
function keepWhatIsTyped() {
  for (const line of list.children) {
    const inputs = /** @type {(HTMLInputElement|HTMLSelectElement)[]} */ ([...line.querySelectorAll("input, select")]);
    said.set(/** @type {HTMLElement} */ (line).dataset.file, Object.fromEntries(inputs.map((one, at) => [names[at], one.value])));
  }
}

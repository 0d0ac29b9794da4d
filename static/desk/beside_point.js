/** Where on the face a point of the photograph lies is typed beside the point, so that the eye stays there. */

import { numberFrom } from "../phone/book/typed.js";

const PARTS = ["x", "z", "off"];
const WORDS = { x: "x, mm", z: "z, mm", off: "off, mm" };

/**
 * Open the little form at a point; an earlier one goes.
 * @param {HTMLElement} around  the photograph, in which it stands
 * @param {{name: string, at: [number, number], size: {width: number, height: number}, values: string[]}} mark
 *   what it is called, where it is, px of the photograph's size, and x, z and how far they may be off as typed
 * @param {{typed: (values: string[]) => void, removed: () => void}} to
 */
export function askBeside(around, { name, at, size, values }, to) {
  around.querySelector(".beside-point")?.remove();
  const form = document.createElement("form");
  form.className = "beside-point";
  form.noValidate = true;
  form.autocomplete = "off";
  form.setAttribute("aria-label", name);
  const inputs = PARTS.map((part, n) => inputOf(part, values[n] ?? ""));
  const remove = Object.assign(document.createElement("button"), { type: "button", textContent: "Remove" });
  const title = Object.assign(document.createElement("b"), { textContent: name });
  form.append(title, ...inputs.map((input) => input.parentElement), Object.assign(document.createElement("button"), { textContent: "Done" }), remove);
  form.addEventListener("input", () => to.typed(lineOf(inputs)));
  form.addEventListener("keydown", ({ key }) => key === "Escape" && form.remove());
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const wanting = inputs.slice(0, 2).find(({ value }) => typeof numberFrom(value) !== "number");
    if (wanting) wanting.focus();
    else form.remove();
  });
  remove.addEventListener("click", () => {
    form.remove();
    to.removed();
  });
  place(form, at, size);
  around.append(form);
  inputs[0].focus({ preventScroll: true });
}

/** What is typed, up to what is still empty: in a line, what comes after would be taken for it. */
function lineOf(inputs) {
  const typed = inputs.map(({ value }) => value.replaceAll(/\s/g, ""));
  return typed.slice(0, [...typed, ""].indexOf(""));
}

function inputOf(part, value) {
  const label = Object.assign(document.createElement("label"), { textContent: WORDS[part] });
  const input = Object.assign(document.createElement("input"), { name: part, value, inputMode: part === "off" ? "decimal" : "text" });
  label.append(input);
  return input;
}

/** Beside the point, on the side where the photograph has more room. */
function place(form, [across, down], { width, height }) {
  form.classList.toggle("to-the-left", across > width / 2);
  form.classList.toggle("above", down > height / 2);
  form.style.setProperty("left", `${(100 * across) / width}%`);
  form.style.setProperty("top", `${(100 * down) / height}%`);
}

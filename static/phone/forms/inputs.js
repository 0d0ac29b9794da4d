/** The inputs of a form the server made: what they show, what was typed, and the reason beside each. */

import { acceptChange } from "../book/fields.js";
import { Refusal } from "../../checks/refusal.js";
import { fromText, toText } from "../book/typed.js";
import { keptTogether } from "../book/wording.js";
import { filled, made, slot, tell } from "./../pages/markup.js";
import { unfold } from "./folding.js";
import { hasPad } from "./number_pad.js";

const LISTS = ["choices", "links"];

/** The fields of a kind a person fills in. */
export function fieldsInForm(kind) {
  return kind.in_form.map((name) => kind.byName.get(name));
}

/**
 * What stored values look like when typed.
 * @returns {Record<string, string|string[]>}
 */
export function asTyped(fields, values) {
  const typed = (field) => (LISTS.includes(field.type) ? values[field.name] ?? [] : toText(field, values[field.name]));
  return Object.fromEntries(fields.map((field) => [field.name, typed(field)]));
}

/** Let a form show what was typed. */
export function show(form, fields, typed) {
  for (const field of fields) {
    const value = typed[field.name] ?? "";
    if (LISTS.includes(field.type)) {
      for (const box of boxes(form, field.name)) box.checked = value.includes(box.value);
    } else if (form.elements[field.name]) {
      form.elements[field.name].value = value;
    }
  }
}

/** What stands in a form now. */
export function typedIn(form, fields) {
  const typed = (field) =>
    LISTS.includes(field.type)
      ? boxes(form, field.name).filter(({ checked }) => checked).map(({ value }) => value)
      : form.elements[field.name]?.value ?? "";
  return Object.fromEntries(fields.map((field) => [field.name, typed(field)]));
}

/**
 * What was typed, as values.
 * @param {import("../book/registry.js").Field[]} fields
 * @param {Record<string, any>} typed
 * @param {Record<string, any>|null} before  the item as it stands, if it does
 * @returns {{values: Record<string, any>, findings: Refusal[]}}
 */
export function meant(fields, typed, before = null) {
  const values = {};
  const findings = [];
  for (const field of fields) {
    try {
      const text = typed[field.name];
      values[field.name] = acceptChange(field, LISTS.includes(field.type) ? text : fromText(field, text), before);
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      findings.push(error);
    }
  }
  return { values, findings };
}

/** Put each reason beside its input, and all of them on top; those of no input only on top. */
export function showErrors(page, form, findings) {
  for (const old of form.querySelectorAll(".error")) old.remove();
  for (const old of form.querySelectorAll("[aria-invalid]")) old.removeAttribute("aria-invalid");
  for (const old of form.querySelectorAll(".wrong")) old.classList.remove("wrong");
  const refused = slot(page, "refused");
  refused.hidden = !findings.length;
  slot(page, "reasons").replaceChildren(...findings.map((finding) => reasonOf(form, finding)));
  if (findings.length) refused.focus();
}

function reasonOf(form, { field, reason, remedy }) {
  const words = `${reason} ${remedy}`;
  const line = filled("reason", { reason: words });
  const input = field && form.querySelector(`[id="${CSS.escape(field)}"]`);
  const place = input?.closest(".input");
  if (!place) return line;
  const error = made("error");
  error.id = `${field}-error`;
  tell(error, words);
  place.classList.add("wrong");
  unfold(input);
  (place.querySelector("legend, label") ?? place.firstElementChild).after(error);
  input.setAttribute("aria-invalid", "true");
  describe(input, error.id);
  slot(line, "reason").addEventListener("click", () => {
    unfold(input);
    input.scrollIntoView({ block: "center" });
    input.focus();
  });
  slot(line, "reason").setAttribute("role", "button");
  slot(line, "reason").tabIndex = 0;
  return line;
}

/** A line beside an input for what is told of it without refusing it; returns what sets its words. */
export function warningAt(form, name) {
  const input = form.elements[name];
  const line = made("warning");
  line.id = `${name}-warning`;
  input.before(line);
  describe(input, line.id);
  return (words) => {
    if (line.textContent !== keptTogether(words)) tell(line, words);
  };
}

function describe(input, id) {
  const before = (input.getAttribute("aria-describedby") ?? "").split(" ").filter((one) => one && one !== id);
  input.setAttribute("aria-describedby", [...before, id].join(" "));
}

/** A keyboard of figures has no minus on every phone: a button beside the input turns the sign. */
export function addSignToggles(form, mayBeNegative) {
  for (const input of form.querySelectorAll("input[inputmode], input[data-signed]")) {
    const signed = "signed" in input.dataset || (input.name && mayBeNegative(input.name));
    if (!signed) continue;
    input.inputMode = "decimal";
    if (hasPad()) continue; // which turns signs itself
    const button = made("sign-toggle");
    button.addEventListener("click", () => {
      input.value = input.value.startsWith("-") || input.value.startsWith("−") ? input.value.slice(1) : `-${input.value}`;
      input.dispatchEvent(new Event("input", { bubbles: true }));
    });
    input.after(button);
    input.parentElement.classList.add("with-button");
  }
}

/** A moment is rarely typed: a button sets it to now. */
export function addNowButtons(form, fields, now) {
  for (const { name } of fields.filter(({ type }) => type === "moment")) {
    const input = form.elements[name];
    const button = made("now-button");
    button.addEventListener("click", () => {
      input.value = now();
      input.dispatchEvent(new Event("input", { bubbles: true }));
    });
    input.after(button);
    input.parentElement.classList.add("with-button");
  }
}

function boxes(form, name) {
  return [...form.querySelectorAll(`input[type="checkbox"][name="${CSS.escape(name)}"]`)];
}

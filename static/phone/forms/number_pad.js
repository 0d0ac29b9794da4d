/** A pad for figures under the thumb: large keys, one more or less, the last figure; fields are selected when touched. */

import { numberTo } from "../book/typed.js";
import { slot } from "../pages/markup.js";
import { makeRoom } from "../standing.js";
import { moveOn } from "./moving_on.js";

/** Told of a field whose figure is there, before the next field is gone to; who prevents that goes on otherwise. */
export const FIGURE_DONE = "figuredone";
const FIGURES = "input[inputmode=decimal], input[inputmode=numeric], input[data-figures]";
/** What was typed last into a field of each name, for the next one like it. @type {Map<string, string>} */
const lastTyped = new Map();

/** Whether this screen is touched: only there figures are typed on the pad. */
export function hasPad() {
  return matchMedia("(any-pointer: coarse)").matches;
}

/**
 * Let the fields for figures of a form be filled from the pad, on screens that are touched.
 * @param {HTMLElement} form
 * @param {HTMLElement} under  made from the template `under-thumb`
 */
export function addNumberPad(form, under) {
  if (!hasPad()) return;
  const pad = slot(under, "pad");
  let [field, kept] = [/** @type {HTMLInputElement|null} */ (null), ""];
  for (const input of form.querySelectorAll(FIGURES)) {
    input.setAttribute("inputmode", "none"); // the phone's own keyboard stays down
    input.setAttribute("data-figures", "");
  }
  form.addEventListener("focusin", ({ target }) => {
    const input = /** @type {HTMLInputElement} */ (target);
    if (!input.matches(FIGURES)) return;
    put(input);
    input.select();
  });
  // The page must not move under a finger that is still down: the pad goes after the touch that left its field.
  const settle = () => {
    if (!form.isConnected) for (const what of ["click", "keyup"]) removeEventListener(what, settle);
    else if (field && document.activeElement !== field) put(null);
  };
  for (const what of ["click", "keyup"]) addEventListener(what, settle);
  // Nor does what comes or grows under the thumb, or a phone turned round, cover the field that is typed in.
  new ResizeObserver(() => field?.scrollIntoView({ block: "nearest" })).observe(under);
  pad.addEventListener("pointerdown", (event) => event.preventDefault()); // the field keeps the focus
  pad.addEventListener("click", (event) => {
    const key = /** @type {HTMLElement} */ (event.target).closest("[data-key]")?.getAttribute("data-key");
    if (key && field) press(key);
  });

  function put(input) {
    if (field?.value && field.value !== kept) lastTyped.set(field.name, field.value);
    field = input;
    kept = field?.value ?? "";
    pad.hidden = !field;
    makeRoom(under, "--thumb"); // at once: a page that moves later moves under a finger
    if (!field) return;
    const last = lastTyped.get(field.name) ?? "";
    slot(pad, "last").textContent = last;
    /** @type {HTMLButtonElement} */ (pad.querySelector("[data-key=last]")).disabled = !last;
    field.scrollIntoView({ block: "nearest" });
  }
  function press(key) {
    const { value } = field;
    const [from, to] = [field.selectionStart ?? value.length, field.selectionEnd ?? value.length];
    if (key === "next") return next();
    if (key === "last") field.value = lastTyped.get(field.name) ?? value;
    else if (key === "sign") field.value = /^[-−]/.test(value) ? value.slice(1) : `-${value}`;
    else if (key === "less" || key === "more") field.value = stepped(value, key === "more" ? 1 : -1);
    else if (key === "back") field.setRangeText("", from === to ? Math.max(0, from - 1) : from, to, "end");
    else field.setRangeText(key, from, to, "end");
    field.dispatchEvent(new Event("input", { bubbles: true }));
    return undefined;
  }
  function next() {
    if (field.dispatchEvent(new CustomEvent(FIGURE_DONE, { cancelable: true }))) moveOn(form, field);
  }
}

/** One more or less; from nothing, from 0. */
export function stepped(text, by) {
  const value = Number(text.replace("−", "-").replace(",", ".") || 0);
  return Number.isFinite(value) ? numberTo(value + by).replace("−", "-") : text;
}

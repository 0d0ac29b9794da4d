/** The page of a colour from a photograph: a click gives the middle of what is to be measured. */

import { numberTo } from "../phone/book/typed.js";

document.documentElement.classList.add("scripted");
const around = /** @type {HTMLElement} */ (document.querySelector("[data-colour]"));
const image = around.querySelector("img");
const input = (name) => /** @type {HTMLInputElement} */ (document.getElementById(name));

image.addEventListener("click", ({ offsetX, offsetY }) => {
  const share = Number(around.dataset.width) / image.clientWidth;
  input("across_px").value = numberTo(Math.round(offsetX * share));
  input("down_px").value = numberTo(Math.round(offsetY * share));
  input("reach_px").value ||= numberTo(Math.round(Number(around.dataset.width) / 80));
});

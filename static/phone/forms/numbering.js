/** A numbered mark is set by touching the photograph, and moved by dragging it; figures that are typed move it too. */

import { numberFrom, numberTo } from "../book/typed.js";
import { grip, hearTouches, ring } from "../drawing/over_picture.js";

const PLACE = ["across_px", "down_px"];

/**
 * @param {any} svg  over the photograph, in its pixels
 * @param {HTMLFormElement} form  of the mark
 */
export function setByTouch(svg, form) {
  const input = (name) => /** @type {HTMLInputElement} */ (form.elements.namedItem(name));
  const unit = () => svg.viewBox.baseVal.width / Math.max(320, svg.clientWidth);
  const put = (_, point) => {
    PLACE.forEach((name, at) => (input(name).value = numberTo(point[at])));
    input(PLACE[1]).dispatchEvent(new Event("input", { bubbles: true }));
  };
  const draw = () => {
    svg.querySelectorAll(".own, .grip").forEach((drawn) => drawn.remove());
    const at = /** @type {[number, number]} */ (PLACE.map((name) => numberFrom(input(name).value)));
    if (at.every((part) => typeof part === "number")) svg.append(ring(at, input("number").value, unit(), "numbered own"), grip(at, 0, unit()));
  };
  hearTouches(svg, { touched: (point) => put(0, point), chosen: () => {}, moved: put, ended: () => {} });
  form.addEventListener("input", draw);
  draw();
}

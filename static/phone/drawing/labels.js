/** What a drawing writes beside each thing on a face: does what fieldbook/drawing/labels.py does (tests/cases/labels.json). */

import { roundedDown } from "../../checks/limits.js";
import { numberTo } from "../book/typed.js";
import { calledOf } from "../book/site.js";

const said = (value) => numberTo(Math.round(value * 10) / 10);

const STATED = {
  leaf: ({ leaf }) => leaf ?? "leaf",
  headroom: ({ headroom_mm: height }) => `headroom ${said(height)}`,
  route: ({ available_mm: today, clear_width_mm: clear, margin_mm: margin }) => `route ${said(roundedDown(today - clear - margin))}`,
  "keep in view": () => "keep in view",
  flat: ({ projection_mm: out, margin_mm: margin }) => `flat ${said(roundedDown(out - margin))}`,
};

const MORE = {
  zone: ({ forbids }) => `no ${forbids.join(", ")}`,
  limit: (values) => STATED[values.sort](values),
};

/** How an item is called on a drawing, with what it forbids or allows. */
export function wordsBeside(registry, item) {
  const called = calledOf(registry, item);
  return MORE[item.kind] ? `${called} ${MORE[item.kind](item.values)}` : called;
}

/** The mark a new thing would have, going on from those there are: D1.6 gives D1.7, R2 gives R3. */

import { byCounting } from "./order.js";

const COUNTED = /^(.*?)(\d+)$/;
const EXAMPLE = /^short: ([A-Z]+)\d+$/;

/**
 * @param {import("./registry.js").Kind} kind
 * @param {import("./site.js").Site} site
 * @param {Record<string, any>} values  of the new thing, as far as they are known
 * @param {string[]} [more]  marks that are taken besides
 * @returns {string} "" where nothing shows how things are counted
 */
export function nextMark(kind, site, values, more = []) {
  const name = kind.numbered_by;
  if (name !== "mark" && name !== "reference") return "";
  const fitting = kind.name === "fixing" ? site.get(values.fitting) : null;
  if (kind.name === "fixing" && !fitting) return "";
  const siblings = fitting ? site.of(fitting, "fixing") : site.all(kind.name);
  const marks = [...siblings.map((item) => item.values[name]).filter(Boolean), ...more].sort(byCounting);
  const last = marks.findLast((mark) => COUNTED.test(mark));
  if (!last && fitting) return fitting.values.mark ? `${fitting.values.mark}.1` : "";
  if (!last) return marks.length ? "" : firstMark(kind.byName.get(name));
  const [, before, number] = COUNTED.exec(last);
  const next = String(Number(number) + 1).padStart(number.length, "0");
  return `${before}${next}`;
}

/**
 * The first of a kind that needs a mark, by the letter of the example beside it.
 * @param {any} field
 */
function firstMark({ required, help }) {
  const found = required && EXAMPLE.exec(help);
  return found ? `${found[1]}1` : "";
}

/** The number a new mark on a photograph would have: one more than the highest there. */
export function nextNumber(site, photograph) {
  const one = site.get(photograph);
  return 1 + Math.max(0, ...(one ? site.of(one, "pointer") : []).map(({ values }) => values.number));
}

/** What was entered last of a kind, on a face where it has one: what the next is likely to be like. */
export function lastLike(kind, site, values) {
  const face = values.face ?? site.get(values.fitting)?.values.face;
  const all = site.all(kind.name).filter((item) => !face || item.values.face === face);
  return all.reduce((last, item) => (!last || item.id > last.id ? item : last), null);
}

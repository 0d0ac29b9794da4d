/** A site as one question sees it, with what is taken for the fields that are not entered. Mirrors fieldbook/findings/asking.py. */

/** @typedef {{item: import("./site.js").Item, field: string, words?: string}} Blank */

/**
 * @typedef {object} Asked
 * @property {import("./registry.js").Registry} registry
 * @property {import("./site.js").Site} site
 * @property {string} today  the day it is asked on
 * @property {Map<string, any>} [taken]  "id field" -> what is taken for it
 */

/** A question needs a field that is not entered, and nothing was taken for it. */
export class NotEntered extends Error {
  /**
   * @param {Blank} blank
   * @param {{figure?: number|null, unit?: string, why?: string}} known  what could be reckoned all the same
   */
  constructor(blank, { figure = null, unit = "", why = "" } = {}) {
    super(blank.field);
    this.blank = blank;
    this.figure = figure;
    this.unit = unit;
    this.why = why;
  }
}

/** What an entry is known by among those that are taken. */
export function keyOf({ item, field }) {
  return `${item.id} ${field}`;
}

/**
 * What is entered in a field, or taken for it.
 * @param {Asked} asked
 * @param {import("./site.js").Item} item
 * @param {string} field
 * @param {{figure?: number|null, unit?: string}} known  what is already reckoned and only lacks this
 * @throws {NotEntered}
 */
export function need(asked, item, field, known = {}) {
  const value = item.values[field];
  if (value !== null && value !== undefined) return value;
  const key = keyOf({ item, field });
  if (asked.taken?.has(key) && asked.taken.get(key) !== null) return asked.taken.get(key);
  throw new NotEntered({ item, field }, known);
}

/** Single facts the phone remembers: which book it joined and as what, how far it is, and what the fitter chose. */

import { asked, transact } from "./database.js";

/**
 * @typedef {object} Facts
 * @property {string} [book]  id of the book this phone joined
 * @property {string} [epoch]  of the entries it holds
 * @property {string} [device]  its own id
 * @property {string} [token]
 * @property {string} [name]  what it is called at the desk
 * @property {{revision: number, digest: string}} [known]  the latest revision the laptop told of in this epoch, and its hash
 * @property {{known: number, shared: number, others: number, at: string}} [restored]  that the book was found put back, until it was read
 * @property {string} [takenOut]  what the laptop last said was taken out of its book, as one digest
 * @property {boolean} [letGo]  that some of it went from this phone, until it was read
 * @property {number} [cursor]  revision up to which it has pulled
 * @property {{revision: number, day: string, sites: Record<string, any>}} [answers]  what the desk last answered about what stands
 * @property {string} [site]  the one the pages show
 * @property {Record<string, import("../book/made.js").Made>} [made]  site -> what was ticked on its workshop sheets
 * @property {number} [longest_px]  size photographs are reduced to; 0 or none: as taken
 */

/** @returns {Promise<Facts>} */
export function readFacts() {
  return transact(["facts"], "readonly", async ({ facts }) => {
    const [names, values] = await Promise.all([asked(facts.getAllKeys()), asked(facts.getAll())]);
    return Object.fromEntries(names.map((name, at) => [name, values[at]]));
  });
}

/**
 * @param {Facts} changed
 * @returns {Promise<void>}
 */
export function writeFacts(changed) {
  return transact(["facts"], "readwrite", ({ facts }) => {
    for (const [name, value] of Object.entries(changed)) facts.put(value, name);
  });
}

/**
 * What was pulled: the state it comes to, and the entries themselves. These are read when they are first asked for,
 * since a book opens without them; from then on they are kept in step with the state.
 */

import { inPresentWords, isPresent } from "./book/versions.js";
import { apply, emptyState } from "./projection.js";
import { readLedger } from "./store/ledger.js";
import { EVERY, readProjected, writeProjected } from "./store/projected.js";

/** Read it from the store: with every entry where the whole is asked for, or where no state lies ready-made. */
export async function openPulled(registry, /** @type {boolean} */ whole) {
  return new Pulled(registry, await readProjected(registry.described, whole));
}

export class Pulled {
  /** @type {any[]|null} in the order of revisions; null as long as nobody has asked for them */
  entries;
  /** @type {any[]} what has come since, while the others are not here */
  #since = [];
  /** @type {Map<string, any[]>|null} */
  #byItem = null;
  /** @type {Promise<void>|null} */
  #reading = null;

  /**
   * @param {import("./book/registry.js").Registry} registry
   * @param {import("./store/projected.js").Opened} opened
   */
  constructor(registry, { state, revision, newer, whole, entries }) {
    this.registry = registry;
    this.state = state ?? emptyState();
    /** Whether it holds what only a newer version of this app knows. */
    this.newer = newer;
    /** The latest revision, and that of the state which is kept ready-made. */
    this.held = this.kept = revision;
    this.entries = whole ? entries.slice(0, revision) : null;
    for (const entry of entries) if (entry.revision > revision) this.add(entry);
  }

  /** Take the next entry, in the order of revisions. */
  add(entry) {
    this.held = entry.revision;
    (this.entries ?? this.#since).push(entry);
    if (this.#byItem) put(this.#byItem, entry);
    this.#apply(entry);
  }

  #apply(entry) {
    const kind = this.registry.kinds.get(entry.kind);
    if (kind && isPresent(kind, entry)) return apply(this.state, entry.revision, entry);
    const said = inPresentWords(this.registry, entry);
    if (Object.keys(said.unknown).length) this.newer = true;
    return kind && apply(this.state, entry.revision, said);
  }

  /** Keep the state ready-made where much has come since it last was: while nobody waits for it. */
  async keepReady(/** @type {import("./store/facts.js").Facts} */ { epoch, takenOut }) {
    if (this.held - this.kept < EVERY) return;
    this.kept = this.held;
    const about = { described: this.registry.described, epoch, takenOut, revision: this.held, newer: this.newer };
    await writeProjected(about, this.state);
  }

  /** Have every entry here. */
  async read() {
    if (!this.entries) await (this.#reading ??= this.#read().finally(() => (this.#reading = null)));
  }

  async #read() {
    const { entries } = await readLedger(["entries"]);
    this.entries = [...entries.slice(0, this.held - this.#since.length), ...this.#since]; // more may lie in the store by now
    this.#since = [];
  }

  /** Those about an item, once they were read. */
  about(/** @type {string} */ id) {
    if (!this.entries) throw new Error("The entries were not read yet.");
    if (!this.#byItem) {
      this.#byItem = new Map();
      for (const entry of this.entries) put(this.#byItem, entry);
    }
    return this.#byItem.get(id) ?? [];
  }
}

function put(byItem, entry) {
  const about = byItem.get(entry.item);
  if (about) about.push(entry);
  else byItem.set(entry.item, [entry]);
}

/** The book as it lies open on the phone: what was pulled, with what waits laid over it. Pages read it and write in it. */

import { agreedState } from "./book/agreed.js";
import { acceptAll } from "./book/fields.js";
import { uuid7 } from "./book/identity.js";
import { momentOf } from "./book/moments.js";
import { findings } from "./book/rules.js";
import { gather, sitesOf } from "./book/site.js";
import { inPresentWords, isPresent } from "./book/versions.js";
import { apply, emptyState, laidOver, layOver } from "./projection.js";
import { readFacts, writeFacts } from "./store/facts.js";
import { readLedger, record } from "./store/ledger.js";

/** Open the book that lies in the phone's store. */
export async function openNotebook(registry) {
  const notebook = new Notebook(registry);
  await notebook.load();
  return notebook;
}

class Notebook {
  /** @type {import("./store/facts.js").Facts} */
  facts;
  /** @type {any[]} what was pulled, each with its revision */
  entries;
  /** @type {any[]} own entries the laptop has, that were not pulled yet */
  acknowledged;
  /** Whether the book holds what only a newer version of this app knows. */
  newer = false;
  #state = emptyState();
  #site = null;
  /** @type {any[]|null} */
  #sites = null;
  #listeners = new Set();
  #written = 0;
  #windows = "BroadcastChannel" in globalThis ? new BroadcastChannel("fieldbook") : null;

  constructor(registry) {
    this.registry = registry;
    if (this.#windows) this.#windows.onmessage = () => this.load();
  }

  /** Read everything from the store, as at the start or when another window has changed it. */
  async load() {
    Object.assign(this, await this.#read());
    this.#state = emptyState();
    this.newer = false;
    for (const entry of this.entries) this.#apply(entry);
    this.#changed();
  }

  /** Read what a step of sync has stored, without reading all entries again. */
  async readStored(pulled = []) {
    for (const entry of pulled) {
      if (entry.revision !== this.entries.length + 1) return this.load();
      this.entries.push(entry);
      this.#apply(entry);
    }
    Object.assign(this, await this.#read(["acknowledged", "outbox", "shelf", "pictures"]));
    this.#windows?.postMessage("changed");
    return this.#changed();
  }

  /** What the store holds; read again where something was written meanwhile, which what was read before would hide. */
  async #read(names) {
    for (;;) {
      const written = this.#written;
      const [facts, ledger] = await Promise.all([readFacts(), readLedger(names)]);
      if (written === this.#written) return { facts, ...ledger };
    }
  }

  #apply(entry) {
    const kind = this.registry.kinds.get(entry.kind);
    if (kind && isPresent(kind, entry)) return apply(this.#state, entry.revision, entry);
    const said = inPresentWords(this.registry, entry);
    if (Object.keys(said.unknown).length) this.newer = true;
    return kind && apply(this.#state, entry.revision, said);
  }

  /** Entries in present words, without those of a kind this version does not know. */
  #understood(entries) {
    return entries.filter(({ kind }) => this.registry.kinds.has(kind)).map((entry) => inPresentWords(this.registry, entry));
  }

  /** Call back whenever something has changed. Returns what ends that. */
  onChange(listener) {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  #changed() {
    const ahead = this.acknowledged.filter(({ revision }) => revision > this.cursor);
    this.items = laidOver(this.#state, this.#understood([...ahead, ...this.outbox].map(({ entry }) => entry)));
    this.#site = this.#sites = null;
    for (const listener of this.#listeners) listener();
  }

  get cursor() {
    return this.facts.cursor ?? 0;
  }

  get joined() {
    return Boolean(this.facts.device);
  }

  /** The site the pages show, gathered; null while there is none. */
  get site() {
    const chosen = this.sites.find(({ id }) => id === this.facts.site) ?? this.sites[0];
    if (!this.#site && chosen) this.#site = gather(this.registry, this.items, chosen.id, this.newer, this.#answered(chosen.id), this.#agreed());
    return this.#site;
  }

  /** What the desk last answered about a site; fresh while nothing has been entered here or there since. */
  #answered(id) {
    const { answers } = this.facts;
    return answers?.sites[id] ? { ...answers.sites[id], day: answers.day, fresh: answers.revision === this.cursor && !this.outbox.length } : null;
  }

  /** What things were like when they were agreed to; what waits comes after all that has a revision, in the order made. */
  #agreed() {
    let about = null;
    const byItem = () => {
      const rows = [...this.acknowledged.filter(({ revision }) => revision > this.cursor), ...this.outbox];
      const waiting = rows.map(({ entry }, at) => ({ ...entry, revision: this.cursor + 1 + at }));
      const all = new Map();
      for (const entry of [...this.entries, ...waiting]) all.set(entry.item, [...(all.get(entry.item) ?? []), entry]);
      return all;
    };
    return (ruling, thing) => {
      about ??= byItem();
      const of = ({ id }) => this.#understood(about.get(id) ?? []);
      return agreedState(ruling, of(ruling), of(thing));
    };
  }

  get sites() {
    return (this.#sites ??= sitesOf(this.items));
  }

  get conflicts() {
    return this.#state.conflicts.filter(({ settled }) => settled === null);
  }

  /** The entries about an item, those that wait last. */
  historyOf(id) {
    const ahead = this.acknowledged.filter(({ revision }) => revision > this.cursor);
    const waiting = [...ahead, ...this.outbox].map(({ entry }) => entry);
    return this.#understood([...this.entries, ...waiting].filter(({ item }) => item === id));
  }

  /** Whether anything about an item has not gone up yet. */
  waits(id) {
    return this.outbox.some(({ entry }) => entry.item === id);
  }

  async choose(facts) {
    await writeFacts(facts);
    this.#written += 1;
    Object.assign(this.facts, facts);
    this.#changed();
  }

  /**
   * What is wrong with values for an item, and what they are stored as.
   * @param {{kind: string, id: string, before?: Record<string, any>, values: Record<string, any>}} change
   */
  judge({ kind, id, before = {}, values: given }) {
    const { byName } = this.registry.kinds.get(kind);
    const stands = this.items.has(id) ? before : null;
    const { values, findings: found } = acceptAll(byName, given, stands);
    if (found.length) return { values, findings: found };
    const find = (target) => this.items.get(target);
    const whole = { ...before, ...values };
    return { values, findings: findings(this.registry, { kind, id, values: whole }, find, stands) };
  }

  /**
   * Write entries; kept on this phone when the promise is.
   * @param {{kind: string, item: string, set?: object, withdraw?: boolean, base?: number}[]} changes  `base`: where less was seen
   * @param {Parameters<typeof record>[1]} more
   */
  async write(changes, more = {}) {
    const head = { device: this.facts.device, at: momentOf(), base: this.cursor };
    const entries = changes.map((change) => ({ id: uuid7(), ...head, ...change }));
    const rows = await record(entries, more);
    this.#written += 1;
    this.outbox = [...this.outbox.filter(({ n }) => rows.every((row) => row.n !== n)), ...rows].sort((one, other) => one.n - other.n);
    if (more.mends !== undefined) this.shelf = this.shelf.filter(({ n }) => n !== more.mends);
    if (more.picture) this.pictures = [...this.pictures.filter(({ sha256 }) => sha256 !== more.picture.sha256), more.picture];
    for (const { entry } of rows) layOver(this.items, entry);
    this.#windows?.postMessage("changed");
    this.#site = this.#sites = null;
    for (const listener of this.#listeners) listener();
    return entries;
  }
}

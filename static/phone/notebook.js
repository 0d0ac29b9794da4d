/** The book as it lies open on the phone: what was pulled, with what waits laid over it. Pages read it and write in it. */

import { agreedState } from "./book/agreed.js";
import { acceptAll } from "./book/fields.js";
import { uuid7 } from "./book/identity.js";
import { momentOf } from "./book/moments.js";
import { findings } from "./book/rules.js";
import { gather, sitesOf } from "./book/site.js";
import { inPresentWords } from "./book/versions.js";
import { laidOver, layOver } from "./projection.js";
import { openPulled } from "./pulled.js";
import { readFacts, writeFacts } from "./store/facts.js";
import { readLedger, record } from "./store/ledger.js";

const WAITING = ["acknowledged", "outbox", "shelf", "pictures"];

/** Open the book that lies in the phone's store. */
export async function openNotebook(registry) {
  const notebook = new Notebook(registry);
  await notebook.load();
  return notebook;
}

class Notebook {
  /** @type {import("./store/facts.js").Facts} */
  facts;
  /** @type {any[]} own entries the laptop has, that were not pulled yet */
  acknowledged;
  /** @type {import("./pulled.js").Pulled} */
  #pulled;
  #site = null;
  #sites = null;
  #listeners = new Set();
  #windows = "BroadcastChannel" in globalThis ? new BroadcastChannel("fieldbook") : null;

  constructor(registry) {
    this.registry = registry;
    if (this.#windows) this.#windows.onmessage = () => this.load();
  }

  /** Read everything from the store, as at the start or when another window has changed it. */
  async load() {
    const whole = Boolean(this.#pulled?.entries);
    const [facts, pulled, rest] = await Promise.all([readFacts(), openPulled(this.registry, whole), readLedger(WAITING)]);
    if (this.#pulled?.entries && !pulled.entries) return this.load(); // they were asked for meanwhile
    Object.assign(this, { facts, ...rest });
    this.#pulled = pulled;
    return this.#changed();
  }

  /** Keep ready-made what the next opening needs. */
  async keepReady() {
    await this.#pulled.keepReady(this.facts);
  }

  /** Have every entry that was pulled here: what was agreed is told from them. @returns {Promise<any[]>} in the order of revisions */
  async pulled() {
    const asked = this.#pulled;
    await asked.read();
    return asked === this.#pulled ? /** @type {any[]} */ (asked.entries) : this.pulled();
  }

  /** Read what a step of sync has stored, without reading all entries again. */
  async readStored(pulled = []) {
    for (const entry of pulled) {
      if (entry.revision !== this.#pulled.held + 1) return this.load();
      this.#pulled.add(entry);
    }
    const rest = await readLedger(WAITING);
    Object.assign(this, rest, { facts: await readFacts() });
    this.#windows?.postMessage("changed");
    return this.#changed();
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
    this.items = laidOver(this.#pulled.state, this.#understood(this.#ahead()));
    this.#forgetGathered();
    for (const listener of this.#listeners) listener();
  }

  /** Own entries that were not pulled yet, in the order made. */
  #ahead() {
    return [...this.acknowledged.filter(({ revision }) => revision > this.cursor), ...this.outbox].map(({ entry }) => entry);
  }

  #forgetGathered() {
    this.#site = this.#sites = null;
  }

  /** Whether the book holds what only a newer version of this app knows. */
  get newer() {
    return this.#pulled.newer;
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
    if (!this.#site && chosen) this.#site = gather(this.registry, this.items, chosen.id, this.newer, this.#answered(chosen.id), this.#agreed);
    return this.#site;
  }

  /** What the desk last answered about a site; fresh while nothing has been entered here or there since. */
  #answered(id) {
    const { answers } = this.facts;
    return answers?.sites[id] ? { ...answers.sites[id], day: answers.day, fresh: answers.revision === this.cursor && !this.outbox.length } : null;
  }

  /** What a thing was like when it was agreed to; what waits comes after all that has a revision. Its page has called `pulled`. */
  #agreed = (ruling, thing) => {
    const ahead = this.#ahead().map((entry, at) => ({ ...entry, revision: this.cursor + 1 + at }));
    return agreedState(ruling, this.#about(ruling.id, ahead), this.#about(thing.id, ahead));
  };

  /** The entries about an item, those that wait last. */
  #about(id, ahead = this.#ahead()) {
    return this.#understood([...this.#pulled.about(id), ...ahead.filter(({ item }) => item === id)]);
  }

  get sites() {
    return (this.#sites ??= sitesOf(this.items));
  }

  get conflicts() {
    return this.#pulled.state.conflicts.filter(({ settled }) => settled === null);
  }

  /** The entries about an item, those that wait last. */
  async historyOf(id) {
    await this.pulled();
    return this.#about(id);
  }

  /** Whether anything about an item has not gone up yet. */
  waits(id) {
    return this.outbox.some(({ entry }) => entry.item === id);
  }

  async choose(facts) {
    await writeFacts(facts);
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
   * @param {{kind: string, item: string, set?: object, withdraw?: boolean}[]} changes
   * @param {Parameters<typeof record>[1]} more
   */
  async write(changes, more = {}) {
    const head = { device: this.facts.device, at: momentOf(), base: this.cursor };
    const entries = changes.map((change) => ({ id: uuid7(), ...head, ...change }));
    const rows = await record(entries, more);
    this.outbox = [...this.outbox.filter(({ n }) => n !== more.mends), ...rows].sort((one, other) => one.n - other.n);
    if (more.mends !== undefined) this.shelf = this.shelf.filter(({ n }) => n !== more.mends);
    if (more.picture) this.pictures = [...this.pictures.filter(({ sha256 }) => sha256 !== more.picture.sha256), more.picture];
    for (const { entry } of rows) layOver(this.items, entry);
    this.#windows?.postMessage("changed");
    this.#forgetGathered();
    for (const listener of this.#listeners) listener();
    return entries;
  }
}

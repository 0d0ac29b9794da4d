/**
 * Keeping in step with the laptop: one run at a time over all windows, started by whatever makes success likely.
 * A run asks whether the laptop is there, sends what waits, pulls what is new, then moves photographs.
 */

import { today } from "../book/moments.js";
import { pauseAfter } from "./backoff.js";
import { ErrorAnswer, NoAnswer, hello } from "./channel.js";
import { EpochMoved, fetchAnswers, fetchCopies, pullAll } from "./fetching.js";
import { followEpoch } from "./parting.js";
import { askWhichAreLacking, sendPhotographs } from "./photographs.js";
import { sendOutbox } from "./sending.js";
import { followTakenOut } from "./taking_out.js";

const EVERY_MS = 20_000;
const LOCK = "fieldbook-sync";
const AT_REST = { running: false, words: "", share: null };

/** @typedef {{running: boolean, words: string, share: number|null, problem: string|null, rejoin: boolean, at: Date|null, shell: string}} Progress */

export class Runner {
  #failures = 0;
  #notBefore = 0;
  #again = false;

  constructor(notebook) {
    this.notebook = notebook;
    /** @type {Progress} */
    this.progress = { ...AT_REST, problem: null, rejoin: false, at: null, shell: "" };
    /** @type {(progress: Progress) => void} */
    this.onProgress = () => {};
  }

  /** Start by itself from now on. */
  attend() {
    const { serviceWorker } = navigator;
    document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && this.run());
    addEventListener("online", () => this.run({ byHand: true }));
    serviceWorker?.addEventListener("message", ({ data }) => data === "sync" && this.run());
    setInterval(() => document.visibilityState === "visible" && this.#due() && this.run(), EVERY_MS);
    return this.run();
  }

  /** After something was written: now, and by the browser's own background sync where there is one. */
  async nudge() {
    const registration = await navigator.serviceWorker?.getRegistration();
    /** @type {any} */ (registration)?.sync?.register("fieldbook").catch(() => {}); // it may be switched off
    return this.run();
  }

  /** One run, if it is time for one; `byHand` is always time. */
  async run({ byHand = false } = {}) {
    if (!this.notebook.joined || (!byHand && Date.now() < this.#notBefore)) return;
    if (this.progress.running) {
      this.#again = true;
      return;
    }
    this.#tell({ running: true, words: "Asking for the laptop…", share: null });
    try {
      await locked(() => this.#oneRun());
      this.#failures = 0;
      this.#notBefore = 0;
      this.#tell({ problem: null, rejoin: false });
    } catch (error) {
      this.#failed(error);
    } finally {
      this.#tell(AT_REST);
    }
    if (this.#again && !this.#failures) {
      this.#again = false;
      await this.run();
    }
  }

  async #oneRun(left = 2) {
    const { notebook } = this;
    const answer = await hello(notebook.facts);
    this.#tell({ shell: answer.shell, at: new Date() });
    let closed = null;
    try {
      if (await followEpoch(answer)) await notebook.load();
      if (await followTakenOut(answer)) await notebook.load();
      closed = await this.#send(answer.level ?? 1);
      await notebook.readStored();
      await pullAll(
        (pulled) => notebook.readStored(pulled),
        (done, total) => this.#tell({ words: `Fetching entries: ${done} of ${total}`, share: done / total }),
      );
    } catch (error) {
      const moved = error instanceof EpochMoved || (error instanceof ErrorAnswer && error.code === "epoch-changed");
      if (moved && left) return this.#oneRun(left - 1);
      throw error;
    }
    if (closed) throw closed;
    const level = answer.level ?? 1;
    await sendPhotographs(level, (sent, total) => this.#tell({ words: `Sending photographs: ${mb(sent)} of ${mb(total)} MB`, share: sent / total }));
    await notebook.readStored();
    const digests = [...notebook.items.values()].filter(({ kind, withdrawn }) => kind === "photograph" && !withdrawn);
    await fetchCopies(
      digests.map(({ values }) => values.sha256).filter(Boolean),
      (done, total) => this.#tell({ words: `Fetching pictures: ${done} of ${total}`, share: done / total }),
    );
    await fetchAnswers(today());
    if (level > 1) await askWhichAreLacking(notebook.facts);
    await notebook.readStored();
    return undefined;
  }

  /** Send what waits. A laptop that can only read its book (S15) is told of in the end: what it has is fetched first. */
  async #send(level) {
    const tell = (done, total) => this.#tell({ words: `Sending entries: ${done} of ${total}`, share: done / total });
    try {
      await sendOutbox(this.notebook.registry, level, tell);
      return null;
    } catch (error) {
      if (error instanceof ErrorAnswer && error.code === "newer-book") return error;
      throw error;
    }
  }

  #failed(error) {
    this.#failures += 1;
    const wait = (error instanceof ErrorAnswer && error.waitSeconds * 1_000) || pauseAfter(this.#failures);
    this.#notBefore = Date.now() + wait;
    const rejoin = error instanceof ErrorAnswer && error.status === 401;
    const known = error instanceof ErrorAnswer || error instanceof NoAnswer || error.reason;
    if (!known) console.error(error);
    this.#tell({ problem: known ? error.message : "Something went wrong that this app did not expect. All is kept.", rejoin });
    this.notebook.readStored().catch(() => {});
  }

  /** Whether something waits, or the last run failed: the first one after joining may, when nothing waits yet. */
  #due() {
    const { outbox, pictures } = this.notebook;
    const unfinished = ({ state, lookedAt }) => state === "waiting" || (state === "sent" && !lookedAt);
    return Boolean(this.progress.problem || outbox.length || pictures.some(unfinished));
  }

  #tell(changed) {
    this.progress = { ...this.progress, ...changed };
    this.onProgress(this.progress);
  }
}

/** Nothing when another window is at it already. */
function locked(work) {
  if (!navigator.locks) return work();
  return navigator.locks.request(LOCK, { ifAvailable: true }, (lock) => (lock ? work() : undefined));
}

function mb(bytes) {
  return (bytes / 1e6).toFixed(1);
}

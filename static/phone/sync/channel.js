/** Asking the laptop: one request of the protocol (DEVELOPERS.md), answered or not, in a form that cannot be mistaken. */

const PROTOCOL = 1;
const PATIENCE_MS = { hello: 4_000, shared: 10_000, epoch: 10_000, entries: 30_000, photographs: 60_000, "taken-out": 30_000, answers: 60_000, join: 10_000 };

/** There was no answer of the protocol: no network, a time-out, a page of something else, a fault. Nothing changes. */
export class NoAnswer extends Error {
  constructor(words, status = 0) {
    super(words);
    this.status = status;
  }
}

/** The laptop answered with an error of the protocol. */
export class ErrorAnswer extends Error {
  constructor(status, answer, waitSeconds) {
    super(`${answer.reason} ${answer.remedy ?? ""}`.trim());
    this.status = status;
    this.answer = answer;
    this.code = answer.error;
    this.waitSeconds = waitSeconds;
  }
}

/**
 * Whether the laptop with this phone's book can be reached, and how far its book is.
 * @param {import("../store/facts.js").Facts} facts
 * @returns {Promise<{book: string, epoch: string, revision: number, shared: number, time: string, shell: string, level?: number, agrees?: boolean, taken_out?: string}>}
 * @throws {NoAnswer}
 */
export async function hello({ book, epoch, known }) {
  const answer = await ask(`hello${epoch ? `?epoch=${encodeURIComponent(epoch)}${knownOf(known)}` : ""}`);
  if (answer.fieldbook !== PROTOCOL || typeof answer.epoch !== "string" || !Number.isInteger(answer.revision)) {
    throw new NoAnswer("What answers at this address is not a book that this version of the app understands.");
  }
  if (book && answer.book !== book) throw new NoAnswer("Another book answers at this address.");
  return answer;
}

/** @returns {Promise<{book: string, epoch: string, device: string, token: string}>} */
export function join(code, name, device = null) {
  return ask("join", { method: "POST", json: { code, name, device } });
}

/**
 * @param {import("../store/facts.js").Facts} facts
 * @param {any[]} entries
 * @param {number} waiting  how many wait on this phone, these included
 * @param {string} described  fingerprint of the description this app has
 * @param {string[]} returned  ids of those among them that other devices made
 */
export function sendEntries({ token, epoch, known }, entries, waiting, described, returned) {
  return ask("entries", { method: "POST", token, json: { epoch, known, waiting, described, entries, returned } });
}

/** Entries after a revision, in the order of their revisions. */
export function pullEntries(/** @type {import("../store/facts.js").Facts} */ { token, known }, since, most = 500) {
  return ask(`entries?since=${since}&most=${most}${knownOf(known)}`, { token });
}

function knownOf(known) {
  return known ? `&known=${known.revision}&digest=${known.digest}` : "";
}

/** Step 6: the latest of these revisions that is the laptop's as well. */
export function askShared(/** @type {import("../store/facts.js").Facts} */ { token }, hashes) {
  return ask("shared", { method: "POST", token, json: { hashes } });
}

/** Step 6: tell the laptop that this phone knows what it does not have; the answer says the epoch that holds now. */
export function part(/** @type {import("../store/facts.js").Facts} */ { token, epoch, known }, shared) {
  return ask("epoch", { method: "POST", token, json: { epoch, known, shared } });
}

/** Step 8: what was taken out of the book, and the entries as they are without it. */
export function askTakenOut(/** @type {import("../store/facts.js").Facts} */ { token }) {
  return ask("taken-out", { token });
}

/** What only the desk can answer about what stands, as it is now. */
export function askAnswers(/** @type {import("../store/facts.js").Facts} */ { token }) {
  return ask("answers", { token });
}

/** How far each of these photographs has come, and whether its pixels were looked at; from level 2. */
export function askLacking(/** @type {import("../store/facts.js").Facts} */ { token }, digests) {
  return ask("photographs", { method: "POST", token, json: { digests } });
}

/** How much of a photograph the laptop has, as asked of level 1. */
export function photographProgress(/** @type {import("../store/facts.js").Facts} */ { token }, sha256) {
  return ask(`photographs/${sha256}`, { token });
}

/** Send one piece of a photograph; `first` is the place of its first byte. */
export function putPiece(/** @type {import("../store/facts.js").Facts} */ { token }, sha256, /** @type {Blob} */ piece, first, total) {
  const headers = {
    "Content-Range": `bytes ${first}-${first + piece.size - 1}/${total}`,
    "Content-Type": "application/octet-stream",
  };
  return ask(`photographs/${sha256}`, { method: "PUT", token, headers, body: piece });
}

/** A smaller copy of a photograph; null while the laptop has none. */
export async function fetchCopy(/** @type {import("../store/facts.js").Facts} */ { token }, sha256, pixels) {
  const response = await request(`photographs/${sha256}/copy/${pixels}`, { token });
  if (response.status === 404) return null;
  if (!response.ok || response.headers.get("Content-Type") !== "image/jpeg") {
    throw new NoAnswer("A smaller copy did not come.", response.status);
  }
  return response.arrayBuffer();
}

/** @returns {Promise<any>} */
async function ask(path, /** @type {Parameters<typeof request>[1]} */ options = {}) {
  const response = await request(path, options);
  const answer = await readJson(response);
  if (response.ok) return answer;
  if (response.status >= 400 && response.status < 500 && typeof answer.error === "string") {
    throw new ErrorAnswer(response.status, answer, Number(response.headers.get("Retry-After")) || 0);
  }
  throw new NoAnswer(answer.reason ?? `The laptop answered ${response.status}.`, response.status);
}

async function readJson(response) {
  const isJson = (response.headers.get("Content-Type") ?? "").startsWith("application/json");
  const answer = isJson ? await response.json().catch(() => null) : null;
  if (answer === null || typeof answer !== "object" || Array.isArray(answer)) {
    throw new NoAnswer("Something else answers at this address.", response.status);
  }
  return answer;
}

/**
 * @param {string} path
 * @param {{method?: string, token?: string, json?: any, headers?: Record<string, string>, body?: Blob}} options
 */
async function request(path, { method = "GET", token, json, headers = {}, body } = {}) {
  /** @type {Record<string, string>} */
  const sent = { Accept: "application/json, image/jpeg", ...headers };
  if (token) sent.Authorization = `Bearer ${token}`;
  if (json) sent["Content-Type"] = "application/json";
  const patience = PATIENCE_MS[path.split(/[/?]/)[0]];
  try {
    return await fetch(`/phone/${path}`, {
      method,
      headers: sent,
      body: json ? JSON.stringify(json) : body,
      cache: "no-store",
      credentials: "omit",
      redirect: "error",
      signal: AbortSignal.timeout(patience),
    });
  } catch (error) {
    const { name } = /** @type {Error} */ (error);
    if (!["TypeError", "TimeoutError", "AbortError", "NetworkError"].includes(name)) throw error;
    throw new NoAnswer("The laptop does not answer.");
  }
}

/**
 * Sending photographs: one question which of them the laptop lacks, then each from where the laptop has it. What is
 * wrong with one is told of that one, and the others go on.
 */

import { readFacts } from "../store/facts.js";
import { readLedger } from "../store/ledger.js";
import { notePicture, originalOf } from "../store/photographs.js";
import { ErrorAnswer, NoAnswer, askLacking, photographProgress, putPiece } from "./channel.js";

const PIECE_BYTES = 8 * 2 ** 20;
const FIRST_PIECE_BYTES = 1_000_000; // what a laptop of level 1 takes
const MOST_ASKED = 500;
const FRESH_STARTS = 2;
const SIDE_BY_SIDE = 3;

/**
 * Send the photographs that wait, a few side by side, since the laptop takes its time over each.
 * @param {number} level  what the laptop understands (DEVELOPERS.md, step 1)
 * @param {(sent: number, total: number) => void} tell  bytes of all that wait
 */
export async function sendPhotographs(level, tell) {
  const facts = await readFacts();
  if (level > 1) await askWhichAreLacking(facts);
  const waiting = (await everyPicture()).filter(({ state }) => state === "waiting").sort((one, other) => (one.at < other.at ? -1 : 1));
  const total = waiting.reduce((sum, { size }) => sum + size, 0);
  const sent = new Map();
  const noted = (sha256) => (received) => {
    sent.set(sha256, received);
    tell([...sent.values()].reduce((sum, one) => sum + one, 0), total);
  };
  const failures = [];
  async function oneAfterTheOther() {
    for (let next = waiting.shift(); next; next = waiting.shift()) {
      await sendPhotograph(facts, level, next, noted(next.sha256)).catch((error) => {
        failures.push(error);
        if (!isAboutOne(error)) waiting.length = 0;
      });
    }
  }
  await Promise.all(Array.from({ length: SIDE_BY_SIDE }, oneAfterTheOther));
  if (failures.length) throw failures[0];
}

/** Whether the laptop was asked, since the app was opened, of those as well that it had: its folder may be an older copy. */
let askedOfAll = false;

/** Learn how far each has come that waits, or whose pixels the laptop had not looked at when it was last asked. */
export async function askWhichAreLacking(facts) {
  const asked = (await everyPicture()).filter(({ state, lookedAt }) => state === "waiting" || (state === "sent" && !(lookedAt && askedOfAll)));
  for (let at = 0; at < asked.length; at += MOST_ASKED) {
    const { photographs } = await askLacking(facts, asked.slice(at, at + MOST_ASKED).map(({ sha256 }) => sha256));
    for (const { sha256, received, complete, looked_at: lookedAt } of photographs) {
      await notePicture(sha256, { state: complete ? "sent" : "waiting", received, lookedAt });
    }
  }
  askedOfAll = true;
}

async function everyPicture() {
  return (await readLedger(["pictures"])).pictures;
}

/** Whether the laptop answers, and only has trouble with this photograph. */
function isAboutOne(error) {
  return error instanceof NoAnswer && error.status === 500;
}

async function sendPhotograph(facts, level, { sha256, size, received: last }, tell) {
  const original = await originalOf(sha256);
  if (!original) {
    const finding = { reason: "Its bytes are no longer on this phone.", remedy: "Take it again.", field: "photograph" };
    return notePicture(sha256, { state: "refused", findings: [finding] });
  }
  const most = level > 1 ? PIECE_BYTES : FIRST_PIECE_BYTES;
  let { received, complete } = level > 1 ? { received: last, complete: false } : await photographProgress(facts, sha256);
  let starts = 0;
  try {
    while (!complete) {
      tell(received);
      const first = received >= size ? 0 : received;
      const piece = first || size > most ? original.slice(first, first + most) : original;
      try {
        ({ received, complete } = await putPiece(facts, sha256, piece, first, size));
      } catch (error) {
        if (!(error instanceof ErrorAnswer)) throw error;
        if (error.code === "out-of-step") received = error.answer.received;
        else if (error.code === "digest-differs" && (starts += 1) <= FRESH_STARTS) received = 0;
        else if (error.status === 422) return notePicture(sha256, { state: "refused", findings: [error.answer] });
        else throw error;
      }
    }
  } catch (cut) {
    await notePicture(sha256, { received }); // only to be shown: the laptop itself knows what it has
    throw cut;
  }
  tell(size);
  return notePicture(sha256, { state: "sent", received: size, lookedAt: level === 1 });
}

/** Identifiers: UUIDv7 of RFC 9562, made where a change is made, in the order it is made. */

const TICKS_PER_MS = 4096;
let last = 0;

/**
 * A new UUIDv7, greater than the one before it since the app was opened: the 12 bits after the milliseconds count up
 * within one millisecond (RFC 9562, 6.2, method 3).
 * @param {number} now  ms since 1970
 * @returns {string}
 */
export function uuid7(now = performance.timeOrigin + performance.now()) {
  last = Math.max(Math.floor(now * TICKS_PER_MS), last + 1);
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  let milliseconds = Math.floor(last / TICKS_PER_MS);
  const fraction = last % TICKS_PER_MS;
  for (let at = 5; at >= 0; at -= 1) {
    bytes[at] = milliseconds % 256;
    milliseconds = Math.floor(milliseconds / 256);
  }
  bytes[6] = 0x70 | (fraction >> 8);
  bytes[7] = fraction & 0xff;
  bytes[8] = 0x80 | (bytes[8] & 0x3f);
  return written(bytes);
}

/**
 * A UUID in its usual lower-case form; null for what is none.
 * @param {any} value
 * @returns {string|null}
 */
export function usualUuid(value) {
  if (typeof value !== "string") return null;
  const digits = value.replace("urn:", "").replace("uuid:", "").replace(/^[{}]+|[{}]+$/g, "").replaceAll("-", "");
  return /^[0-9a-f]{32}$/i.test(digits) ? hyphenated(digits.toLowerCase()) : null;
}

function written(bytes) {
  return hyphenated([...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join(""));
}

function hyphenated(digits) {
  return digits.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");
}

/** Dates and moments of RFC 3339, in the one form they are stored in. */

const DATE = /^(\d{4})-(\d{2})-(\d{2})$/;
const MOMENT = /^(\d{4}-\d{2}-\d{2})[T ](\d{2}):(\d{2})(?::(\d{2})(?:[.,](\d{1,9}))?)?(?:Z|([+-])(\d{2}):?(\d{2}))$/;

/**
 * A date in its usual form; null for what is none. The other forms of ISO 8601 are left to the server.
 * @param {any} value
 * @returns {string|null}
 */
export function usualDate(value) {
  const [, year, month, day] = (typeof value === "string" && value.match(DATE)) || [];
  return Number(year) && Number(month) >= 1 && Number(month) <= 12 && Number(day) >= 1 && Number(day) <= daysIn(year, month)
    ? value
    : null;
}

/**
 * A moment with its offset, in its usual form; null for what is none.
 * @param {any} value
 * @returns {string|null}
 */
export function usualMoment(value) {
  const found = typeof value === "string" && value.match(MOMENT);
  if (!found || !usualDate(found[1])) return null;
  const [, date, hour, minute, second = "00", fraction = "", sign = "+", hours = "00", minutes = "00"] = found;
  if (Number(hour) > 23 || Number(minute) > 59 || Number(second) > 59 || Number(hours) > 23 || Number(minutes) > 59) return null;
  const micro = fraction.slice(0, 6).padEnd(6, "0");
  const offset = hours === "00" && minutes === "00" ? "+00:00" : `${sign}${hours}:${minutes}`;
  return `${date}T${hour}:${minute}:${second}${micro === "000000" ? "" : `.${micro}`}${offset}`;
}

/**
 * A moment of this phone's clock, with its offset.
 * @param {Date} when
 * @returns {string}
 */
export function momentOf(when = new Date()) {
  const minutes = -when.getTimezoneOffset();
  const [sign, size] = [minutes < 0 ? "-" : "+", Math.abs(minutes)];
  const local = new Date(when.getTime() + minutes * 60_000).toISOString().slice(0, 23);
  return `${local}${sign}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}

/** Today by this phone's clock. */
export function today(when = new Date()) {
  return momentOf(when).slice(0, 10);
}

/** Whether a day, or the day of a moment where it was noted, has come: one that has not settles nothing. */
export function come(/** @type {string} */ iso, /** @type {string} */ day) {
  return iso.slice(0, 10) <= day;
}

function daysIn(year, month) {
  return new Date(Date.UTC(Number(year), Number(month), 0)).getUTCDate();
}

function two(number) {
  return String(number).padStart(2, "0");
}

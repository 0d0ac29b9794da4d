/** Days on which something comes round, as RFC 3339 dates. Mirrors fieldbook/checks/rounds.py. */

const DAY_MS = 86_400_000;

const msOf = (/** @type {string} */ day) => Date.parse(`${day}T00:00:00Z`);

/** Days from one date to another. */
export function daysBetween(from, to) {
  return Math.round((msOf(to) - msOf(from)) / DAY_MS);
}

/**
 * The same day of a later month, or the last day of a month that is too short for it.
 * @param {string} day
 * @param {number} months
 * @returns {string}
 */
export function monthsAfter(day, months) {
  const [year, month, date] = day.split("-").map(Number);
  const count = month - 1 + months;
  const [inYear, inMonth] = [year + Math.floor(count / 12), ((count % 12) + 12) % 12];
  const last = new Date(Date.UTC(inYear, inMonth + 1, 0)).getUTCDate();
  return [String(inYear).padStart(4, "0"), two(inMonth + 1), two(Math.min(date, last))].join("-");
}

/**
 * The day of the round that comes after what was done.
 * @param {string|null} first
 * @param {number|null} everyMonths
 * @param {string[]} done
 * @returns {string|null} null where nothing is to be done any more, or no day can be told
 */
export function nextRound(first, everyMonths, done) {
  const last = [...done].sort().at(-1);
  if (!last || !first) return last ? (everyMonths ? monthsAfter(last, everyMonths) : null) : first;
  if (!everyMonths) return null;
  const [toYear, toMonth] = last.split("-").map(Number);
  const [year, month] = first.split("-").map(Number);
  const reached = Math.floor(((toYear - year) * 12 + toMonth - month) / everyMonths);
  for (let number = Math.max(reached - 1, 0); ; number += 1) {
    const day = monthsAfter(first, number * everyMonths);
    const half = Math.floor(daysBetween(day, monthsAfter(first, (number + 1) * everyMonths)) / 2);
    if (daysBetween(last, day) > half) return day;
  }
}

/** How many rounds have come by a day since one that was not done. */
export function missed(due, everyMonths, today) {
  if (due > today) return 0;
  let number = 1;
  while (everyMonths && monthsAfter(due, number * everyMonths) <= today) number += 1;
  return number;
}

function two(number) {
  return String(number).padStart(2, "0");
}

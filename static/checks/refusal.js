/** The one shape of a refusal, as in fieldbook/errors.py: what is wrong, with which value, why, and what to do. */

const SHOWN_LENGTH = 60;
const UNPRINTABLE = /[\p{C}\p{Zl}\p{Zp}]|(?! )\p{Zs}/gu;

export class Refusal extends Error {
  /**
   * @param {string} code  stable word for programs, kebab-case
   * @param {string} reason  what is wrong and by which rule
   * @param {string} remedy  what to do
   * @param {{field?: string|null, value?: any}} about  the field it is about, and what was given
   */
  constructor(code, reason, remedy, { field = null, value = null } = {}) {
    super(`${reason} ${remedy}`.trim());
    this.code = code;
    this.reason = reason;
    this.remedy = remedy;
    this.field = field;
    this.value = value;
  }

  /** The same as plain values, as the server gives its findings. */
  asFinding() {
    const { code, field, value, reason, remedy } = this;
    return { error: code, field, value: value === null ? null : shown(value), reason, remedy };
  }
}

/**
 * A value as a person may read it back: short, on one line, without control characters.
 * @param {any} value
 * @returns {string}
 */
export function shown(value) {
  const text = (typeof value === "string" ? value : told(value)).replace(UNPRINTABLE, "�");
  const letters = [...text];
  return letters.length <= SHOWN_LENGTH ? text : `${letters.slice(0, SHOWN_LENGTH - 1).join("")}…`;
}

function told(value) {
  return typeof value === "number" ? figure(value) : JSON.stringify(value) ?? String(value);
}

/**
 * A number with six significant digits and no more than it needs.
 * @param {number} value
 * @returns {string}
 */
export function figure(value) {
  if (!Number.isFinite(value)) return Number.isNaN(value) ? "nan" : value > 0 ? "inf" : "-inf";
  if (value === 0) return "0";
  const [digits, power] = value.toExponential(5).split("e");
  if (Number(power) >= -4 && Number(power) < 6) return String(Number(value.toPrecision(6)));
  const sign = Number(power) < 0 ? "-" : "+";
  return `${Number(digits)}e${sign}${String(Math.abs(Number(power))).padStart(2, "0")}`;
}

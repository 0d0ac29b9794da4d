/**
 * What a field of a kind may hold: mirrors fieldbook/model/fields.py, for a word beside the input at once.
 * The server has the last word. Fields come from the registry the server makes.
 */

import { fault } from "../../checks/polygon.js";
import { Refusal, figure, shown } from "../../checks/refusal.js";
import { refuseTwoReadings } from "./figures.js";
import { usualUuid } from "./identity.js";
import { usualDate, usualMoment } from "./moments.js";
import { acceptText, isEmpty } from "./text.js";
import { presentWord, wordsOf } from "./versions.js";

const MOST_ROWS = 5_000;
const A_FRACTION = "If this is a fraction, give it in percent: 65, not 0.65.";
const DIGEST = /^[0-9a-f]{64}$/;

/**
 * The value in the form it is stored in, or null when there is none.
 * @param {import("./registry.js").Field} field  of the registry
 * @param {any} value  as JSON
 * @returns {any}
 * @throws {Refusal} with the field's name
 */
export function accept(field, value) {
  if (isEmpty(value)) {
    if (field.required) throw missing(field);
    return null;
  }
  return ACCEPT[field.type](field, value);
}

/** As `accept`, for a change of an item as it stands `before`: what was not asked for when it was made may stay empty. */
export function acceptChange(field, value, before) {
  return before && isEmpty(value) && isEmpty(before[field.name]) ? null : accept(field, value);
}

/**
 * Every given value accepted.
 * @param {Map<string, import("./registry.js").Field>} fields  by name
 * @param {Record<string, any>} given
 * @param {Record<string, any>|null} before  the item as it stands, if it does
 * @returns {{values: Record<string, any>, findings: Refusal[]}}
 */
export function acceptAll(fields, given, before = null) {
  const values = {};
  const findings = [];
  for (const [name, value] of Object.entries(given)) {
    try {
      if (!fields.has(name)) throw unknownField(fields, name, value);
      values[name] = acceptChange(fields.get(name), value, before);
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      findings.push(error);
    }
  }
  return { values, findings };
}

/** The refusal of a field that must be filled in. */
export function missing(field) {
  return new Refusal("missing", `${field.label} is empty.`, `Fill in ${field.label.toLowerCase()}.`, { field: field.name });
}

function unknownField(fields, name, value) {
  const remedy = `The fields are: ${[...fields.keys()].join(", ")}.`;
  return new Refusal("unknown-field", `There is no field “${shown(name)}” here.`, remedy, { field: name, value });
}

function number(field, value) {
  const about = { field: field.name, value };
  refuseTwoReadings(field, value, about);
  if (typeof value !== "number") {
    const remedy = `Give it in figures${field.unit ? `, in ${field.unit}` : ""}.`;
    throw new Refusal("not-a-number", `${field.label} is “${shown(value)}”, which is not a number.`, remedy, about);
  }
  if (!(field.low <= value && value <= field.high)) {
    const unit = field.unit ? ` ${field.unit}` : "";
    const reason = `${field.label} is ${shown(value)}${unit}; it can be from ${figure(field.low)} to ${figure(field.high)}${unit}.`;
    const isShare = field.unit === "%" && value > 0 && value <= 1;
    throw new Refusal("out-of-range", reason, isShare ? A_FRACTION : "Check the figure and its unit.", about);
  }
  return value;
}

function whole(field, value) {
  if (Number.isInteger(number(field, value))) return value;
  const about = { field: field.name, value };
  throw new Refusal("not-a-number", `${field.label} is ${figure(value)}.`, "Give a whole number.", about);
}

function yesNo(field, value) {
  if ([0, 1, true, false].includes(value)) return Number(value);
  throw notAChoice(field, value, "Answer yes or no.");
}

function choice(field, value) {
  const word = presentWord(field, value);
  if (wordsOf(field).includes(word)) return word;
  throw notAChoice(field, value, `Choose one of: ${field.choices.join(", ")}.`);
}

function choices(field, value) {
  if (!Array.isArray(value)) throw notAChoice(field, value, `Choose any of: ${field.choices.join(", ")}.`);
  const chosen = value.map((word) => choice(field, word));
  return wordsOf(field).filter((word) => chosen.includes(word));
}

function notAChoice(field, value, remedy, why = "") {
  return new Refusal("not-a-choice", `${field.label} is “${shown(value)}”${why}.`, remedy, { field: field.name, value });
}

function date(field, value) {
  return usualDate(value) ?? refuseText(field, value, "which is not a date", "Write it as 2026-05-31.");
}

function moment(field, value) {
  const remedy = "Write it as 2026-05-31T14:30+01:00.";
  return usualMoment(value) ?? refuseText(field, value, "which is no date and time with its offset", remedy);
}

function refuseText(field, value, why, remedy) {
  const reason = `${field.label} is “${shown(value)}”, ${why}.`;
  throw new Refusal("unsuitable-text", reason, remedy, { field: field.name, value });
}

function link(field, value) {
  const id = usualUuid(value);
  if (id) return id;
  throw notAChoice(field, value, "Choose an item from the list.", ", which is not the id of an item");
}

function links(field, value) {
  if (!Array.isArray(value)) throw notAChoice(field, value, "Choose from the list.", ", which is not a list of items");
  return [...new Set(value.map((one) => link(field, one)))];
}

function digest(field, value) {
  if (typeof value === "string" && DIGEST.test(value)) return value;
  throw refuseText(field, value, "which is not a SHA-256 checksum", "Add the photograph again.");
}

function rows(field, value) {
  const headings = field.columns.map((column) => (column.unit ? `${column.label} (${column.unit})` : column.label));
  const remedy = `Give rows of: ${headings.join(", ")}.`;
  if (!Array.isArray(value) || value.length > MOST_ROWS) {
    throw unsuitableShape(field, value, ` is not a table of at most ${MOST_ROWS} rows.`, remedy);
  }
  return value.map((row, at) => {
    if (!Array.isArray(row) || row.length > field.columns.length) {
      throw unsuitableShape(field, row, `, row ${at + 1}: ${shown(row)} does not fit.`, remedy);
    }
    return field.columns.map((column, place) => cell(field, at + 1, column, row[place]));
  });
}

function cell(field, row, column, value) {
  try {
    return accept(column, value);
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    const reason = `${field.label}, row ${row}: ${error.reason}`;
    throw new Refusal(error.code, reason, error.remedy, { field: field.name, value: error.value });
  }
}

function outline(field, value) {
  const corners = rows(field, value);
  const [x, z] = corners[0];
  while (corners.length > 1 && corners.at(-1)[0] === x && corners.at(-1)[1] === z) corners.pop();
  if (corners.length < 3) {
    throw unsuitableShape(field, value, ` has ${corners.length} corners.`, "Give at least three.");
  }
  const wrong = fault(corners);
  if (wrong) {
    throw unsuitableShape(field, value, ` cannot be used: ${wrong}.`, "Give the corners in order, one way round.");
  }
  return corners;
}

function unsuitableShape(field, value, why, remedy) {
  return new Refusal("unsuitable-shape", `${field.label}${why}`, remedy, { field: field.name, value });
}

const ACCEPT = {
  line: acceptText,
  note: acceptText,
  number,
  whole,
  "yes-no": yesNo,
  choice,
  choices,
  date,
  moment,
  link,
  links,
  rows,
  outline,
  digest,
};

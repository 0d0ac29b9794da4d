/**
 * What must hold between the fields of one item, and between it and what it belongs to. Mirrors fieldbook/model/rules.py;
 * its tables come with the registry. The server has the last word.
 */

import { Refusal, figure } from "../../checks/refusal.js";
import { missing } from "./fields.js";
import * as possible from "./possible.js";

/**
 * Everything wrong with an item as it would stand.
 * @param {import("./registry.js").Registry} registry
 * @param {{kind: string, id: string, values: Record<string, any>}} item
 * @param {(id: string) => {kind: string, values: Record<string, any>}|undefined} find
 * @param {Record<string, any>|null} before  the item as it stands, if it does: what was wrong with it already, by a
 *   rule younger than the item, keeps nobody from changing something else
 * @returns {Refusal[]}
 */
export function findings(registry, { kind, id, values }, find, before = null) {
  const found = all(registry, { kind, id, values }, find);
  if (!found.length || !before) return found;
  const told = ({ code, field, reason }) => [code, field, reason].join("\n");
  const old = new Set(all(registry, { kind, id, values: before }, find).map(told));
  return found.filter((one) => !old.has(told(one)));
}

function all(registry, { kind: name, id, values }, find) {
  const kind = registry.kinds.get(name);
  const found = [...required(kind, values), ...links(kind, id, values, find), ...order(registry, kind, values)];
  found.push(...onTheFace(registry, kind, values, find));
  found.push(...possible.together(registry, kind, values));
  if (name === "room") found.push(...possible.plan(values));
  if (name === "reading") found.push(...possible.reading(registry, values));
  if (name === "fitting") found.push(...possible.gives(values));
  if (name === "limit") found.push(...limit(registry, kind, values), ...possible.leaf(values));
  if (name === "work" && values.outcome === "not done" && !values.reason) found.push(new Refusal("missing", "It was not done, and no reason is given.", "Say why.", { field: "reason" }));
  if (name === "fixing") {
    const [fitting, hold, member] = ["fitting", "hold", "member"].map((name) => linked(values, name, find));
    const offTheFace = found.some(({ code }) => code === "outside-the-face");
    const placed = offTheFace ? [] : possible.fixing(registry, values, fitting, hold, member);
    found.push(...fixing(registry, values), ...joined(values, find), ...placed);
  }
  return found;
}

/** The values of what a link of that name points to; null where it points to nothing of that kind. */
function linked(values, kind, find) {
  const known = values[kind] ? find(values[kind]) : null;
  return known?.kind === kind ? known.values : null;
}

const is = (value) => value !== null && value !== undefined;

function required(kind, values) {
  return kind.fields.filter((field) => field.required && !is(values[field.name])).map(missing);
}

function* links(kind, id, values, find) {
  for (const field of kind.fields) {
    if (field.type !== "link" && field.type !== "links") continue;
    for (const target of [values[field.name] ?? []].flat()) {
      const known = find(target);
      const about = { field: field.name, value: target };
      if (target === id) {
        yield new Refusal("not-a-choice", `${field.label} points to the item itself.`, "Choose another.", about);
      } else if (!known) {
        const reason = `${field.label} points to something that is not in this book yet.`;
        yield new Refusal("unknown-item", reason, "Send what it points to first, or choose another.", about);
      } else if (field.to !== "any" && field.to !== known.kind) {
        yield new Refusal("not-a-choice", `${field.label} points to a ${known.kind}.`, `Choose a ${field.to}.`, about);
      }
    }
  }
}

function* order({ rules }, kind, values) {
  for (const [low, high] of rules.not_above[kind.name] ?? []) {
    if (!is(values[low]) || !is(values[high]) || values[low] <= values[high]) continue;
    const [lower, upper] = [kind.byName.get(low), kind.byName.get(high)];
    const more = `more than ${upper.label.toLowerCase()} (${said(values[high])})`;
    const about = { field: low, value: values[low] };
    yield new Refusal("out-of-range", `${lower.label} is ${said(values[low])}, ${more}.`, "Exchange or correct them.", about);
  }
}

function* onTheFace({ rules }, kind, values, find) {
  const names = (rules.on_a_face[kind.name] ?? []).flat();
  const known = names.length && find(values.face);
  if (!known || known.kind !== "face") return;
  const face = known.values;
  if (!is(face.width_mm) || !is(face.height_mm)) return;
  for (const name of names) {
    const upwards = name.includes("z_mm");
    const start = (upwards ? face.bottom_mm : face.left_mm) ?? 0;
    const end = start + (upwards ? face.height_mm : face.width_mm);
    const value = values[name];
    if (!is(value) || (start - possible.NOISE_MM <= value && value <= end + possible.NOISE_MM)) continue;
    const reason = `${kind.byName.get(name).label} is ${figure(value)} mm; the face reaches from ${figure(start)} to ${figure(end)} mm.`;
    const remedy = "Measure from the datum again, or choose the face it is on.";
    yield new Refusal("outside-the-face", reason, remedy, { field: name, value });
  }
}

function* limit({ rules }, kind, values) {
  for (const name of rules.needed_by_limit[values.sort] ?? []) {
    if (is(values[name])) continue;
    const reason = `A limit of type “${values.sort}” needs “${kind.byName.get(name).label}”.`;
    yield new Refusal("missing", reason, "Fill it in.", { field: name });
  }
  if (is(values.swing_from_deg) && values.swing_from_deg === values.swing_to_deg) {
    const about = { field: "swing_to_deg", value: values.swing_to_deg };
    yield new Refusal("out-of-range", "The leaf swings from and to the same angle.", "Give the angle it opens to.", about);
  }
  for (const [place, box] of (values.boxes ?? []).entries()) {
    const [u0, u1, v0, v1] = box;
    if (box.includes(null) || (u0 < u1 && v0 < v1)) continue;
    const remedy = "Give u0 u1 v0 v1 with u0 < u1 and v0 < v1.";
    yield new Refusal("unsuitable-shape", `Box ${place + 1} has no area.`, remedy, { field: "boxes", value: box });
  }
}

function* fixing({ rules }, values) {
  const due = values.hole === "new" ? rules.trace_of_new_hole[values.fabric] : null;
  if (due && is(values.trace) && values.trace !== due) {
    const reason = `A new hole in ${values.fabric} leaves “${due}”, not “${values.trace}”.`;
    yield new Refusal("unsuitable-shape", reason, "Correct the hole or the marks left.", { field: "trace", value: values.trace });
  }
  if (values.hole === "none" && (values.penetration_mm ?? 0) > 0) {
    const reason = `Depth into the wall is ${figure(values.penetration_mm)} mm, yet there is no hole.`;
    const about = { field: "penetration_mm", value: values.penetration_mm };
    yield new Refusal("out-of-range", reason, "Say which hole it goes into, or give 0.", about);
  }
  if (values.fitted_place && is(values.fitted_x_mm)) {
    const reason = `Place as fitted is “${values.fitted_place}”, yet x as fitted is ${figure(values.fitted_x_mm)} mm.`;
    const about = { field: "fitted_place", value: values.fitted_place };
    yield new Refusal("not-a-choice", reason, "Keep the figures, or the words: not both.", about);
  }
}

/** A fixing carries its fitting on the other one, which then cannot hang on it. */
function* joined({ other_fitting: other, fitting }, find) {
  const known = other ? find(other) : null;
  if (!known || !fitting || ![other, known.values.hangs_on].includes(fitting)) return;
  const name = known.values.mark || known.values.name || "The other fitting";
  const about = { field: "other_fitting", value: other };
  const [reason, remedy] =
    other === fitting
      ? [`${name} is the fitting itself.`, "Choose the fitting it is fixed to."]
      : [
          `${name} hangs on the fitting that this fixing would fix to it.`,
          "Enter the fixing under the one that hangs, or correct what hangs on what.",
        ];
  yield new Refusal("unsuitable-shape", reason, remedy, about);
}

function said(value) {
  return typeof value === "string" ? value : figure(value);
}

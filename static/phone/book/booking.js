/** The booking of a face, the surveyor's old way: distance along it in the middle, plan left, finding right. */

import { roundedUp } from "../../checks/limits.js";
import { deviationOf, known } from "./places.js";
import { stands } from "./site.js";
import { dayOf, figureOf, joined } from "./wording.js";

/**
 * Every thing on a face in the order one meets it from left to right.
 * @returns {{item: object, x: number, xTo: number|null, z: number|null, zTo: number|null, planned: string, found: string, foundFirst: boolean}[]}
 */
export function linesOf(registry, site, face) {
  const things = ["zone", "limit", "hold", "fitting"].flatMap((kind) => site.of(face, kind));
  const seen = ["reading", "observation"].flatMap((kind) =>
    site.all(kind).filter(({ values }) => values.face === face.id && known(values.x_mm)),
  );
  return [...things, ...site.fixingsOn(face), ...seen]
    .map((item) => ({ item, xTo: null, z: item.values.z_mm ?? null, zTo: null, planned: "", found: "", foundFirst: false, ...LINES[item.kind](item, face) }))
    .sort((one, other) => one.x - other.x);
}

const LINES = {
  zone({ values }) {
    const [xs, zs] = [values.outline.map(([x]) => x), values.outline.map(([, z]) => z)];
    const planned = `no ${joined(values.forbids, "or")}; margin ${figureOf(values.margin_mm, "mm")}`;
    return { x: Math.min(...xs), xTo: Math.max(...xs), z: Math.min(...zs), zTo: Math.max(...zs), planned };
  },
  limit({ values }, face) {
    const left = face.values.left_mm ?? 0;
    const what = values.sort === "keep in view" ? "to be kept in view" : `${values.leaf ?? values.sort} to stay free`;
    const planned = `${what}; margin ${figureOf(values.margin_mm, "mm")}`;
    const [x, xTo] = [values.x_from_mm ?? left, values.x_to_mm ?? left + face.values.width_mm];
    return { x, xTo, z: values.z_from_mm ?? null, zTo: values.z_to_mm ?? null, planned };
  },
  hold({ values }) {
    const size = values.diameter_mm ? `, ⌀ ${figureOf(values.diameter_mm, "mm")}` : "";
    return { x: values.x_mm, foundFirst: true, found: `${values.sort}${size}; may be used: ${values.may_be_used}` };
  },
  fitting(item) {
    const { x_mm: x, z_mm: z, width_mm: width, height_mm: height } = item.values;
    return { x, xTo: x + width, zTo: z + height, planned: `${figureOf(width)} × ${figureOf(height, "mm")}`, found: stateOf(item) };
  },
  fixing(item) {
    const { values } = item;
    const off = deviationOf(item);
    const at = off === null ? "" : ` at x ${figureOf(values.fitted_x_mm)}, z ${figureOf(values.fitted_z_mm)}: ${figureOf(roundedUp(off), "mm")} off the plan`;
    const said = at || values.state === "planned" || !values.fitted_place ? at : `; place ${values.fitted_place}`;
    return { x: values.x_mm, planned: [values.sort, values.size].filter(Boolean).join(" "), found: `${stateOf(item)}${said}` };
  },
  reading: ({ values }) => ({ x: values.x_mm, foundFirst: true, found: `${partable(figureOf(values.value, values.unit))}, ${dayOf(values.at)}` }),
  observation: ({ values }) => ({ x: values.x_mm, foundFirst: true, found: `seen ${dayOf(values.at)}` }),
};

/** A narrow column parts the words of a unit, never its symbols. */
function partable(/** @type {string} */ figure) {
  return figure.replaceAll(/\u00a0(?=[a-z]{4})/g, " ");
}

function stateOf(item) {
  const { values } = item;
  if (values.state === "planned") return "not yet";
  return `${values.state} ${dayOf(stands(item) ? values.fitted_on : values.taken_down_on)}`.trim();
}

/** What cannot be, of one item and what it belongs to. Mirrors fieldbook/model/possible.py; its tables come with the registry. */

import { fault } from "../../checks/polygon.js";
import { Refusal, figure } from "../../checks/refusal.js";

export const NOISE_MM = 1e-6;
const PLAY_MM = 5;
const FLUSH_MM = 1;
const is = (value) => value !== null && value !== undefined;
const radians = (degrees) => (degrees * Math.PI) / 180;

/** Half a place is none. */
export function* together({ rules }, kind, values) {
  for (const names of rules.together[kind.name] ?? []) {
    const empty = names.filter((name) => !is(values[name]));
    for (const name of empty.length < names.length ? empty : []) {
      const reason = `${kind.byName.get(name).label} is empty: a place needs both.`;
      yield new Refusal("missing", reason, "Give both, or neither.", { field: name });
    }
  }
}

/** What gives off nothing gives off nothing else. */
export function* gives(values) {
  const given = values.gives ?? [];
  if (!given.includes("nothing") || given.length < 2) return;
  yield new Refusal("not-a-choice", "It gives off nothing and something as well.", "Choose one.", { field: "gives", value: given });
}

/** A reading is in the unit of its quantity, and within what that can be. */
export function* reading({ rules }, { quantity, unit, value }) {
  const known = rules.measured?.[quantity];
  if (!known || !is(unit) || !is(value)) return;
  const [wanted, low, high] = known;
  if (unit !== wanted) {
    const remedy = `Enter it in ${wanted}, or correct the quantity.`;
    yield new Refusal("not-a-choice", `The unit of ${quantity} is ${wanted}, not ${unit}.`, remedy, { field: "unit", value: unit });
  } else if (!(low <= value && value <= high)) {
    const reason = `A reading of the ${quantity} lies from ${figure(low)} to ${figure(high)} ${wanted}; this is ${figure(value)}.`;
    yield new Refusal("out-of-range", reason, "Read it again, or correct the quantity.", { field: "value", value });
  }
}

/** A room's plan is an area. */
export function* plan({ plan: corners }) {
  if (!corners?.length || corners.flat().some((value) => !is(value))) return;
  const about = { field: "plan", value: corners };
  if (corners.length < 3) {
    const reason = `A room of ${corners.length} ${corners.length === 1 ? "corner" : "corners"} has no area.`;
    yield new Refusal("unsuitable-shape", reason, "Give at least three, in order.", about);
  } else if (fault(corners)) {
    const remedy = "Give the corners in order, one way round.";
    yield new Refusal("unsuitable-shape", "The plan's outline crosses itself, or has no area.", remedy, about);
  }
}

/** A leaf swings in front of the wall beside its hinge, and its band hides nothing of its sweep. */
export function* leaf(values) {
  const swung = [values.hinge_x_mm, values.hinge_y_mm, values.swing_from_deg, values.swing_to_deg];
  if (values.sort !== "leaf" || !swung.every(is) || !values.boxes?.length || !values.boxes.flat().every(is)) return;
  const [hingeX, hingeY, start, end] = swung;
  const corners = values.boxes.flatMap(([u0, u1, v0, v1]) => [[u0, v0], [u1, v0], [u1, v1], [u0, v1]]);
  const deep = inside(hingeY, start, end, corners);
  if (deep > FLUSH_MM) {
    const reason = `Swung to ${figure(end)}°, the leaf or its handle stands ${Math.round(deep)} mm inside the wall beside its hinge.`;
    const about = { field: "boxes", value: values.boxes };
    yield new Refusal("unsuitable-shape", reason, "Correct the swing, the hinge or the boxes.", about);
  }
  const [left, right] = across(start, end, corners).map((x) => hingeX + x);
  const reason = `The band is narrower than the leaf's sweep, which reaches from ${Math.round(left)} to ${Math.round(right)} mm.`;
  const remedy = "Leave the band's x empty: a leaf limits wherever it passes.";
  const { x_from_mm: from, x_to_mm: to } = values;
  if (is(from) && from > left + PLAY_MM) yield new Refusal("out-of-range", reason, remedy, { field: "x_from_mm", value: from });
  if (is(to) && to < right - PLAY_MM) yield new Refusal("out-of-range", reason, remedy, { field: "x_to_mm", value: to });
}

/** How deep the leaf stands in the wall on the other side of its hinge, swung open; 0 where that is not told. */
function inside(hingeY, start, end, corners) {
  const side = Math.cos(radians(start));
  if (hingeY < 0 || Math.abs(side) < 0.5) return 0; // hung in a reveal, or not closed along the wall
  const [cosine, sine] = [Math.cos(radians(end)), Math.sin(radians(end))];
  const turned = corners.map(([u, v]) => [u * cosine - v * sine, hingeY + u * sine + v * cosine]);
  return Math.max(0, ...turned.filter(([x]) => x * side < -FLUSH_MM).map(([, y]) => -y));
}

/** From where to where the leaf sweeps along the wall, from its hinge. */
function across(start, end, corners) {
  const [low, high] = [radians(start), radians(end)].sort((one, other) => one - other);
  const reached = corners.flatMap(([u, v]) => {
    const [radius, at] = [Math.hypot(u, v), Math.atan2(v, u)];
    const found = [radius * Math.cos(at + low), radius * Math.cos(at + high)];
    for (let turn = Math.ceil((at + low) / Math.PI); turn <= Math.floor((at + high) / Math.PI); turn += 1) {
      found.push(turn % 2 ? -radius : radius);
    }
    return found;
  });
  return [Math.min(...reached), Math.max(...reached)];
}

/** A fixing lies on the fitting it holds, and on the face of its hold and of its board or timber. */
export function* fixing({ rules }, values, fitting, hold, member) {
  if (hold && hold.face !== values.face) {
    const about = { field: "hold", value: values.hold };
    yield new Refusal("not-a-choice", "The existing hole or fixing point is on another face than the fixing.", "Choose one of this face.", about);
  }
  if (member && member.face !== values.face) {
    const about = { field: "member", value: values.member };
    yield new Refusal("not-a-choice", "The board or timber is on another face than the fixing.", "Choose one of this face.", about);
  }
  if (!fitting || fitting.face !== values.face || rules.reaching.includes(values.sort)) return;
  const { x_mm: x, z_mm: z, contact_radius_mm: radius } = values;
  const { x_mm: left, z_mm: low, width_mm: width, height_mm: height } = fitting;
  if (![x, z, radius, left, low, width, height].every(is)) return;
  const moves = fitting.moves_mm ?? 0;
  const beside = Math.max(left - moves - x, x - left - width - moves, 0);
  const off = Math.hypot(beside, Math.max(low - z, z - low - height, 0)) - radius;
  if (off <= NOISE_MM) return;
  const about = beside ? { field: "x_mm", value: x } : { field: "z_mm", value: z };
  const reason = `It lies ${figure(Math.ceil((off - NOISE_MM) * 10) / 10)} mm off the fitting it is to hold.`;
  yield new Refusal("outside-the-face", reason, "Correct its place, or the fitting's.", about);
}

/** What stands at one time, by the phases of a display. Mirrors `at_one_time` of fieldbook/findings/phase_order.py. */

import { byCounting } from "./order.js";

/** Whether two things may stand together: not where one is down by the phase in which the other goes up. */
export function atOneTime(site, one, other) {
  if (one.values.state === "fitted" && other.values.state === "fitted") return true;
  const [first, second] = [one, other].map((each) => (each.kind === "fixing" ? site.get(each.values.fitting) : each));
  return !first || !second || !(goneBefore(first, second) || goneBefore(second, first));
}

function goneBefore({ values: { until_phase: until } }, { values: { phase } }) {
  return Boolean(until && phase) && byCounting(until, phase) <= 0;
}

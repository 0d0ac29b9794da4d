/** The packers in the box: which thicknesses their sums come to, and with how few pieces. Mirrors fieldbook/checks/box.py. */

import { within } from "./limits.js";
import { ceiling, common, compare, dividedBy, minus, ratio, size } from "./ratio.js";
import { Refusal, figure } from "./refusal.js";

const STOCK_LOW_MM = 0.1;
const STOCK_HIGH_MM = 100;
const STOCK_KINDS_HIGH = 50;
const STEPS_PER_MM = 100; // thicknesses in the box are told to hundredths of a millimetre

/**
 * Every sum of some thicknesses up to a height.
 * @param {number[]} stock  thicknesses of which there are always enough, mm, 0.1 to 100 in hundredths, 1 to 50
 * @param {import("./ratio.js").Ratio} upTo  height up to which the nearest sum has to be found, mm
 * @throws {Refusal} out-of-range, not-a-number
 */
export function box(stock, upTo) {
  within("stock_mm", stock.length, 1, STOCK_KINDS_HIGH, "thicknesses");
  const steps = [...new Set(stock.map((thickness, place) => stepsOf(place, thickness)))].sort((a, b) => b - a);
  // All sums are multiples of `unit`, which keeps the table short.
  const unit = Number(steps.map(BigInt).reduce((one, other) => common(one, other)));
  const pieces = steps.map((step) => step / unit);
  const unitMm = ratio(BigInt(unit), BigInt(STEPS_PER_MM));
  const fewest = sumsUpTo(Number(ceiling(dividedBy(upTo, unitMm))) + pieces.at(-1), pieces);
  const sums = [...fewest.keys()].sort((a, b) => a - b);
  const placeOf = (thickness) => {
    const wanted = dividedBy(thickness, unitMm);
    const found = sums.findIndex((sum) => compare(ratio(BigInt(sum)), wanted) >= 0);
    return found < 0 ? sums.length : found;
  };
  const inMm = (units) => ratio(BigInt(units) * unitMm.over, unitMm.under);

  return {
    /** The thinnest sum that is not below a thickness, mm; nothing at all counts as 0. */
    thinnest: (least) => inMm(sums[placeOf(least)]),

    /**
     * Pieces, thickest first, whose sum comes nearest and is not below the least; among equally near sums the one with
     * the fewest pieces, then the thinner.
     * @returns {import("./ratio.js").Ratio[]} mm
     */
    nearest(wanted, least) {
      const first = placeOf(least);
      const above = Math.max(placeOf(wanted), first);
      const off = (sum) => size(minus(inMm(sum), wanted));
      const [best] = sums
        .slice(Math.max(above - 1, first), above + 1)
        .sort((a, b) => compare(off(a), off(b)) || fewest.get(a).count - fewest.get(b).count || a - b);
      const stack = [];
      for (let left = best; left; left -= fewest.get(left).piece) stack.push(fewest.get(left).piece);
      return stack.sort((a, b) => b - a).map(inMm);
    },
  };
}

/** For each sum that can be made: the fewest pieces, and the thickest piece of such a stack. */
function sumsUpTo(highest, pieces) {
  const fewest = new Map([[0, { count: 0, piece: 0 }]]);
  for (let total = 1; total <= highest; total += 1) {
    for (const piece of pieces) {
      const below = fewest.get(total - piece);
      const count = below && below.count + 1;
      if (below && !(fewest.get(total)?.count <= count)) fewest.set(total, { count, piece });
    }
  }
  return fewest;
}

function stepsOf(place, thickness) {
  const name = `stock_mm[${place}]`;
  const steps = within(name, thickness, STOCK_LOW_MM, STOCK_HIGH_MM, "mm") * STEPS_PER_MM;
  if (Math.abs(steps - Math.round(steps)) <= 1e-6) return Math.round(steps);
  const reason = `${name} is ${figure(thickness)} mm, finer than a hundredth of a millimetre.`;
  throw new Refusal("out-of-range", reason, "Give thicknesses to two places.", { field: name, value: thickness });
}

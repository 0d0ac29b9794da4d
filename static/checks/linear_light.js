/** Linear light and CIELAB of sRGB colours, D65, 2°. Mirrors those of fieldbook/checks/card_colour.py. */

const WHITE = [0.95047, 1, 1.08883];
const LINEAR_TO_XYZ = [[0.4124564, 0.3575761, 0.1804375], [0.2126729, 0.7151522, 0.072175], [0.0193339, 0.119192, 0.9503041]];
const XYZ_TO_LINEAR = [[3.2404542, -1.5371385, -0.4985314], [-0.969266, 1.8760108, 0.041556], [0.0556434, -0.2040259, 1.0572252]];
const BEND = 6 / 29;

/** @type {(rows: number[][], of: number[]) => number[]} */
export const times = (rows, of) => rows.map((row) => row.reduce((sum, entry, at) => sum + entry * of[at], 0));

/** @param {number[]} rgb  0 to 255 @returns {number[]} shares of full scale */
export function lightOf(rgb) {
  return rgb.map((value) => value / 255).map((share) => (share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4));
}

/** @param {number[]} light  shares of full scale @returns {number[]} L*, a*, b* */
export function labOfLight(light) {
  const [x, y, z] = times(LINEAR_TO_XYZ, light).map((part, at) => root(part / WHITE[at]));
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

/** Beyond 0 to 1 where sRGB has no such colour. @param {number[]} lab @returns {number[]} shares of full scale */
export function lightOfLab([lightness, a, b]) {
  const y = (lightness + 16) / 116;
  return times(XYZ_TO_LINEAR, [y + a / 500, y, y - b / 200].map((part, at) => cube(part) * WHITE[at]));
}

const root = (part) => (part > BEND ** 3 ? Math.cbrt(part) : part / (3 * BEND ** 2) + 4 / 29);
const cube = (part) => (part > BEND ? part ** 3 : 3 * BEND ** 2 * (part - 4 / 29));

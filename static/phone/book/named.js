/** What hazards the name of a layer or board says are there. Mirrors fieldbook/findings/named.py. */

const LETTERS = { ł: "l", ø: "o", đ: "d", ß: "ss", æ: "ae", œ: "oe", ı: "i" };

// Lead as a metal, paint, and the pigments made of lead that have names of their own.
const LEAD = "(lead|blei\\w*|plomb|piombo|plomo|chumbo|lood\\w*|bly\\w*|olow\\w*|olov\\w*|lyijy\\w*)";
const PAINT = "(farbe|anstrich|lackier|peinture|pittura|vernice|pintura|tinta|verf|maling|malning|farg|farba|barva|maali)";
const PIGMENT = [
  "\\b(red|white)\\W+lead\\b|\\blead\\W+(white|red)\\b|mennige|minium|\\bminio\\b|menie\\b|monj[ae]\\b|bleiwei|loodwit",
  "blyhvi|blyvi|biacca|\\bcerus[ae]\\b|blanc de plomb|albayalde|alvaiade|zarcao|\\bsurik",
].join("|");
const LEADEN = `${PIGMENT}|\\b${LEAD}(\\W+\\w+){0,2}\\W+(paint|primer|\\w*${PAINT})|\\b(blei|lood|bly|lyijy)\\w*${PAINT}`;
// A name that says it has none, just there; a "no" elsewhere in it says nothing of that.
const NONE_OF_IT = new RegExp(
  `\\b(non|no|not|without|free of|sans|sin|sem|senza|ohne|zonder|uten|uden|utan|bez)\\W+(a[sz]bes[tz]\\w*|amiant\\w*|${LEAD}\\b)` +
    "|\\b(a[sz]bes[tz]\\w{0,2}|lead|blei|lood|bly)\\W*(free|frei(e[mnrs]?)?|vrij|fri)\\b",
  "g",
);
// Asbestos in most languages of Europe; AIB is the trade's short name of asbestos insulating board.
const HAZARDS = new Map([
  ["asbestos", /a[sz]bes[tz]|amiant|amyant|αμιαντ|а[сз]бест|\baib\b/],
  ["old lead paint", new RegExp(`${LEADEN}|${PAINT}\\w*(\\W+\\w+){0,2}\\W+(blei|plomb|piombo|plomo|chumbo|lood|bly|olow|olov)`)],
]);

/** The hazards that a name says are there. @returns {string[]} */
export function hazardsIn(/** @type {string} */ name) {
  const rest = plain(name).replace(NONE_OF_IT, "");
  return [...HAZARDS].filter(([, said]) => said.test(rest)).map(([hazard]) => hazard);
}

/** A name in small letters without accents, as the lists here have theirs. */
function plain(/** @type {string} */ name) {
  return name.toLowerCase().normalize("NFD").replace(/\p{M}/gu, "").replace(/[łøđßæœı]/g, (letter) => LETTERS[letter]);
}

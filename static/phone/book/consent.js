/** Who agreed to what: whether a fixing or a fitting may do to the fabric what it does. Mirrors fieldbook/findings/consent.py. */

import { meets } from "../../checks/clearance.js";
import { notKnown, verdict } from "../../checks/verdict.js";
import { GIVEN, givenOff, joinsOurs, makesHole } from "./acts.js";
import { saidLaterYetOld } from "./ages.js";
import { need } from "./asking.js";
import { comingOut } from "./coming_out.js";
import { changesOf, needDepth } from "./gone_past.js";
import { fittingStretch, placeOf } from "./places.js";
import { BY_HOLD, givenBy, holdHere, lapsed, mayBeUsed, rulingTo, saidBy, unsaid, yesNaming } from "./rulings.js";
import { calledOf } from "./site.js";
import { dayOf, joined } from "./wording.js";

const SOURCE = "Agreements entered in this book; place within 5 mm where none says otherwise: common practice, no source";
const OWN_WORK = "It joins our own work; the fabric is not touched.";
const ONLY_FIXINGS = "Only its fixings touch the fabric; they are asked about by themselves.";
const LATER_WORK = "It touches later work, about which the keeper need not be asked.";
const WORDS = ["refused", "not agreed", "not known", "agreed", "does not apply"]; // the worst first

/** Whether the keeper has agreed to a fixing, in the state it is in now. */
export function consentOfFixing(asked, fixing) {
  const { site } = asked;
  if (joinsOurs(asked, fixing)) return outcome("does not apply", OWN_WORK, null, "");
  const fitting = site.get(fixing.values.fitting);
  const things = fitting ? [fixing, fitting] : [fixing];
  const here = ofFixing(asked, fixing, things);
  return here.verdict.word === "refused" ? here : [here, ...behind(asked, fixing, things)].reduce(worse);
}

/** What it does on the other side of the wall, where it comes out there. */
function* behind(asked, fixing, things) {
  const out = comingOut(asked, fixing, things);
  if (!out) return;
  const { face, barred, rulings, lacking, old } = out;
  if (barred) yield outcome("refused", `${calledOf(asked.registry, barred)} may not be used${saidBy(barred)}.`, barred);
  if (rulings.size) yield worstOf(asked, fixing, rulings, []);
  if (!lacking.length || !(old || need(asked, asked.site.item, "asks_about_later_work"))) return;
  const fabric = old ? "old fabric" : "later work, about which the keeper is asked,";
  const where = `It comes out on ${calledOf(asked.registry, face)}, where nobody has agreed to ${joined(lacking)}`;
  yield outcome("not agreed", `${where}; it is ${fabric} there. Ask the keeper.`, null);
}

function worse(one, other) {
  return WORDS.indexOf(other.verdict.word) < WORDS.indexOf(one.verdict.word) ? other : one;
}

function ofFixing(asked, fixing, things) {
  const { registry, site, today } = asked;
  const acts = actsOf(asked, fixing);
  const { rulings, lacking } = forEach(asked, things, acts);
  const no = [...rulings.keys()].find(({ values }) => values.answer === "no");
  if (no) return judged(asked, no, fixing, acts);
  const hold = site.get(fixing.values.hold);
  const there = holdHere({ site, face: site.get(fixing.values.face), at: /** @type {[number, number]} */ (placeOf(fixing)) }); // entered as used or not
  const used = [hold, there].find((one) => one?.values.may_be_used === "no");
  if (used) return outcome("refused", `${calledOf(registry, used)} may not be used${saidBy(used)}.`, used);
  if (rulingTo(asked, things, "drilling")?.values.answer === "no") needDepth(asked, fixing);
  if (!hold || !mayBeUsed(hold, today) || !lacking.some((act) => BY_HOLD.includes(act))) return byActs(asked, things, rulings, lacking);
  needDepth(asked, fixing);
  return byHold(asked, things, rulings, lacking.filter((act) => !BY_HOLD.includes(act)), hold);
}

/** Whether the keeper has agreed that a fitting itself bears on the face, or lights or warms it. */
export function consentOfFitting(asked, fitting) {
  const [bears, gives] = [["contact", "load"], givenOff(fitting)];
  const named = refusing(asked, fitting, [...bears, ...gives]).find(({ values }) => values.items?.includes(fitting.id));
  if (named) return judged(asked, named, fitting, bears);
  if (refusing(asked, fitting, GIVEN).length) need(asked, fitting, "gives");
  const touches = need(asked, fitting, "touches_face");
  const [no] = refusing(asked, fitting, touches ? [...bears, ...gives] : gives);
  if (no) return judged(asked, no, fitting, bears);
  if (!touches) return outcome("does not apply", ONLY_FIXINGS, null, "");
  const { rulings, lacking } = forEach(asked, [fitting], borne(fitting));
  if ([...rulings.keys()].some(({ values }) => values.acts?.length)) need(asked, fitting, "gives"); // a yes may be to acts alone; what it gives off is one
  return byActs(asked, [fitting], rulings, lacking);
}

/** The noes that rule one of these acts of a fitting. */
function refusing(asked, fitting, acts) {
  return acts.toSorted().map((act) => rulingTo(asked, [fitting], act)).filter((one) => one?.values.answer === "no");
}

/** What a yes to an existing hold, and agreements about what it does besides, come to. */
function byHold(asked, things, rulings, lacking, hold) {
  const may = `${calledOf(asked.registry, hold)} may be used again${saidBy(hold)}`;
  if (lacking.length) return outcome("not agreed", `${may}, without ${joined(lacking)}. Ask.`, hold);
  return worstOf(asked, things[0], rulings, [outcome("agreed", `${may}.`, hold)]);
}

/** What agreements about a thing or its place, each to some of what it does, come to. */
function byActs(asked, things, rulings, lacking) {
  if (!lacking.length) return worstOf(asked, things[0], rulings, []);
  const some = yesNaming(asked, things); // which says yes to other work on it
  return some ? judged(asked, some, things[0], lacking) : unasked(asked, things[0], lacking);
}

/** The agreements that rule these acts of a thing, each with its acts, and the acts of which none is. */
function forEach(asked, things, acts) {
  const [rulings, lacking] = [new Map(), []];
  for (const act of acts.toSorted()) {
    const ruling = rulingTo(asked, things, act);
    if (ruling) rulings.set(ruling, [...(rulings.get(ruling) ?? []), act]);
    else lacking.push(act);
  }
  return { rulings, lacking };
}

/** The worst of what agreements come to, each for its acts; where all are agreed, all of them are told. */
function worstOf(asked, thing, rulings, others) {
  const found = [...others, ...[...rulings].map(([ruling, acts]) => judged(asked, ruling, thing, acts))];
  const worst = found.reduce(worse);
  if (worst.verdict.word !== "agreed") return worst;
  return { ...worst, verdict: { ...worst.verdict, sentence: found.map(({ verdict: one }) => one.sentence).join(" ") } };
}

/** What a fixing does to the fabric, in the words an agreement is about. */
function actsOf(asked, fixing) {
  const glued = fixing.values.sort === "adhesive pad" || need(asked, fixing, "adhesive");
  return ["contact", "load", ...(makesHole(asked.site, fixing) ? ["drilling"] : []), ...(glued ? ["adhesive"] : [])];
}

/** What a fitting that bears on its face does to it, and what it gives off, in the words an agreement is about. */
function borne({ values }) {
  return ["contact", "load", ...(values.gives ?? []).filter((one) => one !== "nothing")];
}

/** What an agreement that is about a thing comes to for it today; `acts`: what of all it does is held to it. */
function judged(asked, ruling, thing, acts) {
  const { answer, words, conditions, until } = ruling.values;
  const by = givenBy(ruling);
  if (answer === "no") return outcome("refused", `No: ${by}. ${words}`, ruling);
  const why = lapsed(ruling, asked.today);
  if (why) return outcome("not agreed", `${by}${why} Ask again.`, ruling);
  const changes = changesOf(asked, ruling, thing, acts);
  if (changes.length) return outcome("not agreed", `It has changed since ${by}: ${changes.join("; ")}. Ask again.`, ruling);
  if (unsaid(ruling)) return { against: ruling, verdict: notKnown("consent", ["conditions_met"], `${by}${unsaid(ruling)}`, SOURCE) };
  const met = conditions ? ` On condition: ${conditions.replace(/\.+$/, "")}; met.` : "";
  return outcome("agreed", `Agreed: ${by}.${met}${until ? ` Until ${dayOf(until)}.` : ""}`, ruling);
}

/** Nobody was asked: old fabric is not agreed, later work only where the keeper wants to be asked. */
function unasked(asked, thing, lacking) {
  const { registry, site } = asked;
  const face = site.get(thing.values.face);
  const bears = thing.kind === "fitting";
  const old = bears ? surfaceIsOld(asked, face, thing) : thing.values.fabric === "old fabric";
  const why = !bears && saidLaterYetOld(asked, thing) ? `It is said to go into later work, where ${calledOf(registry, face)} is old. ` : "";
  if (!why && !old && !need(asked, site.item, "asks_about_later_work")) return outcome("does not apply", LATER_WORK, null, "");
  const fabric = why || old ? "old fabric" : "later work, about which the keeper is asked";
  const noted = thing.values.consent ? ` “${thing.values.consent}” stands with it as free text, which no one signed.` : "";
  return outcome("not agreed", `${why}Nobody has agreed to ${joined(lacking)}; it is ${fabric}. Ask the keeper.${noted}`, null);
}

/** Whether a fitting lies on old fabric: on boards of the surface, or on the face, unless entered as later work. */
function surfaceIsOld(asked, face, fitting) {
  if (face.values.layers?.[0]?.[2] !== "later") return true;
  const part = fittingStretch(fitting);
  const boards = asked.site.of(face, "member").filter((one) => one.values.behind_mm === 0 && meets(fittingStretch(one), part));
  return boards.some((one) => need(asked, one, "age") === "old");
}

function outcome(word, sentence, against, source = SOURCE) {
  return { against, verdict: verdict("consent", word, [null, null, null], sentence, source) };
}

/** Who agreed to what: whether a fixing or a fitting may do to the fabric what it does. Mirrors fieldbook/findings/consent.py. */

import { figure } from "../../checks/refusal.js";
import { notKnown, verdict } from "../../checks/verdict.js";
import { GIVEN, givenOff, makesHole, mayDeepen } from "./acts.js";
import { saidLaterYetOld } from "./ages.js";
import { need } from "./asking.js";
import { known, placeOf } from "./places.js";
import { BY_HOLD, givenBy, holesUnder, isOfPlace, lapsed, mayBeUsed, rulingTo, saidBy, unsaid, yesNaming } from "./rulings.js";
import { calledOf } from "./site.js";
import { dayOf, joined } from "./wording.js";

const SOURCE = "Agreements entered in this book; place within 5 mm where none says otherwise: common practice, no source";
const PLAY_MM = 5;
const OWN_WORK = "It joins our own work; the fabric is not touched.";
const ONLY_FIXINGS = "Only its fixings touch the fabric; they are asked about by themselves.";
const LATER_WORK = "It touches later work, about which the keeper need not be asked.";
const TRACES = ["none", "a mark that cleans off", "an old hole used again", "a new hole in later work", "a new hole in old fabric"];
const WORDS = ["refused", "not agreed", "not known", "agreed"]; // the worst first

/** Whether the keeper has agreed to a fixing, in the state it is in now. */
export function consentOfFixing(asked, fixing) {
  const { registry, site, today } = asked;
  if (fixing.values.fabric === "another fitting") return outcome("does not apply", OWN_WORK, null, "");
  const acts = actsOf(asked, fixing);
  const fitting = site.get(fixing.values.fitting);
  const things = fitting ? [fixing, fitting] : [fixing];
  const { rulings, lacking } = forEach(asked, things, acts);
  const no = [...rulings.keys()].find(({ values }) => values.answer === "no");
  if (no) return judged(asked, no, fixing, acts);
  const hold = site.get(fixing.values.hold);
  if (hold?.values.may_be_used === "no") return outcome("refused", `${calledOf(registry, hold)} may not be used${saidBy(hold)}.`, hold);
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
  const rank = ({ verdict: one }) => WORDS.indexOf(one.word);
  const worst = found.reduce((least, one) => (rank(one) < rank(least) ? one : least));
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

/** How a thing has gone past what was agreed, in words. */
function changesOf(asked, ruling, thing, done) {
  const { acts } = ruling.values;
  const about = isOfPlace(asked.site, ruling, thing);
  const then = about ? null : asked.site.then(ruling, thing);
  if (!about && !then) return ["it was not there yet"];
  const more = acts?.length ? done.filter((act) => !acts.includes(act)).sort() : [];
  return [
    ...(then ? moved(ruling, thing, then) : []),
    ...(more.length ? [`nothing was agreed of ${joined(more)}`] : []),
    ...(thing.kind === "fixing" ? doneToFabric(asked, ruling, thing, then, done) : []),
  ];
}

function* moved(ruling, thing, then) {
  const play = ruling.values.play_mm ?? PLAY_MM;
  if (!known(then.x_mm)) return;
  if (then.face !== thing.values.face) yield "it is on another face";
  const place = ({ values }) => (thing.kind === "fixing" ? placeOf({ values }) : [values.x_mm, values.z_mm]);
  const [now, before] = [place(thing), place({ values: then })];
  for (const [at, axis] of ["x", "z"].entries()) {
    if (Math.abs(now[at] - before[at]) > play) yield `${axis} is ${figure(now[at])} mm, not ${figure(before[at])} ± ${figure(play)} mm`;
  }
  for (const [name, words] of thing.kind === "fitting" ? [["width_mm", "width"], ["height_mm", "height"]] : []) {
    if (thing.values[name] > then[name] + play) yield `its ${words} is ${figure(thing.values[name])} mm, not ${figure(then[name])}`;
  }
  yield* thing.kind === "fixing" ? touches(thing.values, then, play) : bears(thing.values, then);
}

/** How what touches the fabric has changed. */
function* touches(now, then, play) {
  const { sort, lining, contact_radius_mm: reached } = then;
  if (known(sort) && now.sort !== sort) yield `its type is ${now.sort}, not ${sort}`;
  if (known(reached) && now.contact_radius_mm > reached + play) yield `it reaches ${figure(now.contact_radius_mm)} mm round its middle, not ${figure(reached)}`;
  if (known(lining) && (now.lining ?? null) !== lining) yield `its lining is ${now.lining ?? "not entered"}, not ${lining}`;
}

/** How what a fitting does to the face by itself has changed. */
function* bears(now, then) {
  if (known(then.touches_face) && !then.touches_face && now.touches_face) yield "it touches the wall itself now";
  const more = known(then.gives) ? (now.gives ?? []).filter((one) => one !== "nothing" && !then.gives.includes(one)).sort() : [];
  if (more.length) yield `it gives off ${joined(more)} now`;
}

function* doneToFabric(asked, ruling, fixing, then, done) {
  needDepth(asked, fixing);
  const { holes } = ruling.values;
  if (done.includes("drilling")) {
    const depth = need(asked, fixing, "penetration_mm");
    const most = ruling.values.depth_mm ?? then?.penetration_mm ?? null;
    if (most === null) yield `how deep it may go is not agreed; it goes ${figure(depth)} mm deep`;
    else if (depth > most) yield `it goes ${figure(depth)} mm deep, not ${figure(most)}`;
    if (then && (then.hole ?? null) !== fixing.values.hole) yield "it needs another hole now";
    const drilled = known(holes) ? holesUnder(asked, ruling).length : 0;
    if (known(holes) && drilled > holes) yield `${drilled} new holes are planned or made, not ${holes}`;
  }
  const worst = ruling.values.trace ?? then?.trace ?? null;
  if (worst !== null && TRACES.indexOf(fixing.values.trace) > TRACES.indexOf(worst)) yield `it leaves ${fixing.values.trace}, not ${worst}`;
  if (done.includes("adhesive") && then && !ruling.values.acts?.length && !then.adhesive) yield "it is glued now";
}

/** Ask how deep it goes where a hole that is there already may have to be made deeper. */
function needDepth(asked, fixing) {
  if (mayDeepen(asked.site, fixing)) need(asked, fixing, "penetration_mm");
}

/** Nobody was asked: old fabric is not agreed, later work only where the keeper wants to be asked. */
function unasked(asked, thing, lacking) {
  const { registry, site } = asked;
  const face = site.get(thing.values.face);
  const bears = thing.kind === "fitting";
  const old = bears ? face.values.layers?.[0]?.[2] !== "later" : thing.values.fabric === "old fabric";
  const why = !bears && saidLaterYetOld(asked, thing) ? `It is said to go into later work, where ${calledOf(registry, face)} is old. ` : "";
  if (!why && !old && !need(asked, site.item, "asks_about_later_work")) return outcome("does not apply", LATER_WORK, null, "");
  const fabric = why || old ? "old fabric" : "later work, about which the keeper is asked";
  const noted = thing.values.consent ? ` “${thing.values.consent}” stands with it as free text, which no one signed.` : "";
  return outcome("not agreed", `${why}Nobody has agreed to ${joined(lacking)}; it is ${fabric}. Ask the keeper.${noted}`, null);
}

function outcome(word, sentence, against, source = SOURCE) {
  return { against, verdict: verdict("consent", word, [null, null, null], sentence, source) };
}

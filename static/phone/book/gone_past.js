/** How a thing has gone past what a yes to it was given to. Mirrors fieldbook/findings/gone_past.py. */

import { figure } from "../../checks/refusal.js";
import { mayDeepen } from "./acts.js";
import { NotEntered, need } from "./asking.js";
import { heavier } from "./heavier.js";
import { known, placeOf } from "./places.js";
import { pastAgreed } from "./holes_agreed.js";
import { isOfPlace } from "./rulings.js";
import { joined } from "./wording.js";

const PLAY_MM = 5;
const TRACES = ["none", "a mark that cleans off", "an old hole used again", "a new hole in later work", "a new hole in old fabric"];

/** How a thing has gone past what was agreed, in words. */
export function changesOf(asked, ruling, thing, done) {
  const { acts } = ruling.values;
  const about = isOfPlace(asked.site, ruling, thing);
  const then = about ? null : asked.site.then(ruling, thing);
  if (!about && !then) return ["it was not there yet"];
  const more = acts?.length ? done.filter((act) => !acts.includes(act)).sort() : [];
  const told = [
    ...(then ? moved(ruling, thing, then) : []),
    ...(more.length ? [`nothing was agreed of ${joined(more)}`] : []),
    ...(thing.kind === "fixing" ? doneToFabric(asked, ruling, thing, then, done) : []),
  ];
  if (!then || !done.includes("load")) return told;
  try {
    return [...told, ...heavier(asked, ruling, thing)];
  } catch (error) {
    if (!told.length || !(error instanceof NotEntered)) throw error;
    return told; // it is to be asked about again, whatever it weighs
  }
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
    const drilled = known(holes) ? pastAgreed(asked, ruling) : 0;
    if (drilled) yield `${drilled} new holes are planned or made, not ${holes}`;
  }
  const worst = ruling.values.trace ?? then?.trace ?? null;
  if (worst !== null && TRACES.indexOf(fixing.values.trace) > TRACES.indexOf(worst)) yield `it leaves ${fixing.values.trace}, not ${worst}`;
  if (done.includes("adhesive") && then && !ruling.values.acts?.length && !then.adhesive) yield "it is glued now";
}

/** Ask how deep it goes where a hole that is there already may have to be made deeper. */
export function needDepth(asked, fixing) {
  if (mayDeepen(asked.site, fixing)) need(asked, fixing, "penetration_mm");
}

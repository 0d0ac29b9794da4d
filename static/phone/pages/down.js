/** Taking down, stage by stage: what may come off now, what waits and for what, and what is off. */

import { calledOf, stands } from "../book/site.js";
import { stages } from "../book/taking_down.js";
import { countOf } from "../book/wording.js";
import { fill, filled } from "./markup.js";
import { lineOf, none } from "./parts.js";

export function downPage(context) {
  const { registry, notebook } = context;
  const { site } = notebook;
  if (!site) return null;
  const all = stages(site).filter(({ fitting }) => fitting.values.state === "fitted");
  const free = ({ before }) => !before.some(({ values }) => values.state === "fitted");
  const off = site.all("fitting").filter((one) => !stands(one));
  const line = ({ fitting, stage, before }) => lineOf(context, fitting, [stage ? `stage ${stage}` : "", before.length ? `after ${before.map((one) => calledOf(registry, one)).join(", ")}` : ""].filter(Boolean).join(" · "), `#/off/${fitting.id}`);
  const [now, later] = [all.filter(free), all.filter((one) => !free(one))];
  const body = filled("down-page", {
    said: all.length ? `${countOf(all.length, "fitting")} up. What hangs on a thing or covers it comes off before it.` : `Nothing is up ${off.length ? "any more" : "yet"}.`,
    now: now.length ? now.map(line) : [none("Nothing.")],
  });
  part(body, "later", later.map(line));
  part(body, "off", off.map((one) => lineOf(context, one, one.values.went_to ?? "where it went is not entered", `#/item/${one.id}`)));
  const signed = new Set(site.all("statement").flatMap(({ values }) => values.items ?? []));
  const unsigned = off.some(({ id }) => !signed.has(id));
  return { title: "Taking down", live: () => true, body, actions: unsigned ? [{ words: "As left: sign", href: "#/left", main: true }] : [{ words: "The site", href: `#/site/${site.item.id}` }] };
}

function part(body, name, lines) {
  fill(body, lines.length ? { [name]: lines } : { [`${name}-part`]: null });
}

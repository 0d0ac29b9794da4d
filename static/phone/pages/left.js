/** The as-left statement: what was taken down, expected and found, signed by whoever took it down and whoever takes it over. */

import { Refusal } from "../../checks/refusal.js";
import { nextMark } from "../book/next_mark.js";
import { today } from "../book/moments.js";
import { calledOf, stands, titleOf } from "../book/site.js";
import { notSaid, wasIn } from "../book/taking_down.js";
import { entered } from "../forms/entering.js";
import { keepTyped } from "../forms/keeping.js";
import { pad } from "../forms/pad.js";
import { once } from "../forms/saving.js";
import { fill, filled, slot, wire } from "./markup.js";

export async function leftPage(context) {
  const { registry, notebook } = context;
  const { site } = notebook;
  if (!site) return null;
  const signed = new Set(site.all("statement").flatMap(({ values }) => values.items ?? []));
  const down = site.all("fitting").filter((one) => !stands(one) && !signed.has(one.id));
  const body = filled("left-page", { things: down.map((one) => filled("left-thing", { title: titleOf(registry, one), traces: tracesOf(context, one) })) });
  if (!down.length) return { title: "As left", body: nothingLeft(site), actions: [{ words: "Taking down", href: "#/down" }] };
  fill(body, { lacking: lackingOf(context, down) || null });
  slot(body, "fitter").value = down[0]?.values.taken_down_by ?? site.item.values.fitter ?? "";
  slot(body, "keeper").value = site.item.values.keeper ?? "";
  const drawn = { fitter: [], keeper: [] };
  const kept = await keepTyped(context, body, { key: `left ${down.map(({ id }) => id).join(" ")}`, title: "As left: sign" }, drawn);
  for (const who of ["fitter", "keeper"]) slot(body, `${who}-pad`).append(padFor(who, drawn, kept));
  const save = once(() => saved(context, body, down, drawn, kept));
  return { title: "As left", body, writing: true, actions: [{ words: "Taking down", href: "#/down" }, { words: "Save", main: true, act: save }] };
}

/** Where nothing is to be signed for, nobody is asked to sign. */
function nothingLeft(site) {
  const signed = site.all("statement").length;
  return filled("nothing-to-do", { title: "As left", words: signed ? "All that was taken down is signed for." : "Nothing was taken down yet." });
}

/** What nobody has said of the places that are signed for; "" where all is entered. */
function lackingOf({ registry, notebook }, down) {
  const lacking = notSaid(notebook.site, down).map((one) => calledOf(registry, one));
  return lacking.length ? `What was found at ${lacking.join(", ")} is not entered.` : "";
}

function tracesOf({ registry, notebook }, fitting) {
  const left = notebook.site.of(fitting, "fixing").filter((one) => one.values.trace_found || wasIn(one)); // no other was ever in
  return left.map((one) => {
    const { trace, trace_found: found, made_good: good, left_behind: behind } = one.values;
    const words = [`expected ${trace}`, found ? `found ${found}` : "what was found is not entered", good && `made good: ${good}`, behind && `left: ${behind}`];
    return filled("left-trace", { words: `${calledOf(registry, one)}: ${words.filter(Boolean).join("; ")}` });
  });
}

function padFor(who, drawn, kept) {
  const part = filled("left-pad", { whose: who === "fitter" ? "Whoever took it down signs with a finger." : "Whoever takes it over signs with a finger." });
  slot(part, "area").setAttribute("aria-label", `Signature of the ${who}`);
  const area = pad(slot(part, "area"), drawn[who], (rows) => {
    drawn[who] = rows;
    kept.keep();
  });
  wire(part, { wipe: () => area.wipe() });
  return part;
}

async function saved(context, body, down, drawn, kept) {
  const { registry, notebook } = context;
  if (!drawn.fitter.length || !drawn.keeper.length) {
    context.say("Both sign.");
    return false;
  }
  const lacking = lackingOf(context, down);
  if (lacking && !slot(body, "besides").value.trim()) {
    context.fail(new Refusal("missing", lacking, "Enter it first, or say under “Remarks” why it is signed without.", { field: "words" }));
    return false;
  }
  const kind = registry.kinds.get("statement");
  const values = { site: notebook.site.item.id, items: down.map(({ id }) => id), on: today(), fitter: slot(body, "fitter").value, keeper: slot(body, "keeper").value, words: slot(body, "besides").value, fitter_signature: drawn.fitter, signature: drawn.keeper };
  const ids = await entered(context, [{ kind: "statement", values: { reference: nextMark(kind, notebook.site, values) || "L1", ...values } }], "Signed by both. Saved on this phone.", kept);
  if (!ids) return false;
  await context.go(`#/item/${ids[0]}`, { replace: true });
  return true;
}

/** A photograph the laptop refused: reduced and sent, saved out of the app, or given up. */

import { fieldsOf, reduced } from "../camera.js";
import { momentInWords } from "../book/wording.js";
import { dropPicture, originalOf } from "../store/photographs.js";
import { handOver } from "../sync/carried.js";
import { filled, slot, wire } from "./markup.js";

export function refusedPicture(context, picture, reasons) {
  const { sha256, at } = picture;
  const line = filled("refused-picture", { title: `Photograph, ${momentInWords(at)}`, reasons });
  slot(line, "show").href = `#/picture/${itemsOf(context, sha256)[0]?.id ?? ""}`;
  slot(line, "show").hidden = !itemsOf(context, sha256).length;
  const told = (work) => () => work(context, picture).catch(context.fail);
  wire(line, { reduce: told(reduceAndSend), "save-out": told(saveOut), "give-up-picture": told(giveUp) });
  return line;
}

function itemsOf({ notebook }, sha256) {
  return [...notebook.items.values()].filter(({ kind, values }) => kind === "photograph" && values.sha256 === sha256);
}

/** The smaller picture takes the place of the one refused wherever that was entered. */
async function reduceAndSend(context, { sha256 }) {
  const picture = await reduced(sha256);
  const changes = itemsOf(context, sha256).map(({ id }) => ({ kind: "photograph", item: id, set: fieldsOf(picture) }));
  await context.notebook.write(changes, { picture: { ...picture, state: "waiting" } });
  await dropPicture(sha256);
  return done(context, "Reduced; it is sent next time.");
}

async function saveOut(context, { sha256, mediaType }) {
  const bytes = await originalOf(sha256);
  if (!bytes) return context.say("Its bytes are no longer on this phone.");
  return handOver(new File([bytes], `${sha256.slice(0, 12)}.${mediaType.split("/")[1]}`, { type: mediaType }));
}

async function giveUp(context, { sha256 }) {
  if (!confirm("Give this photograph up? Its picture will be gone from this phone, and what was entered about it is withdrawn.")) return undefined;
  const changes = itemsOf(context, sha256).map(({ id }) => ({ kind: "photograph", item: id, withdraw: true }));
  if (changes.length) await context.notebook.write(changes);
  await dropPicture(sha256);
  return done(context, "Given up.");
}

async function done(context, words) {
  await context.notebook.readStored();
  context.say(words);
  context.runner.nudge();
  return context.refresh();
}

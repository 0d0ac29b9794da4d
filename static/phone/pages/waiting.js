/** What waits on this phone, what was refused, and the ways to send it. */

import { Refusal } from "../../checks/refusal.js";
import { momentOf } from "../book/moments.js";
import { countOf, momentInWords, sizeOf } from "../book/wording.js";
import { titleOf } from "../book/site.js";
import { isUnderstood } from "../book/versions.js";
import { giveUp } from "../store/ledger.js";
import { handOver, takeIn, writeFiles } from "../sync/carried.js";
import { fill, filled, slot, tell, wire } from "./markup.js";
import { none, titled } from "./parts.js";
import { refusedPicture } from "./refused_picture.js";
import { waitingOf } from "./today.js";

export function waitingPage(context) {
  const { notebook, runner } = context;
  const { outbox, shelf, pictures } = notebook;
  const refused = pictures.filter(({ state }) => state === "refused");
  const waiting = pictures.filter(({ state }) => state === "waiting");
  const sum = waitingOf(notebook);
  const body = filled("waiting-page", {
    sum: sum.words,
    entries: outbox.length ? outbox.map((row) => entryLine(context, row)) : [none("None.")],
    pictures: waiting.length ? waiting.map((picture) => pictureLine(context, picture)) : [none("None.")],
  });
  const shelved = [...shelf.map((row) => shelvedLine(context, row)), ...refused.map((picture) => refusedPicture(context, picture, (picture.findings ?? []).map(reasonLine)))];
  fill(body, shelved.length ? { shelf: shelved } : { "shelf-part": null });
  showProgress(body, runner.progress, sum);
  wire(body, { carry: () => carry(context, body), "give-up": (_, pressed) => letGo(context, pressed) });
  slot(body, "carried").addEventListener("change", (event) => take(context, body, event.target));
  return {
    title: "Not sent yet",
    // Not while a file is being written, or what was written is still to be handed over.
    live: () => !slot(body, "carried-said").textContent && !slot(body, "parts").childElementCount,
    body,
    actions: [
      { words: "This phone", href: "#/storage" },
      { words: "Send now", main: true, act: () => runner.run({ byHand: true }) },
    ],
    progress: (progress) => showProgress(body, progress, waitingOf(notebook)),
  };
}

function showProgress(body, progress, { oldest }) {
  const holder = slot(body, "progress");
  holder.hidden = !progress.running;
  slot(body, "progress-words").textContent = progress.words;
  const bar = slot(body, "bar");
  if (progress.share === null) bar.removeAttribute("value");
  else bar.value = progress.share;
  const contact = progress.problem
    ? `${progress.problem} Tried again by itself.`
    : progress.at
      ? `The laptop answered at ${momentOf(progress.at).slice(11, 16)}.`
      : "The laptop has not answered since the app was opened.";
  slot(body, "contact").textContent = oldest ? `${contact} The oldest is from ${momentInWords(oldest)}.` : contact;
}

function entryLine(context, { n, entry, findings, returned }) {
  const { registry, notebook } = context;
  const kind = registry.kinds.get(entry.kind);
  const item = notebook.items.get(entry.item);
  const words = "withdraw" in entry ? (entry.withdraw ? "withdrawn" : "brought back") : countOf(Object.keys(entry.set).length, "field");
  const held = isUnderstood(registry, entry) ? "" : " · made with a newer version of this app, and sent once this phone has it";
  const whose = returned ? " · made on another device; the laptop may have lost it, and is given it back" : "";
  const why = held || (findings?.length ? ` · ${findings[0].reason}` : "");
  const line = filled("line", { mark: kind?.label ?? entry.kind, name: item ? titleOf(registry, item) : "", aside: `${words} · ${momentInWords(entry.at)}${whose}${why}` });
  slot(line, "link").href = findings?.length && !held && entry.set ? `#/mend/${n}` : `#/item/${entry.item}`;
  return line;
}

function pictureLine(context, { sha256, size, received, at }) {
  const item = [...context.notebook.items.values()].find(({ kind, values }) => kind === "photograph" && values.sha256 === sha256);
  const progress = received ? `${sizeOf(received)} of ${sizeOf(size)} sent` : sizeOf(size);
  const line = filled("line", { mark: "", name: item ? titleOf(context.registry, item) : "Photograph", aside: `${progress} · ${momentInWords(at)}` });
  if (item) slot(line, "link").href = `#/picture/${item.id}`;
  return line;
}

function shelvedLine(context, { n, entry, findings }) {
  const label = context.registry.kinds.get(entry.kind)?.label ?? entry.kind;
  const name = entry.set?.mark ?? entry.set?.name ?? titled(context)(entry.item);
  const line = filled("shelved", { title: `${label} ${name}`, reasons: findings.map(reasonLine) });
  slot(line, "mend").href = `#/mend/${n}`;
  slot(line, "give-up").dataset.place = n;
  return line;
}

function reasonLine({ reason, remedy }) {
  const line = document.createElement("li");
  tell(line, `${reason} ${remedy}`);
  return line;
}

async function letGo(context, pressed) {
  if (!confirm("Give this entry up? It was never in the book, and will be gone from this phone.")) return;
  await giveUp(Number(pressed.dataset.place));
  await context.notebook.load();
  context.refresh();
}

async function carry(context, body) {
  const said = slot(body, "carried-said");
  said.textContent = "Writing the file…";
  try {
    const files = await writeFiles(context.registry, (done, total) => (said.textContent = `Writing photograph ${done + 1} of ${total}…`));
    slot(body, "parts").replaceChildren(...files.map((file, at) => partLine(context, said, file, at)));
    said.textContent = `${files.length > 1 ? `Written in ${files.length} parts: hand over each` : "Written: hand it over"}. All of it stays here too.`;
  } catch (error) {
    context.fail(error);
  }
}

/** A file that is written, to be handed over by a tap of its own: a phone shares nothing long after a tap. */
function partLine(context, said, file, at) {
  const line = filled("carried-part", { name: `${file.name}, ${sizeOf(file.size)}`, "part-words": `Hand over file ${at + 1}` });
  wire(line, {
    async "hand-over"() {
      try {
        await handOver(file);
        slot(line, "part-words").textContent = `Hand over file ${at + 1} again`;
      } catch (error) {
        if (/** @type {Error} */ (error).name === "AbortError") said.textContent = "Nothing was shared; all of it is still here.";
        else context.fail(error);
      }
    },
  });
  return line;
}

async function take(context, body, input) {
  const [file] = input.files;
  input.value = "";
  if (!file) return;
  const said = slot(body, "carried-said");
  said.textContent = "Taking the file in…";
  try {
    const { entries, answers, copies } = await takeIn(file);
    await context.notebook.load();
    context.say(`Imported: ${countOf(entries, "entry", "entries")}, ${countOf(answers, "answer")}, ${countOf(copies, "picture")}.`);
    context.refresh();
  } catch (error) {
    if (!(error instanceof Refusal)) context.fail(error);
    else tell(said, error.message);
  }
}

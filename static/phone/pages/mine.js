/** What was entered on this phone today: each to be looked at, and to be undone. */

import { today } from "../book/moments.js";
import { goesWith, takenBack, undoneInWords } from "../book/undoing.js";
import { labelOf, said } from "../book/wording.js";
import { once } from "../forms/saving.js";
import { fill, filled, rows, slot, wire } from "./markup.js";
import { none, pageOf, titled } from "./parts.js";

const UNSEEN = ["signature", "fitter_signature", "sha256"];

export function minePage(context) {
  const { notebook } = context;
  const ahead = notebook.acknowledged.filter(({ revision }) => revision > notebook.cursor);
  const own = notebook.entries.filter(({ device }) => device === notebook.facts.device);
  const waiting = notebook.outbox.map(({ entry }) => entry);
  const mine = [...own, ...ahead.map(({ entry }) => entry), ...waiting].filter(({ at }) => at.startsWith(today()));
  const lines = mine.filter(({ item }) => notebook.items.has(item)).map((entry) => lineOfEntry(context, entry, waiting.includes(entry)));
  const body = filled("mine-page", { entries: lines.length ? lines.reverse() : none("None yet.") });
  return { title: "My entries today", live: () => true, body, actions: [{ words: "Not sent yet", href: "#/waiting" }] };
}

function lineOfEntry(context, entry, waits) {
  const { registry, notebook } = context;
  const item = notebook.items.get(entry.item);
  const { byAnyName } = registry.kinds.get(entry.kind);
  const changes = Object.entries(entry.set ?? {}).map(([name, value]) => {
    const field = byAnyName.get(name);
    const words = !field || UNSEEN.includes(name) ? "" : said(field, value, titled(context)) || "(emptied)";
    return [field ? labelOf(field) : name, words];
  });
  if ("withdraw" in entry) changes.push(["State", entry.withdraw ? "withdrawn" : "brought back"]);
  const line = filled("mine-entry", {
    when: entry.at.slice(11, 16),
    link: `${registry.kinds.get(entry.kind).label} ${titled(context)(entry.item)}`,
    unsent: waits ? "not sent yet" : null,
    changes: rows("fact", changes),
  });
  slot(line, "link").href = pageOf(item);
  const change = takenBack(notebook.historyOf(entry.item), entry, item);
  const gone = item.withdrawn && change?.withdraw !== false;
  if (!change || gone) fill(line, { undo: null });
  else wire(line, { undo: once(() => undo(context, item, entry, change)) });
  return line;
}

async function undo(context, item, entry, change) {
  const along = change.withdraw ? goesWith(context, item) : "";
  if (along && !confirm(`Undo this, and withdraw ${titled(context)(item.id)}? ${along} The ledger keeps it all, and it can be brought back.`)) return false;
  try {
    await context.notebook.write([change]);
  } catch (error) {
    context.fail(error);
    return false;
  }
  context.say(`${undoneInWords(context.registry, entry, change)} That is an entry too, and can be undone.`);
  context.runner.nudge();
  await context.refresh();
  return true;
}

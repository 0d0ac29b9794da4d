/** Nothing is under an address: what was begun there, and can be saved nowhere any more, is thrown away from here. */

import { dropDraft, everyDraft } from "../store/drafts.js";
import { fill, made, wire } from "./markup.js";

/** @param {import("../book/registry.js").Context} context */
export async function missingPage(context, hash) {
  const begun = (await everyDraft()).filter(({ route }) => route === hash);
  const body = made("missing-page");
  if (!begun.length) fill(body, { "begun-part": null });
  wire(body, {
    async discard() {
      if (!confirm("Throw away what you typed here? It cannot be brought back.")) return;
      for (const { key } of begun) await dropDraft(key);
      context.say("Thrown away.");
      await context.go("#/", { replace: true });
    },
  });
  return { title: "Not here", body, actions: [] };
}

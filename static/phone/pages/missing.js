/**
 * Nothing is under an address: what was begun there, and can be saved nowhere any more, is thrown away from here. What
 * lies on another site of the book than the one the pages show is told, and led to.
 */

import { dropDraft, everyDraft } from "../store/drafts.js";
import { siteOf, titleOf } from "../book/site.js";
import { fill, link, made, wire } from "./markup.js";
import { pageOf } from "./parts.js";

/** @param {import("../book/registry.js").Context} context */
export async function missingPage(context, hash) {
  const begun = (await everyDraft()).filter(({ route }) => route === hash);
  const body = made("missing-page");
  const other = otherSiteOf(context, hash);
  fill(body, other ? { elsewhere: link(titleOf(context.registry, other), pageOf(other)), "lost-part": null } : { "elsewhere-part": null });
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

/** The site on which the thing of an address lies, where that is not the one the pages show. */
function otherSiteOf({ registry, notebook }, hash) {
  const item = notebook.items.get(hash.split(/[/?]/)[2]);
  const site = item && siteOf(registry, notebook.items, item);
  return site && site.id !== notebook.site?.item.id ? site : null;
}

/** This phone: how full it is, how photographs are kept, and which book and app this is. */

import { countOf, sizeOf } from "../book/wording.js";
import { clearCopies, clearSent, isSafeThere } from "../store/photographs.js";
import { askToKeep, roomAgain, roomLeft } from "../store/room.js";
import { shellVersion } from "../updating.js";
import { filled, rows, slot, wire } from "./markup.js";

export async function storagePage(context) {
  const { notebook, runner } = context;
  await askToKeep();
  const spare = await roomAgain();
  const [{ used, left, share, kept, tight }, shell] = await Promise.all([roomLeft(), shellVersion()]);
  const sent = notebook.pictures.filter(isSafeThere);
  const body = filled("storage-page", {
    warning: tight || !spare ? filled("notice", { words: warningOf(spare, left), button: null }) : "",
    room: rows("fact", [
      ["Used", sizeOf(used)],
      ["Left", left === null ? "the browser does not say" : sizeOf(left)],
      ["Cleared by the browser?", kept === null ? "it does not say" : kept ? "no: it promised to keep it" : "only when the phone runs out of room; put the app on the home screen to prevent it"],
      ["Photographs the laptop has", sent.length ? `${countOf(sent.length, "photograph")}, ${sizeOf(sent.reduce((sum, { size }) => sum + size, 0))}` : "none here"],
    ]),
    book: rows("fact", [
      ["This phone is", notebook.facts.name],
      ["Address", location.origin],
      ["Entries here", String(notebook.cursor)],
      ["Book", notebook.facts.book],
      ["App", shell],
    ]),
  });
  slot(body, "meter").value = share;
  slot(body, "clear").hidden = !sent.length;
  const longest = slot(body, "longest");
  longest.value = String(notebook.facts.longest_px ?? 0);
  longest.addEventListener("change", () => notebook.choose({ longest_px: Number(longest.value) }).catch(context.fail));
  const cleared = async (/** @type {string} */ words) => {
    await notebook.readStored();
    context.say(words);
    context.refresh();
  };
  wire(body, {
    clear: async () => cleared(`${countOf(await clearSent(), "photograph")} cleared; smaller copies stay.`),
    "clear-copies": async () => cleared(`${countOf(await clearCopies(), "small picture")} cleared; the laptop has them.`),
  });
  return {
    title: "This phone",
    body,
    actions: [
      { words: "Not sent yet", href: "#/waiting" },
      { words: "Send now", main: true, act: () => runner.run({ byHand: true }) },
    ],
  };
}

function warningOf(spare, left) {
  const how = spare ? `Only ${sizeOf(left ?? 0)} are left.` : "This phone is full: photographs are not kept until there is room again.";
  return `${how} Send what is not sent yet, then clear photographs the laptop has.`;
}

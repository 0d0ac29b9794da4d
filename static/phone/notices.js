/**
 * What stands above every page until it is over or understood: trouble, with the way out of it.
 * While a page is read nothing on it moves: a notice lies over its top, one that is gone leaves its room, and the next
 * page begins under what is left.
 */

import { filled, slot } from "./pages/markup.js";
import { onTrouble } from "./store/database.js";

const RELOAD = "Reload";
const MAKE_ROOM = "Make room";
const TROUBLES = {
  blocked: ["Another window of this app holds an older version open. Close it.", RELOAD],
  newer: ["A newer version of this app is open elsewhere. Reload this page.", RELOAD],
  scarce: ["This phone is full. Entries are still kept, photographs are not, until there is room again.", MAKE_ROOM],
  unkept: ["This phone is full. What you type is not kept, and is gone if the app is closed; photographs are not kept either.", MAKE_ROOM],
};
const OVER = { room: "scarce", kept: "unkept" };
const SAYS_ALL = { unkept: "scarce" }; // one notice is enough for both: it lies over what is typed

/**
 * @param {string} about  one word; a later notice about the same takes the place of an earlier
 * @param {string} words
 * @param {string|null} button
 * @param {(() => unknown)|null} act
 */
export function notice(about, words, button = null, act = null) {
  unsay(about);
  const line = filled("notice", { words, button });
  line.dataset.about = about;
  if (button) slot(line, "button").addEventListener("click", act);
  holder().append(line);
  const place = holder().parentElement;
  place.style.top = `${document.querySelector(".head").getBoundingClientRect().height}px`;
  place.classList.add("over");
}

/** A new page begins under what there is to say. */
export function beginUnderNotices() {
  const place = holder().parentElement;
  place.classList.remove("over");
  place.style.top = "";
  place.style.height = `${holder().offsetHeight}px`;
}

/** Take away what was said about something. */
export function unsay(about) {
  holder().querySelector(`[data-about="${about}"]`)?.remove();
}

/** Say what went wrong, with the way to mend it where there is one. */
export function sayFault(error, go) {
  const full = error.code === "storage-full";
  notice("fault", error.message, full ? MAKE_ROOM : "Understood", () => {
    unsay("fault");
    if (full) go("#/storage");
  });
}

/** Tell of trouble with the store as it comes and goes. */
export function attendTrouble(go) {
  addEventListener("resize", () => holder().parentElement.classList.contains("over") || beginUnderNotices()); // the page moves by itself then
  onTrouble((trouble) => {
    if (trouble in OVER) return unsay(OVER[trouble]);
    if (holder().querySelector('[data-about="unkept"]') && trouble === SAYS_ALL.unkept) return undefined;
    unsay(SAYS_ALL[trouble]);
    const [words, button] = TROUBLES[trouble];
    return notice(trouble, words, button, () => (button === RELOAD ? location.reload() : go("#/storage")));
  });
}

function holder() {
  return document.getElementById("notices");
}

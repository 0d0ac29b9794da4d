/** Which page an address shows. */

import { arrowPage } from "./pages/arrow.js";
import { changePage, mendPage, newPage } from "./pages/form.js";
import { choosePage, roomPage, sitePage } from "./pages/places.js";
import { facePage } from "./pages/face.js";
import { herePage } from "./pages/here.js";
import { historyPage, itemPage } from "./pages/item.js";
import { joinPage } from "./pages/join.js";
import { minePage } from "./pages/mine.js";
import { packersPage } from "./pages/packers.js";
import { photographPage, picturePage } from "./pages/photograph.js";
import { rowPage } from "./pages/row.js";
import { searchPage } from "./pages/search.js";
import { storagePage } from "./pages/storage.js";
import { todayPage } from "./pages/today.js";
import { waitingPage } from "./pages/waiting.js";
import { fittedPage, workPage } from "./pages/work.js";

const PAGES = {
  "": todayPage,
  site: sitePage,
  room: roomPage,
  face: facePage,
  here: herePage,
  packers: packersPage,
  item: itemPage,
  history: historyPage,
  picture: picturePage,
  photograph: photographPage,
  arrow: arrowPage,
  choose: choosePage,
  new: newPage,
  change: changePage,
  mend: mendPage,
  row: rowPage,
  work: workPage,
  fitted: fittedPage,
  mine: minePage,
  search: searchPage,
  waiting: waitingPage,
  storage: storagePage,
  join: joinPage,
};

/**
 * The view of an address; null when there is none.
 * @param {import("./book/registry.js").Context} context
 * @param {string} hash  as in `#/face/ID?x_mm=5`
 * @returns {Promise<{title: string, body: HTMLElement, actions: object[], trail?: object[], writing?: boolean}|null>}
 */
export async function viewOf(context, hash) {
  const [path, query = ""] = hash.replace(/^#\/?/, "").split("?");
  const [name, id = ""] = path.split("/");
  const page = PAGES[name];
  if (!page) return null;
  return id || name in { "": 1, mine: 1, search: 1, waiting: 1, storage: 1, join: 1 } ? page(context, ...(id ? [decodeURIComponent(id)] : []), new URLSearchParams(query)) : null;
}

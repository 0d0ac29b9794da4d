/** Which page an address shows. */

import { arrowPage } from "./pages/arrow.js";
import { colourPage } from "./pages/colour.js";
import { downPage } from "./pages/down.js";
import { duePage } from "./pages/due.js";
import { changePage, mendPage, newPage } from "./pages/form.js";
import { choosePage, roomPage, sitePage } from "./pages/places.js";
import { facePage } from "./pages/face.js";
import { happenedPage } from "./pages/happened.js";
import { phasesPage } from "./pages/phases.js";
import { herePage } from "./pages/here.js";
import { inspectPage } from "./pages/inspect.js";
import { leftPage } from "./pages/left.js";
import { movePage } from "./pages/move.js";
import { offPage } from "./pages/off.js";
import { historyPage, itemPage } from "./pages/item.js";
import { joinPage } from "./pages/join.js";
import { measurePage } from "./pages/measure.js";
import { minePage } from "./pages/mine.js";
import { packersPage } from "./pages/packers.js";
import { photographPage, picturePage } from "./pages/photograph.js";
import { roundPage } from "./pages/round.js";
import { rowPage } from "./pages/row.js";
import { searchPage } from "./pages/search.js";
import { storagePage } from "./pages/storage.js";
import { todayPage } from "./pages/today.js";
import { waitingPage } from "./pages/waiting.js";
import { fittedPage, workPage } from "./pages/work.js";
import { workshopPage } from "./pages/workshop.js";

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
  measure: measurePage,
  colour: colourPage,
  choose: choosePage,
  new: newPage,
  change: changePage,
  mend: mendPage,
  row: rowPage,
  work: workPage,
  fitted: fittedPage,
  due: duePage,
  round: roundPage,
  inspect: inspectPage,
  happened: happenedPage,
  move: movePage,
  phases: phasesPage,
  workshop: workshopPage,
  down: downPage,
  off: offPage,
  left: leftPage,
  mine: minePage,
  search: searchPage,
  waiting: waitingPage,
  storage: storagePage,
  join: joinPage,
};

const ALONE = ["", "due", "round", "happened", "phases", "workshop", "down", "left", "mine", "search", "waiting", "storage", "join"];

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
  return id || ALONE.includes(name) ? page(context, ...(id ? [decodeURIComponent(id)] : []), new URLSearchParams(query)) : null;
}

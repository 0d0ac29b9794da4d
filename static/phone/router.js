/** Which page an address shows. The first page comes with the app; the others' scripts are read when it stands. */

import { todayPage } from "./pages/today.js";

const PAGES = {
  "": async () => todayPage,
  site: async () => (await import("./pages/places.js")).sitePage,
  room: async () => (await import("./pages/places.js")).roomPage,
  face: async () => (await import("./pages/face.js")).facePage,
  here: async () => (await import("./pages/here.js")).herePage,
  packers: async () => (await import("./pages/packers.js")).packersPage,
  item: async () => (await import("./pages/item.js")).itemPage,
  history: async () => (await import("./pages/item.js")).historyPage,
  picture: async () => (await import("./pages/photograph.js")).picturePage,
  photograph: async () => (await import("./pages/photograph.js")).photographPage,
  arrow: async () => (await import("./pages/arrow.js")).arrowPage,
  measure: async () => (await import("./pages/measure.js")).measurePage,
  choose: async () => (await import("./pages/places.js")).choosePage,
  new: async () => (await import("./pages/form.js")).newPage,
  change: async () => (await import("./pages/form.js")).changePage,
  mend: async () => (await import("./pages/form.js")).mendPage,
  row: async () => (await import("./pages/row.js")).rowPage,
  work: async () => (await import("./pages/work.js")).workPage,
  fitted: async () => (await import("./pages/work.js")).fittedPage,
  due: async () => (await import("./pages/due.js")).duePage,
  round: async () => (await import("./pages/round.js")).roundPage,
  inspect: async () => (await import("./pages/inspect.js")).inspectPage,
  happened: async () => (await import("./pages/happened.js")).happenedPage,
  move: async () => (await import("./pages/move.js")).movePage,
  phases: async () => (await import("./pages/phases.js")).phasesPage,
  down: async () => (await import("./pages/down.js")).downPage,
  off: async () => (await import("./pages/off.js")).offPage,
  left: async () => (await import("./pages/left.js")).leftPage,
  mine: async () => (await import("./pages/mine.js")).minePage,
  search: async () => (await import("./pages/search.js")).searchPage,
  waiting: async () => (await import("./pages/waiting.js")).waitingPage,
  storage: async () => (await import("./pages/storage.js")).storagePage,
  join: async () => (await import("./pages/join.js")).joinPage,
};

const ALONE = ["", "due", "round", "happened", "phases", "down", "left", "mine", "search", "waiting", "storage", "join"];

/**
 * The view of an address; null when there is none.
 * @param {import("./book/registry.js").Context} context
 * @param {string} hash  as in `#/face/ID?x_mm=5`
 * @returns {Promise<{title: string, body: HTMLElement, actions: object[], trail?: object[], writing?: boolean}|null>}
 */
export async function viewOf(context, hash) {
  const [path, query = ""] = hash.replace(/^#\/?/, "").split("?");
  const [name, id = ""] = path.split("/");
  if (!(name in PAGES) || !(id || ALONE.includes(name))) return null;
  // Only the first page does without the entries themselves.
  const [page] = await Promise.all([PAGES[name](), name && context.notebook.pulled()]);
  return page(context, ...(id ? [decodeURIComponent(id)] : []), new URLSearchParams(query));
}

/** Read the scripts of every page, so that none is waited for when it is gone to; what fails is told then. */
export async function readPages() {
  for (const page of Object.values(PAGES)) await page().catch(() => {});
}

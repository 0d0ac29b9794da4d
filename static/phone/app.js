/** The app on the page: opens the book, shows the page of each address, and keeps what waits in sight. */

import { Refusal } from "../checks/refusal.js";
import { registryHere } from "./book/registry.js";
import { openNotebook } from "./notebook.js";
import { attendTrouble, beginUnderNotices, notice, sayFault, unsay } from "./notices.js";
import { filled, made, tell } from "./pages/markup.js";
import { carryCodeHome, gate } from "./pages/join.js";
import { missingPage } from "./pages/missing.js";
import { waitingOf } from "./pages/today.js";
import { viewOf } from "./router.js";
import { momentOf } from "./book/moments.js";
import { dayOf, sizeOf } from "./book/wording.js";
import { stayAtEnd, tellHeight } from "./standing.js";
import { askToKeep, roomAgain, roomLeft } from "./store/room.js";
import { showLetGo } from "./pages/let_go.js";
import { showRestored } from "./pages/restored.js";
import { Runner } from "./sync/runner.js";
import { attendUpdates, lookForUpdate } from "./updating.js";

const SAID_MS = 4_000;
const SETTLE_MS = 700;
const at = (id) => document.getElementById(id);
let [view, context, shown, changed, saying] = [null, null, 0, false, 0];

async function start() {
  attendTrouble(go);
  const registry = registryHere();
  const notebook = await openNotebook(registry);
  const runner = new Runner(notebook);
  context = { registry, notebook, runner, go, say, fail, refresh: () => show({ stay: true }) };
  addEventListener("pointerdown", () => at("said").classList.remove("shown")); // it was read, or is in the way
  addEventListener("hashchange", () => show());
  notebook.onChange(() => {
    changed = true;
    showWaiting();
    showNewer();
    showRestored(context, notice);
    showLetGo(context, notice, unsay);
  });
  runner.onProgress = (progress) => {
    view?.progress?.(progress);
    showWaiting();
    if (!progress.running) settled(progress);
  };
  showNewer();
  showRestored(context, notice);
  showLetGo(context, notice, unsay);
  await show();
  tellHeight(at("actions"), "--bar");
  stayAtEnd(at("trail")); // where one is, rather than where one came from
  attendUpdates({ say, offer: offerUpdate, kept: (words) => (words ? notice("offline", words) : unsay("offline")) }).catch(fail);
  if (!notebook.joined) carryCodeHome();
  if (notebook.joined) {
    askToKeep();
    warnWhenTight();
  }
  await runner.attend();
}

/** Tell once that the book holds what this version of the app does not know. */
function showNewer() {
  const there = at("notices").querySelector("[data-about=newer-book]");
  if (!context.notebook.newer) there?.remove();
  else if (!there) notice("newer-book", "Some of this book was made with a newer Fieldbook. What this app does not know of it is not shown, and not changed here.");
}

/** Show the page of the present address. */
async function show({ stay = false } = {}) {
  const { hash } = location;
  const left = view?.writing && !stay;
  await leave();
  const next = await viewed(hash);
  if (hash !== location.hash) return; // someone was quicker
  view = next;
  document.title = `${view.title} – Fieldbook`;
  at("page").replaceChildren(view.body);
  at("trail").replaceChildren(...[{ words: "On site", href: "#/" }, ...(view.trail ?? [])].map(step));
  const actions = context.notebook.joined && hash.length > 2 ? [{ words: "On site", href: "#/" }, ...view.actions] : view.actions;
  at("actions").hidden = !actions.length;
  at("actions").replaceChildren(...actions.slice(0, 4).map(actionOf));
  if (left) settle(at("actions").children);
  if (stay) settle(at("page").querySelectorAll("button"));
  showWaiting();
  if (!stay) beginUnderNotices();
  if (!stay) scrollTo(0, 0);
  if (shown && !stay) at("page").focus({ preventScroll: true });
  shown += 1;
}

/** Nothing that goes wrong while a page is left keeps anybody on it. */
async function leave() {
  try {
    await view?.leave?.();
  } catch (error) {
    fail(error);
  }
}

/** For a moment nothing happens where something was pressed: a second quick tap on it is no tap on what came in its place. */
function settle(those) {
  const buttons = [...those];
  for (const button of buttons) button.inert = true;
  setTimeout(() => buttons.forEach((button) => (button.inert = false)), SETTLE_MS);
}

async function viewed(hash) {
  try {
    return (await gate(context)) ?? (await viewOf(context, hash)) ?? (await missingPage(context, hash));
  } catch (error) {
    console.error(error);
    return { title: "Fault", body: filled("fault", { words: /** @type {Error} */ (error).message }), actions: [] };
  }
}

function step({ words, href }) {
  const line = made("step");
  const a = document.createElement("a");
  a.href = href;
  a.textContent = words;
  line.append(a);
  return line;
}

function actionOf({ words, href, act, main }) {
  const action = filled(act ? "act" : "action", { words });
  if (act) action.addEventListener("click", act);
  else action.setAttribute("href", href);
  action.classList.toggle("main", Boolean(main));
  return action;
}

/** What waits, always in sight: how much, how large, since when. */
function showWaiting() {
  const badge = at("waits");
  const { notebook, runner } = context;
  badge.hidden = !notebook.joined;
  const { count, size, oldest, refused } = waitingOf(notebook);
  const today = oldest?.startsWith(momentOf().slice(0, 10));
  const since = oldest ? `, ${sizeOf(size)}, since ${today ? oldest.slice(11, 16) : dayOf(oldest.slice(0, 10))}` : "";
  // What was refused is not on the laptop: then not all is sent.
  const words = count ? `${count} not sent` : refused ? "" : "all sent";
  badge.ariaBusy = String(runner.progress.running);
  badge.textContent = [refused ? `${refused} refused` : "", runner.progress.running && count ? `${words} · sending` : words].filter(Boolean).join(" · ");
  badge.title = `${badge.textContent}${since}`;
  badge.classList.toggle("pending", count > 0);
  badge.classList.toggle("refused-some", refused > 0);
}

/** After a run of sync: tell what needs a person. */
function settled({ rejoin, shell }) {
  if (rejoin) notice("rejoin", "The laptop does not know this phone any more. All is kept, and recording goes on.", "Join again", () => go("#/join"));
  else unsay("rejoin");
  lookForUpdate(shell);
  if (changed && view?.live?.()) show({ stay: true });
  changed = false;
}

/** Go to an address of the app. */
async function go(href, { replace = false } = {}) {
  if (location.hash === href) return show();
  if (!replace) {
    location.hash = href;
    return undefined;
  }
  await leave();
  history.replaceState(null, "", href);
  view = view && { writing: view.writing };
  return show();
}

function say(words) {
  const said = at("said");
  tell(said, words);
  said.classList.add("shown");
  clearTimeout(saying); // of what was said before, also where it was in the same words
  saying = setTimeout(() => said.classList.remove("shown"), SAID_MS);
}

function fail(error) {
  if (!(error instanceof Refusal)) console.error(error);
  sayFault(error, go);
}

/** A new version waits: it is used at once where nothing is being written, else when the person says so. */
function offerUpdate(useUpdate) {
  if (!view?.writing && shown <= 1) useUpdate();
  else notice("update", "A new version of the app is ready. What you have typed stays.", "Use it now", useUpdate);
}

async function warnWhenTight() {
  await roomAgain();
  const { tight, left } = await roomLeft();
  if (tight) notice("tight", `Room on this phone is getting tight: ${sizeOf(left ?? 0)} left.`, "Make room", () => go("#/storage"));
}

start().catch((error) => {
  console.error(error);
  at("page").replaceChildren(filled("fault", { words: error.message }));
});

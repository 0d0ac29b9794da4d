/** New versions of the app: fetched whole in the background, taken up only when no form is open, and said. */

const CHECK_EVERY_MS = 3_600_000;
const AGAIN_MS = 15_000;
const FOR_GOOD = ["SecurityError", "NotSupportedError"];
const PREFIX = "fieldbook-app-";
const TAKEN_UP = "fieldbook-taken-up";

/**
 * @param {{offer: (useUpdate: () => void) => void, say: (words: string) => void, kept: (words: string) => void}} page
 *   `kept` is told whether the app opens without a network: "", or why it does not
 */
export async function attendUpdates(page) {
  const { serviceWorker } = navigator;
  if (!serviceWorker) return page.kept(whyNot({ name: "NotSupportedError" }));
  const controlled = Boolean(serviceWorker.controller);
  serviceWorker.addEventListener("controllerchange", () => {
    // The first worker of all changes nothing; a later one brings its own page and scripts.
    if (!controlled && !sessionStorage.getItem(TAKEN_UP)) return;
    location.reload();
  });
  if (sessionStorage.getItem(TAKEN_UP)) {
    sessionStorage.removeItem(TAKEN_UP);
    page.say("A new version of the app is in use.");
  }
  clearAway().catch(() => {}); // what is in the way of it keeps the app from nothing
  setInterval(() => ofThisApp().then((registration) => registration?.update()).catch(() => {}), CHECK_EVERY_MS);
  return keepTrying(page);
}

/** Have the files of former versions cleared away, once no other version is on its way. */
async function clearAway() {
  while ((await versions()).length > 1) {
    const registration = await ofThisApp();
    if (!registration?.installing && !registration?.waiting) navigator.serviceWorker.controller?.postMessage("clear away");
    await aWhile();
  }
}

/** What the network cuts off is fetched again: else the app would be gone when it is closed, and nobody told. */
async function keepTrying(page) {
  for (;;) {
    const error = await installed(page).then(() => null, (reason) => reason);
    page.kept(error ? whyNot(error) : "");
    if (!error || FOR_GOOD.includes(error.name)) return;
    await aWhile();
  }
}

/** Have a whole version kept; broken where its files did not all come. */
async function installed(page) {
  const registration = await navigator.serviceWorker.register("/sw.js", { scope: "/phone/", updateViaCache: "none" });
  const consider = () => registration.waiting && navigator.serviceWorker.controller && settle(registration.waiting, page);
  const follow = () => registration.installing && attended(registration, registration.installing, consider);
  registration.addEventListener("updatefound", follow);
  follow(); // one that was on its way before this page was opened
  consider();
  const first = registration.active ? null : (registration.installing ?? registration.waiting);
  if (!first) return;
  await new Promise((keep, fail) => {
    first.addEventListener("statechange", () => {
      if (first.state === "activated") keep(undefined);
      if (first.state === "redundant") fail(new DOMException("not all files came", "NetworkError"));
    });
  });
}

/** Of a later version not all files may come: the one in use stays, and the later one is asked for again. */
function attended(registration, coming, consider) {
  let before = coming.state;
  coming.addEventListener("statechange", () => {
    consider();
    if (before === "installing" && coming.state === "redundant" && registration.active) aWhile().then(() => registration.update()).catch(() => {});
    before = coming.state;
  });
}

function whyNot(/** @type {{name: string}} */ { name }) {
  if (FOR_GOOD.includes(name)) return `This browser does not keep the app for offline use (${name}). Keep this page open.`;
  return "Not all of the app has come to this phone yet, so it does not open without the laptop. Keep this page open: it is tried again by itself.";
}

function aWhile() {
  return new Promise((go) => {
    setTimeout(go, AGAIN_MS);
    addEventListener("online", go, { once: true });
  });
}

function ofThisApp() {
  return navigator.serviceWorker.getRegistration("/phone/");
}

/** Look for a new version now, when the laptop says that it has another one. */
export async function lookForUpdate(shell) {
  const kept = await shellVersion();
  if (!shell || !kept || shell === kept) return; // none yet: the first one is on its way
  const registration = await navigator.serviceWorker?.getRegistration("/phone/");
  await registration?.update().catch(() => {});
}

/** The version of the app's files on this phone. */
export async function shellVersion() {
  return (await versions())[0] ?? "";
}

/** All versions of which there are files, in the order they came. */
async function versions() {
  const names = "caches" in globalThis ? await caches.keys() : [];
  return names.filter((name) => name.startsWith(PREFIX)).map((name) => name.slice(PREFIX.length));
}

function settle(worker, page) {
  const useUpdate = () => {
    sessionStorage.setItem(TAKEN_UP, "1");
    worker.postMessage("take over");
  };
  page.offer(useUpdate);
}

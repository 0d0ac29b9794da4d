/** New versions of the app: fetched whole in the background, taken up only when no form is open, and said. */

const CHECK_EVERY_MS = 3_600_000;
const TAKEN_UP = "fieldbook-taken-up";

/**
 * @param {{offer: (useUpdate: () => void) => void, say: (words: string) => void}} page
 */
export async function attendUpdates(page) {
  const { serviceWorker } = navigator;
  if (!serviceWorker) return;
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
  const registration = await serviceWorker.register("/sw.js", { scope: "/phone/", updateViaCache: "none" });
  const consider = () => registration.waiting && serviceWorker.controller && settle(registration.waiting, page);
  registration.addEventListener("updatefound", () => {
    registration.installing?.addEventListener("statechange", consider);
  });
  consider();
  setInterval(() => registration.update().catch(() => {}), CHECK_EVERY_MS);
}

/** Look for a new version now, when the laptop says that it has another one. */
export async function lookForUpdate(shell) {
  if (!shell || shell === (await shellVersion())) return;
  const registration = await navigator.serviceWorker?.getRegistration("/phone/");
  await registration?.update().catch(() => {});
}

/** The version of the app's files on this phone. */
export async function shellVersion() {
  const names = "caches" in globalThis ? await caches.keys() : [];
  return names.find((name) => name.startsWith("fieldbook-app-"))?.slice("fieldbook-app-".length) ?? "";
}

function settle(worker, page) {
  const useUpdate = () => {
    sessionStorage.setItem(TAKEN_UP, "1");
    worker.postMessage("take over");
  };
  page.offer(useUpdate);
}

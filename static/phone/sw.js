/**
 * The service worker: keeps one whole version of the app's files, and answers with them.
 * The server puts the list of files, SHELL, before this text. It holds no rule of the book's, touches no request
 * but GET, and no store but its own caches.
 */
/* global SHELL */

const PREFIX = "fieldbook-app-";
const CACHE = PREFIX + SHELL.version;
const PAGE = "/phone/";

self.addEventListener("install", (event) => {
  // Where the browser offers it, what goes up need not even pass by here.
  for (const requestMethod of ["PUT", "POST"]) {
    event.addRoutes?.({ condition: { requestMethod }, source: "network" })?.catch(() => {});
  }
  // Nor need the app's own files.
  for (const pathname of Object.keys(SHELL.files).filter((address) => address !== PAGE)) {
    event.addRoutes?.({ condition: { urlPattern: { pathname } }, source: { cacheName: CACHE } })?.catch(() => {});
  }
  event.waitUntil(keepAll());
});
self.addEventListener("activate", (event) => event.waitUntil(takeOver()));
self.addEventListener("fetch", (event) => answer(event));
self.addEventListener("sync", (event) => event.waitUntil(tellPages("sync")));
self.addEventListener("message", (event) => {
  // A page says when: never while a form is open, and never by itself in install.
  if (event.data === "take over") self.skipWaiting();
  if (event.data === "clear away") event.waitUntil(clearAway());
});

/** All of this version or none of it; a file that has changed since the list was made is no part of it. */
async function keepAll() {
  const files = await Promise.all(Object.entries(SHELL.files).map(fetched));
  const cache = await caches.open(CACHE);
  await Promise.all(files.map(([address, response]) => cache.put(address, response)));
}

async function fetched([address, digest]) {
  const response = await fetch(address, { cache: "reload", credentials: "same-origin" });
  if (!response.ok) throw new Error(`${address} was answered ${response.status}`);
  const content = await response.clone().arrayBuffer();
  const bytes = new Uint8Array(await crypto.subtle.digest("SHA-256", content));
  const found = Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
  if (found !== digest) throw new Error(`${address} is not of this version`);
  return [address, response];
}

async function takeOver() {
  await clearAway();
  await self.clients.claim();
}

/**
 * Clear the versions before this one away, unless a later one is on its way: its files have no mark to tell them by.
 * A worker may be ended in the midst of taking over, or still be told that it is the one that waits: so a page asks
 * again for as long as there are others.
 */
async function clearAway() {
  const names = await caches.keys();
  const { installing, waiting } = self.registration;
  if (installing || (waiting && waiting !== self.serviceWorker)) return;
  await Promise.all(names.filter((name) => name.startsWith(PREFIX) && name !== CACHE).map((name) => caches.delete(name)));
}

function answer(event) {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== "GET" || origin !== self.location.origin) return;
  const address = request.mode === "navigate" && pathname.startsWith(PAGE) ? PAGE : pathname;
  if (address in SHELL.files) event.respondWith(kept(address, request));
}

/**
 * The file of this version; from the network only if the browser threw the cache away.
 * The cache is asked for and never opened here: opening makes one anew, and a worker that still answers while the
 * next one takes over would bring its own cleared one back, empty and for good.
 */
async function kept(address, request) {
  return (await caches.match(address, { cacheName: CACHE })) ?? fetch(request);
}

async function tellPages(word) {
  const pages = await self.clients.matchAll({ type: "window" });
  for (const page of pages) page.postMessage(word);
}

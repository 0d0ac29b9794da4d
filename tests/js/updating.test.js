/** New versions of the app: what did not come whole is asked for again, what is on its way or waits is offered. */

import assert from "node:assert/strict";
import { beforeEach, mock, test } from "node:test";

import { attendUpdates } from "../../static/phone/updating.js";

const LONG_MS = 15_000;
/** All that follows by itself has followed: nothing here waits for anything but the clock, which is held. */
const settled = () => new Promise((go) => setImmediate(go));

class Worker extends EventTarget {
  told = [];

  constructor(state) {
    super();
    this.state = state;
  }

  postMessage(words) {
    this.told.push(words);
  }
}

/** What a browser knows of the app's versions; `turn` does as a browser where a worker comes to another state. */
class Registration extends EventTarget {
  asked = 0;

  constructor({ active = null, waiting = null, installing = null }) {
    super();
    Object.assign(this, { active, waiting, installing });
  }

  async update() {
    this.asked += 1;
  }

  find(worker) {
    this.installing = worker;
    this.dispatchEvent(new Event("updatefound"));
  }

  turn(worker, state) {
    if (this.installing === worker) this.installing = null;
    if (this.waiting === worker) this.waiting = null;
    if (state === "installed") this.waiting = worker;
    if (state === "activated") this.active = worker;
    worker.state = state;
    worker.dispatchEvent(new Event("statechange"));
  }
}

let network;

beforeEach(() => {
  mock.timers.reset();
  mock.timers.enable({ apis: ["setTimeout", "setInterval"] });
  network = new EventTarget();
  const kept = new Map();
  globalThis.sessionStorage = { getItem: (name) => kept.get(name) ?? null, setItem: (name, value) => kept.set(name, value), removeItem: (name) => kept.delete(name) };
  globalThis.addEventListener = network.addEventListener.bind(network);
});

/** A page that opens with these versions; what it tells is noted. */
async function opened(registration) {
  const page = { offered: [], said: [], kept: [], registered: 0 };
  const serviceWorker = new EventTarget();
  Object.assign(serviceWorker, {
    controller: registration.active,
    register: async () => {
      page.registered += 1;
      return registration;
    },
    getRegistration: async () => registration,
  });
  Object.defineProperty(globalThis, "navigator", { value: { serviceWorker }, configurable: true, writable: true });
  attendUpdates({ offer: (take) => page.offered.push(take), say: (words) => page.said.push(words), kept: (words) => page.kept.push(words) });
  await settled();
  return page;
}

test("a later version that was on its way before the page was opened is offered once it waits", async () => {
  const coming = new Worker("installing");
  const registration = new Registration({ active: new Worker("activated"), installing: coming });
  const page = await opened(registration);
  assert.deepEqual([page.offered.length, page.kept], [0, [""]]);
  registration.turn(coming, "installed");
  assert.equal(page.offered.length, 1);
  page.offered[0]();
  assert.deepEqual(coming.told, ["take over"]);
});

test("one that waits when the page is opened is offered at once", async () => {
  const page = await opened(new Registration({ active: new Worker("activated"), waiting: new Worker("installed") }));
  assert.equal(page.offered.length, 1);
});

test("a later version of which not all files came is asked for again, and offered when it came whole", async () => {
  const registration = new Registration({ active: new Worker("activated") });
  const page = await opened(registration);
  for (const time of [1, 2]) {
    const cut = new Worker("installing");
    registration.find(cut);
    registration.turn(cut, "redundant");
    await settled();
    assert.equal(registration.asked, time - 1); // not without a pause: the network may be gone
    mock.timers.tick(LONG_MS);
    await settled();
    assert.equal(registration.asked, time);
  }
  const whole = new Worker("installing");
  registration.find(whole);
  registration.turn(whole, "installed");
  assert.equal(page.offered.length, 1);
  assert.deepEqual(page.kept, [""]); // the version in use opens without a network all the while
});

test("it is asked for as soon as there is a network again", async () => {
  const registration = new Registration({ active: new Worker("activated") });
  await opened(registration);
  const cut = new Worker("installing");
  registration.find(cut);
  registration.turn(cut, "redundant");
  network.dispatchEvent(new Event("online"));
  await settled();
  assert.equal(registration.asked, 1);
});

test("one that came whole, and is overtaken by a later one, is not asked for again", async () => {
  const registration = new Registration({ active: new Worker("activated") });
  await opened(registration);
  const overtaken = new Worker("installing");
  registration.find(overtaken);
  registration.turn(overtaken, "installed");
  registration.turn(overtaken, "redundant");
  mock.timers.tick(LONG_MS);
  await settled();
  assert.equal(registration.asked, 0);
});

test("the first version of all is fetched again until it is whole, and said to be lacking meanwhile", async () => {
  const [cut, whole] = [new Worker("installing"), new Worker("installing")];
  const registration = new Registration({ installing: cut });
  const page = await opened(registration);
  assert.deepEqual(page.kept, []);
  registration.turn(cut, "redundant");
  await settled();
  assert.match(page.kept.at(-1), /^Not all of the app has come/);
  registration.installing = whole;
  mock.timers.tick(LONG_MS);
  await settled();
  assert.equal(page.registered, 2);
  for (const state of ["installed", "activating", "activated"]) registration.turn(whole, state);
  await settled();
  assert.equal(page.kept.at(-1), "");
  assert.equal(page.offered.length, 0);
});

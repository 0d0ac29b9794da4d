"""A laptop that serves a book and can be stopped, and phones that are real browsers with a store of their own."""

from __future__ import annotations

import os
import random
import re
import shutil
import signal
import socket
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, Page, Playwright, WebError, expect
from playwright.sync_api import Error as PlaywrightError

from fieldbook.book.book import Book
from fieldbook.book.opening import open_book
from fieldbook.phones import codes
from tests.browser.conftest import FLAGS, chromium_path
from tests.browser.serving import Serve, Server, by_command

HELD_PHONE = {"width": 390, "height": 844}
# What a browser says by itself when the laptop does not answer, or answers that something is to be mended.
EXPECTED = re.compile(r"net::ERR_|Failed to load resource: the server responded with a status of (401|404|409|422|503)")
PATIENCE_MS = 120_000
CONTROLLED = """async () => {
  const { serviceWorker } = navigator;
  for (let tries = 0; !serviceWorker.controller; tries += 1) {
    const { installing, waiting, active } = (await serviceWorker.getRegistration("/phone/")) ?? {};
    const states = [installing, waiting, active].map((one) => one?.state);
    if (tries > 2_400) throw new Error(`no service worker answers for the page: ${states}`);
    await new Promise((go) => setTimeout(go, 50));
  }
}"""
# The book as the pages themselves hold it; one for each window, beside that of the app.
WITH_NOTEBOOK = """async (given) => {
  const open = async () => {
    const { modules } = await import("/phone/app.js");
    return modules["phone/notebook.js"].openNotebook(modules["phone/book/registry.js"].registryHere());
  };
  const notebook = await (window.ofTheTests ??= open());
  await notebook.load();
  const within = (ms, words, work) => Promise.race([
    new Promise(work), new Promise((_, fail) => setTimeout(() => fail(new Error(words())), ms))]);
  const badge = document.getElementById("waits"), before = badge.textContent;
  const shown = () => within(%(patience)d, () => "the app does not show what was written", (done) => {
    const look = () => badge.textContent !== before && done();
    new MutationObserver(look).observe(badge, { childList: true });
    look();
  });
  %(script)s
}"""


def in_the_book(script: str) -> str:
    """A function for the page that has the notebook, and can wait until the app shows a change of what waits."""
    return WITH_NOTEBOOK % {"script": script, "patience": PATIENCE_MS}


WRITE = in_the_book("const made = await notebook.write(given); await shown(); return made.map(({ item }) => item);")
HELD = in_the_book(
    "return { outbox: notebook.outbox.length, shelf: notebook.shelf.length, cursor: notebook.cursor,"
    " pictures: notebook.pictures.map(({ sha256, state, received }) => ({ sha256, state, received }))};"
)
IN_STEP = in_the_book(
    """
  let ended, found;
  await within(300_000, () => `the phone does not come into step: ${JSON.stringify(found)}`, (done) => {
    const look = async () => {
      const said = await fetch("/phone/hello?epoch=").then((answer) => answer.json()).catch(() => ({}));
      const waits = notebook.outbox.length + notebook.pictures.filter(({ state }) => state === "waiting").length;
      const { epoch, cursor } = notebook.facts;
      found = { waits, epoch, cursor, laptop: said, badge: badge.textContent, page: document.title };
      if (!waits && epoch === said.epoch && notebook.cursor === said.revision) done();
    };
    ended = notebook.onChange(look);
    look();
  });
  ended();"""
)
TAKE = in_the_book(
    """
  const { readPhotograph, fieldsOf } = (await import("/phone/app.js")).modules["phone/camera.js"];
  for (const { base64, zeros, set } of given) {
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    const content = [bytes, new Uint8Array(zeros ?? 0)];
    const picture = await readPhotograph(new File(content, "a.jpg", { type: "image/jpeg" }));
    const item = crypto.randomUUID();
    const entry = { kind: "photograph", item, set: { ...set, ...fieldsOf(picture) } };
    await notebook.write([entry], { picture: { ...picture, state: "waiting" } });
  }
  await shown();"""
)
GO = """(route) => {
  if (location.hash === route) return;
  for (const shown of document.getElementById("page").children) shown.dataset.left = "";
  location.hash = route;
}"""
# Below the ports a system hands out by itself, so that nobody has it while the laptop is stopped; and below a book's.
# Each process of a run has ports of its own.
PROCESS = int(os.environ.get("PYTEST_XDIST_WORKER", "gw0").removeprefix("gw"))
PORTS = range(10_000 + PROCESS, 20_000, 16)
KEPT_PORTS: set[int] = set()


def free_port() -> int:
    """A port nothing listens on, nor will while an installed app is kept for it."""
    for port in random.SystemRandom().sample(PORTS, 100):
        if port in KEPT_PORTS:
            continue
        with socket.socket() as probe, suppress(OSError):
            probe.bind(("127.0.0.1", port))
            return port
    raise AssertionError("no port is free")


@dataclass
class Laptop:
    """The machine with the book; its server is a process that can be stopped and started again."""

    folder: Path
    port: int = field(default_factory=free_port)
    server: Server | None = None

    @property
    def address(self) -> str:
        """Where phones find the app."""
        return f"http://127.0.0.1:{self.port}/phone/"

    def start(self, serve: Serve = by_command) -> None:
        """Serve, and wait until it answers; otherwise than by the usual command where that is given."""
        self.server = Server(serve, str(self.folder), "--port", str(self.port), "--no-browser")
        assert "http" in self.server.said

    def stop(self) -> None:
        """Stop the server, as when the laptop is closed."""
        if self.server:
            self.server.stop()
            self.server = None

    def code(self) -> str:
        """A code to join with."""
        with open_book(self.folder) as book:
            return codes.new_join_code(book)

    @contextmanager
    def book(self) -> Iterator[Book]:
        """The book itself, to look at what has arrived."""
        with open_book(self.folder) as book:
            yield book


class InstalledApps:
    """Browsers on which the app is installed already: to install it anew is most of what a test of it would cost.

    Where a laptop is served at the port, one that was lent before opens the app from its own store; nothing else of
    the origin is left in it.
    """

    def __init__(self, browser: Browser):
        self.browser = browser
        self.port = free_port()
        KEPT_PORTS.add(self.port)
        self.free: list[tuple[dict[str, Any], BrowserContext]] = []

    def lend(self, settings: dict[str, Any]) -> BrowserContext:
        """One that nobody has, opened with these settings."""
        for at, (opened_with, context) in enumerate(self.free):
            if opened_with == settings:
                del self.free[at]
                return context
        return self.browser.new_context(**settings)

    def take_back(self, settings: dict[str, Any], context: BrowserContext) -> None:
        """Clear what the book left in it, and keep it for the next."""
        context.set_offline(False)
        context.unroute_all(behavior="ignoreErrors")
        empty = context.new_page()
        untouched = empty.evaluate("() => String(setTimeout).includes('native code')")
        assert untouched, "its clock was set, and timers would stand still in the tests after this one"
        for page in context.pages[:-1]:
            page.close()
        origin = {"origin": f"http://127.0.0.1:{self.port}", "storageTypes": "cookies,indexeddb,local_storage"}
        context.new_cdp_session(empty).send("Storage.clearDataForOrigin", origin)
        self.free.append((settings, context))


@dataclass
class Phone:
    """A browser with its own store.

    browser    opened for all phones of a test run; the store goes when the phone is closed
    installed  lends one that has the app already, which is given back without the book
    driver     opens one for this phone alone; the store outlives it being closed or killed
    """

    profile: Path
    address: str
    browser: Browser | None = None
    installed: InstalledApps | None = None
    driver: Playwright | None = None
    context: BrowserContext | None = None
    settings: dict[str, Any] = field(default_factory=dict)
    troubles: list[str] = field(default_factory=list)

    def open(
        self, route: str = "", before: Callable[[Page], object] | None = None, *, wait: bool = True, **more: Any
    ) -> Page:
        """Open the app, and wait until it stands where that is not forgone; `before` is called with the empty page."""
        self.settings = {"viewport": HELD_PHONE} | more
        self.context = self._context()
        self.context.on("weberror", self._note)
        self.context.on("console", self._hear)
        page = self.context.pages[0] if self.context.pages else self.context.new_page()
        page.set_default_timeout(PATIENCE_MS)
        if before:
            before(page)
        page.goto(self.address + route)
        if wait:
            opened = f"the book did not open; heard on the way: {self.troubles}"
            expect(page.locator("#page"), opened).not_to_contain_text("Opening the book")
        return page

    def _context(self) -> BrowserContext:
        if self.installed:
            return self.installed.lend(self.settings)
        return self.browser.new_context(**self.settings) if self.browser else self._alone(self.settings)

    def _alone(self, settings: dict[str, Any]) -> BrowserContext:
        assert self.driver
        # A socket's path may not be long, and a test's own folder for temporary files is.
        environment = os.environ | {"TMPDIR": "/tmp", "HOME": str(self.profile)}
        self.profile.mkdir(parents=True, exist_ok=True)
        given = {"args": list(FLAGS), "env": environment, "timeout": PATIENCE_MS} | settings
        return self.driver.chromium.launch_persistent_context(self.profile, executable_path=chromium_path(), **given)

    def _note(self, error: WebError) -> None:
        self.troubles.append(str(error.error))

    def _hear(self, said: ConsoleMessage) -> None:
        if said.type == "error" and not EXPECTED.search(said.text):
            self.troubles.append(said.text)

    @property
    def page(self) -> Page:
        """What is on its screen."""
        assert self.context
        return self.context.pages[0]

    def switch_network(self, *, on: bool) -> None:
        """Switch the phone's network off, or on again."""
        assert self.context
        self.context.set_offline(not on)

    def close(self) -> None:
        """Close the app as a person does."""
        if not self.context:
            return
        if self.installed:
            self.context.remove_listener("weberror", self._note)
            self.context.remove_listener("console", self._hear)
            self.installed.take_back(self.settings, self.context)
        else:
            self.context.close()
        self.context = None

    def kill(self) -> None:
        """Let the phone put the app away without asking."""
        assert self.context
        for process in chromium_processes(self.profile):
            os.kill(process, signal.SIGKILL)
        with suppress(PlaywrightError):  # the browser it belongs to may be found gone while it is closed
            self.context.close()
        self.context = None
        shutil.rmtree((self.profile / "SingletonSocket").readlink().parent, ignore_errors=True)
        for lock in self.profile.glob("Singleton*"):
            lock.unlink()

    def join(self, code: str, name: str = "fitter’s phone") -> Page:
        """Join with a code typed in, and wait until the book is here."""
        page = self.page
        page.get_by_label("Code").fill(code)
        page.get_by_label("What this phone is called").fill(name)
        page.get_by_role("button", name="Join", exact=True).click()
        self.rest()
        page.evaluate(CONTROLLED)
        return page

    def go(self, route: str) -> Page:
        """Go to a page of the app, and wait until it stands."""
        self.page.evaluate(GO, route)
        self.page.locator("#page > :not([data-left])").first.wait_for(state="attached")
        return self.page

    def write(self, *changes: dict[str, Any]) -> list[str]:
        """Enter items with what the pages themselves call, and wait until the app shows that they wait; their ids."""
        return self.page.evaluate(WRITE, list(changes))

    def held(self) -> dict[str, Any]:
        """What it holds that the laptop has not acknowledged, and how far it has pulled."""
        return self.page.evaluate(HELD)

    def send(self) -> None:
        """Press the button that sends, and wait until phone and laptop are in step."""
        self.go("#/waiting").get_by_role("button", name="Send now").click()
        self.rest()
        expect(self.page.locator("#waits")).to_contain_text("all sent")

    def rest(self) -> None:
        """Wait until everything is sent and pulled, and shown."""
        self.page.evaluate(IN_STEP)
        expect(self.page.locator("#waits")).to_have_attribute("aria-busy", "false", timeout=PATIENCE_MS)


def chromium_processes(profile: Path) -> list[int]:
    """The processes of the browser that runs on a profile: those that name it, with all they started."""
    parents = {}
    named = set()
    for status in Path("/proc").glob("[0-9]*/status"):
        try:
            number = int(status.parent.name)
            parents[number] = int(re.search(r"PPid:\s+(\d+)", status.read_text())[1])  # type: ignore[index]
            if str(profile) in (status.parent / "cmdline").read_text(errors="replace"):
                named.add(number)
        except (OSError, TypeError):
            continue  # gone meanwhile
    return [number for number in parents if number in named or parents[number] in named]


def until(true: Any, seconds: float = 240) -> None:
    """Wait for something outside the browser to come true."""
    end = time.monotonic() + seconds
    while not true():
        assert time.monotonic() < end, "it never came true"
        time.sleep(0.1)

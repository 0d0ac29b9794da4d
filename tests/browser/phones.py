"""A laptop that serves a book and can be stopped, and phones that are real browsers with a store of their own."""

from __future__ import annotations

import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from playwright.sync_api import BrowserContext, Page, Playwright, expect
from playwright.sync_api import Error as PlaywrightError

from fieldbook.book.book import Book, open_book
from fieldbook.phones import codes
from tests.browser.conftest import FLAGS, ROOT, chromium_path

HELD_PHONE = {"width": 390, "height": 844}
# What a browser says by itself when the laptop does not answer, or answers that something is to be mended.
EXPECTED = re.compile(r"net::ERR_|Failed to load resource: the server responded with a status of (401|404|409|422|503)")
PATIENCE_MS = 30_000
CONTROLLED = """async () => {
  await navigator.serviceWorker.ready;
  while (!navigator.serviceWorker.controller) await new Promise((go) => setTimeout(go, 50));
}"""
WITH_NOTEBOOK = """async (given) => {
  const [{ registryOf }, { openNotebook }] = await Promise.all([
    import("/static/phone/book/registry.js"), import("/static/phone/notebook.js")]);
  const registry = registryOf(await (await fetch("/phone/registry.json")).json());
  const notebook = await openNotebook(registry);
  %s
}"""
WRITE = WITH_NOTEBOOK % "return (await notebook.write(given)).map(({ item }) => item);"
HELD = WITH_NOTEBOOK % (
    "return { outbox: notebook.outbox.length, shelf: notebook.shelf.length, cursor: notebook.cursor,"
    " pictures: notebook.pictures.map(({ sha256, state, received }) => ({ sha256, state, received }))};"
)
TAKE = (
    WITH_NOTEBOOK
    % """
  const { takeUp, fieldsOf } = await import("/static/phone/camera.js");
  for (const { base64, set } of given) {
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    const picture = await takeUp(new File([bytes], "a.jpg", { type: "image/jpeg" }));
    const item = crypto.randomUUID();
    const entry = { kind: "photograph", item, set: { ...set, ...fieldsOf(picture) } };
    await notebook.write([entry], { picture: { ...picture, state: "waiting" } });
  }"""
)


def free_port() -> int:
    """A port nothing listens on."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


@dataclass
class Laptop:
    """The machine with the book; its server is a process that can be stopped and started again."""

    folder: Path
    port: int = field(default_factory=free_port)
    process: subprocess.Popen[str] | None = None

    @property
    def address(self) -> str:
        """Where phones find the app."""
        return f"http://127.0.0.1:{self.port}/phone/"

    def start(self, *program: str) -> None:
        """Serve, and wait until it answers; by another program than the usual one when one is named."""
        command = [sys.executable, *(program or ("-m", "fieldbook")), "serve", str(self.folder)]
        command += ["--port", str(self.port), "--no-browser"]
        found = os.environ | {"PYTHONPATH": str(ROOT)}
        self.process = subprocess.Popen(command, cwd=ROOT, env=found, stdout=subprocess.PIPE, text=True)
        assert self.process.stdout
        assert "http" in self.process.stdout.readline()

    def stop(self) -> None:
        """Stop the server, as when the laptop is closed."""
        if self.process:
            self.process.terminate()
            self.process.wait(20)
            assert self.process.stdout
            self.process.stdout.close()
            self.process = None

    def code(self) -> str:
        """A code to join with."""
        with open_book(self.folder) as book:
            return codes.new_join_code(book)

    @contextmanager
    def book(self) -> Iterator[Book]:
        """The book itself, to look at what has arrived."""
        with open_book(self.folder) as book:
            yield book


@dataclass
class Phone:
    """A browser with its own store, which outlives it being closed or killed."""

    driver: Playwright
    profile: Path
    address: str
    context: BrowserContext | None = None
    troubles: list[str] = field(default_factory=list)

    def open(self, route: str = "", **more: Any) -> Page:
        """Open the app."""
        # A socket's path may not be long, and a test's own folder for temporary files is.
        environment = os.environ | {"TMPDIR": "/tmp", "HOME": str(self.profile)}
        settings: dict[str, Any] = {"viewport": HELD_PHONE, "args": list(FLAGS), "env": environment} | more
        self.profile.mkdir(parents=True, exist_ok=True)
        self.context = self.driver.chromium.launch_persistent_context(
            self.profile, executable_path=chromium_path(), **settings
        )
        self.context.on("weberror", lambda error: self.troubles.append(str(error.error)))
        self.context.on("console", lambda said: self._hear(said.type, said.text))
        page = self.context.pages[0]
        page.set_default_timeout(PATIENCE_MS)
        page.goto(self.address + route)
        page.locator("#page h1").first.wait_for()
        return page

    def _hear(self, kind: str, text: str) -> None:
        if kind == "error" and not EXPECTED.search(text):
            self.troubles.append(text)

    @property
    def page(self) -> Page:
        """What is on its screen."""
        assert self.context
        return self.context.pages[0]

    def close(self) -> None:
        """Close the app as a person does."""
        if self.context:
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
        expect(page.locator("#waits")).to_contain_text("all sent")
        page.evaluate(CONTROLLED)
        return page

    def go(self, route: str) -> Page:
        """Go to a page of the app."""
        self.page.evaluate("(route) => { location.hash = route; }", route)
        return self.page

    def write(self, *changes: dict[str, Any]) -> list[str]:
        """Enter items with what the pages themselves call; their ids."""
        return self.page.evaluate(WRITE, list(changes))

    def held(self) -> dict[str, Any]:
        """What it holds that the laptop has not acknowledged, and how far it has pulled."""
        return self.page.evaluate(HELD)

    def send(self) -> None:
        """Press the button that sends, and wait until nothing waits."""
        self.go("#/waiting").get_by_role("button", name="Send now").click()
        expect(self.page.locator("#waits")).to_contain_text("all sent", timeout=120_000)


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


def until(true: Any, seconds: float = 60) -> None:
    """Wait for something outside the browser to come true."""
    end = time.monotonic() + seconds
    while not true():
        assert time.monotonic() < end, "it never came true"
        time.sleep(0.1)

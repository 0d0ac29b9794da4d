"""The app in WebKit, the engine of every browser on an iPhone: reading and one entry with the laptop stopped.

Runs where Debian's webkit2gtk-driver and xvfb are installed: the engine has no mode without a display.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from fieldbook.book.book import create_book
from tests.browser.phones import CONTROLLED, Laptop, free_port, until
from tests.sites import survey

MINI_BROWSERS = tuple(Path("/usr/lib").glob("*/webkit2gtk-4.*/MiniBrowser"))
ABSENT = [name for name in ("WebKitWebDriver", "Xvfb") if not shutil.which(name)]
ABSENT += [] if MINI_BROWSERS else ["MiniBrowser"]
pytestmark = pytest.mark.skipif(bool(ABSENT), reason=f"not installed: {', '.join(ABSENT)} (webkit2gtk-driver, xvfb)")


@dataclass
class WebKit:
    """A session of the WebDriver protocol (W3C), spoken plainly."""

    address: str
    session: str = ""

    def ask(self, method: str, path: str, payload: Any = None) -> Any:
        """One command; what it gave."""
        body = json.dumps(payload or {}).encode() if method == "POST" else None
        asked = urllib.request.Request(
            f"{self.address}{path}", body, {"Content-Type": "application/json"}, method=method
        )
        try:
            with urllib.request.urlopen(asked, timeout=60) as answer:
                return json.load(answer)["value"]
        except urllib.error.HTTPError as error:
            raise AssertionError(error.read().decode()) from None

    def begin(self) -> None:
        """Open the browser."""
        options = {"binary": str(MINI_BROWSERS[-1]), "args": ["--automation"]}
        wanted = {"capabilities": {"alwaysMatch": {"webkitgtk:browserOptions": options}}}
        self.session = "/session/" + self.ask("POST", "/session", wanted)["sessionId"]
        self.ask("POST", f"{self.session}/timeouts", {"script": 30_000, "pageLoad": 60_000})

    def open(self, address: str) -> None:
        """Go to an address."""
        self.ask("POST", f"{self.session}/url", {"url": address})

    def run(self, script: str) -> Any:
        """What an async function gives in the page."""
        wrapped = f"const done = arguments[0]; ({script})().then(done, (error) => done(String(error)));"
        return self.ask("POST", f"{self.session}/execute/async", {"script": wrapped, "args": []})

    def text(self) -> str:
        """All that the page says."""
        return self.run("async () => document.body.innerText")

    def end(self) -> None:
        """Close the browser."""
        if self.session:
            self.ask("DELETE", self.session)


@contextmanager
def webkit(folder: Path) -> Iterator[WebKit]:
    """A WebKit browser on a display of its own."""
    display, port = f":{90 + os.getpid() % 900}", free_port()
    home = os.environ | {"DISPLAY": display, "HOME": str(folder), "TMPDIR": "/tmp", "XDG_RUNTIME_DIR": str(folder)}
    folder.mkdir(mode=0o700)
    quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    screen = subprocess.Popen(["Xvfb", display, "-screen", "0", "500x900x24"], **quiet)
    driver = subprocess.Popen(["WebKitWebDriver", f"--port={port}"], env=home, **quiet)
    browser = WebKit(f"http://127.0.0.1:{port}")
    try:
        until(lambda: is_ready(browser), 20)
        browser.begin()
        yield browser
    finally:
        try:
            browser.end()
        finally:
            for process in (driver, screen):
                process.terminate()
                process.wait(20)


def is_ready(browser: WebKit) -> bool:
    """Whether the driver answers yet."""
    try:
        return bool(browser.ask("GET", "/status")["ready"])
    except OSError:
        time.sleep(0.1)
        return False


ENTRY = """async () => {
  const set = (id, value) => {
    const input = document.getElementById(id);
    input.value = value;
    input.dispatchEvent(new Event("input", { bubbles: true }));
  };
  set("name", "Store");
  [...document.querySelectorAll(".action")].find((one) => one.textContent.trim() === "Save").click();
  await new Promise((go) => setTimeout(go, 2000));
}"""


def test_webkit_reads_offline_and_keeps_an_entry(tmp_path: Path) -> None:
    """Joined, then with the laptop stopped: the page reloads, a room is entered, and it arrives when it is back."""
    with create_book(tmp_path / "book") as book:
        survey(book)
    laptop = Laptop(tmp_path / "book")
    laptop.start()
    try:
        with webkit(tmp_path / "webkit") as browser:
            browser.open(laptop.address)
            until(lambda: "Join the book" in browser.text())
            code = json.dumps(laptop.code())
            browser.run(
                "async () => { const form = document.querySelector('form'); "
                f"form.elements.code.value = {code}; form.elements.name.value = 'WebKit phone'; "
                "form.requestSubmit(); }"
            )
            until(lambda: "Long room" in browser.text() and "all sent" in browser.text())
            browser.run(CONTROLLED)
            laptop.stop()
            browser.open(laptop.address)
            until(lambda: "Long room" in browser.text())
            browser.run("async () => { location.hash = '#/new/room'; }")
            until(lambda: "New room" in browser.text())
            browser.run(ENTRY)
            until(lambda: "1 wait" in browser.text())
            laptop.start()
            until(lambda: "all sent" in browser.text(), 150)
        with laptop.book() as book:
            assert {room["name"] for room in book.items("room")} == {"Long room", "Store"}
    finally:
        laptop.stop()

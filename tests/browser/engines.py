"""Other engines than Chromium's, each spoken to in its own tongue: WebKit by WebDriver (W3C), Firefox by Marionette."""

from __future__ import annotations

import json
import os
import shutil
import socket
import subprocess
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Protocol

from tests.browser.phones import free_port, until

MINI_BROWSERS = tuple(Path("/usr/lib").glob("*/webkit2gtk-4.*/MiniBrowser"))
FIREFOX = shutil.which("firefox-esr") or shutil.which("firefox")
ANSWER_S = 320
QUIET = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
TIMEOUTS = {"script": 300_000, "pageLoad": 300_000}


class Engine(Protocol):
    """A browser with one page."""

    def open(self, address: str) -> None:
        """Go to an address."""

    def run(self, script: str) -> Any:
        """What an async function gives in the page; an error's words where it fails."""


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
            with urllib.request.urlopen(asked, timeout=ANSWER_S) as answer:
                return json.load(answer)["value"]
        except urllib.error.HTTPError as error:
            raise AssertionError(error.read().decode()) from None

    def is_ready(self) -> bool:
        """Whether the driver answers yet."""
        try:
            return bool(self.ask("GET", "/status")["ready"])
        except OSError:
            return False

    def begin(self) -> None:
        """Open the browser."""
        options = {"binary": str(MINI_BROWSERS[-1]), "args": ["--automation"]}
        wanted = {"capabilities": {"alwaysMatch": {"webkitgtk:browserOptions": options}}}
        self.session = "/session/" + self.ask("POST", "/session", wanted)["sessionId"]
        self.ask("POST", f"{self.session}/timeouts", TIMEOUTS)

    def open(self, address: str) -> None:
        """Go to an address."""
        self.ask("POST", f"{self.session}/url", {"url": address})

    def run(self, script: str) -> Any:
        """What an async function gives in the page; an error's words where it fails."""
        return self.ask("POST", f"{self.session}/execute/async", {"script": wrapped(script), "args": []})

    def end(self) -> None:
        """Close the browser."""
        if self.session:
            self.ask("DELETE", self.session)


class Firefox:
    """A session of Firefox's own remote protocol: each message is its length, a colon, and JSON."""

    def __init__(self, port: int):
        self.line = socket.create_connection(("127.0.0.1", port), ANSWER_S)
        self.heard = self.line.makefile("rb")
        self.number = 0
        self._hear()

    def _hear(self) -> Any:
        length = b"".join(iter(lambda: self.heard.read(1), b":"))
        return json.loads(self.heard.read(int(length)))

    def ask(self, command: str, **parameters: Any) -> Any:
        """One command; what it gave."""
        self.number += 1
        message = json.dumps([0, self.number, command, parameters]).encode()
        self.line.sendall(b"%d:%s" % (len(message), message))
        _, _, error, result = self._hear()
        assert error is None, error
        return result

    def begin(self) -> None:
        """Begin a session."""
        self.ask("WebDriver:NewSession", capabilities={})
        self.ask("WebDriver:SetTimeouts", **TIMEOUTS)

    def open(self, address: str) -> None:
        """Go to an address."""
        self.ask("WebDriver:Navigate", url=address)

    def run(self, script: str) -> Any:
        """What an async function gives in the page; an error's words where it fails."""
        return self.ask("WebDriver:ExecuteAsyncScript", script=wrapped(script), args=[])["value"]

    def end(self) -> None:
        """Close the browser."""
        with suppress(OSError, ValueError):  # it may be gone before it has answered
            self.ask("Marionette:Quit", flags=["eForceQuit"])
        self.heard.close()
        self.line.close()


def wrapped(script: str) -> str:
    """An async function as both protocols run it."""
    return f"const done = arguments[0]; ({script})().then(done, (error) => done(String(error)));"


@contextmanager
def running(command: list[str], **more: Any) -> Iterator[None]:
    """A program that is ended with the block."""
    process = subprocess.Popen(command, **QUIET, **more)
    try:
        yield
    finally:
        process.terminate()
        try:
            process.wait(ANSWER_S)
        finally:
            process.kill()


@contextmanager
def webkit(folder: Path) -> Iterator[Engine]:
    """A WebKit browser on a display of its own."""
    display, port = f":{90 + os.getpid() % 900}", free_port()
    home = os.environ | {"DISPLAY": display, "HOME": str(folder), "TMPDIR": "/tmp", "XDG_RUNTIME_DIR": str(folder)}
    folder.mkdir(mode=0o700)
    with ExitStack() as stack:
        stack.enter_context(running(["Xvfb", display, "-screen", "0", "500x900x24"]))
        stack.enter_context(running(["WebKitWebDriver", f"--port={port}"], env=home))
        browser = WebKit(f"http://127.0.0.1:{port}")
        until(browser.is_ready)
        stack.callback(browser.end)
        browser.begin()
        yield browser


@contextmanager
def firefox(folder: Path) -> Iterator[Engine]:
    """A Firefox without a display, with a profile of its own."""
    assert FIREFOX
    port = free_port()
    folder.mkdir(mode=0o700)
    (folder / "user.js").write_text(f'user_pref("marionette.port", {port});\n', encoding="utf-8")
    home = os.environ | {"HOME": str(folder), "TMPDIR": "/tmp"}
    command = [FIREFOX, "--headless", "--marionette", "--no-remote", "--profile", str(folder)]
    with ExitStack() as stack:
        stack.enter_context(running(command, env=home))
        until(lambda: answers(port))
        browser = Firefox(port)
        stack.callback(browser.end)
        browser.begin()
        yield browser


def answers(port: int) -> bool:
    """Whether something listens."""
    with socket.socket() as asking:
        return asking.connect_ex(("127.0.0.1", port)) == 0


NEEDED = {
    webkit: [
        *(name for name in ("WebKitWebDriver", "Xvfb") if not shutil.which(name)),
        *([] if MINI_BROWSERS else ["MiniBrowser"]),
    ],
    firefox: [] if FIREFOX else ["firefox-esr"],
}

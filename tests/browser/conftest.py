"""Real pages in a real browser: the server is a process of its own, and there is no other network."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import (
    Browser,
    BrowserContext,
    ConsoleMessage,
    Locator,
    Page,
    Playwright,
    Request,
    expect,
    sync_playwright,
)

from tests.browser.guard import guarded
from tests.browser.serving import Server, by_command, make_ready

if TYPE_CHECKING:
    from tests.browser.phones import InstalledApps, Laptop, Phone

ROOT = Path(__file__).resolve().parents[2]
FLAGS = (
    *("--no-sandbox", "--disable-gpu", "--disable-background-networking"),
    *("--disable-component-update", "--disable-sync"),
)
ONLY_HERE = "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1"
PATIENCE_MS = 120_000
REFUSAL = re.compile(r"^Failed to load resource: the server responded with a status of (409|422)")


def chromium_path() -> str:
    """The system's Chromium."""
    found = shutil.which("chromium") or shutil.which("chromium-browser")
    assert found, "Chromium is not installed"
    return found


@pytest.fixture(autouse=True)
def nothing_stands_still() -> Iterator[None]:
    """Fail a test that waits for what never comes."""
    with guarded():
        yield


@pytest.fixture(scope="session", autouse=True)
def ready_to_serve() -> None:
    """Servers start in a moment."""
    make_ready()


@pytest.fixture(scope="session")
def driver() -> Iterator[Playwright]:
    """What drives browsers; there can only be one."""
    expect.set_options(timeout=PATIENCE_MS)
    with sync_playwright() as playwright:
        yield playwright


@pytest.fixture(scope="session")
def browser(driver: Playwright) -> Iterator[Browser]:
    """One Chromium for all tests."""
    chromium = driver.chromium.launch(executable_path=chromium_path(), args=[*FLAGS, ONLY_HERE], timeout=PATIENCE_MS)
    yield chromium
    chromium.close()


@pytest.fixture(scope="session")
def installed(browser: Browser) -> InstalledApps:
    """Phones that have the app from before, for tests of what is done with it."""
    from tests.browser.phones import InstalledApps  # which starts browsers as this does

    return InstalledApps(browser)


@pytest.fixture
def phones(installed: InstalledApps, laptop: Laptop, tmp_path: Path) -> Iterator[list[Phone]]:
    """Two phones that have joined the laptop of the test's module; at the end nothing may have gone wrong in them."""
    from tests.browser.phones import Phone

    both = [Phone(tmp_path / f"phone-{number}", laptop.address, installed=installed) for number in (1, 2)]
    for number, phone in enumerate(both, 1):
        phone.open()
        phone.join(laptop.code(), f"phone {number}")
    yield both
    for phone in both:
        phone.close()
        assert phone.troubles == []


@pytest.fixture
def another_clock(browser: Browser, laptop: Laptop, tmp_path: Path) -> Iterator[Phone]:
    """A phone that has joined, whose clock can be set: it is lent to nobody afterwards, or timers would stand still."""
    from tests.browser.phones import Phone

    held = Phone(tmp_path / "another phone", laptop.address, browser)
    held.open()
    held.join(laptop.code())
    yield held
    held.close()
    assert held.troubles == []


@dataclass
class Watch:
    """What went wrong in a browser while nobody looked: errors on its console, and calls to other places."""

    home: str
    troubles: list[str] = field(default_factory=list)

    def attach(self, context: BrowserContext) -> None:
        """Watch every page of a context; the browser finds no host but this machine."""
        context.on("request", self._note)
        context.on("console", self._hear)
        context.on("weberror", lambda error: self.troubles.append(str(error.error)))

    def _note(self, request: Request) -> None:
        address = urlsplit(request.url)
        if address.scheme in {"http", "https", "ws", "wss"} and address.netloc != self.home:
            self.troubles.append(f"asked for {request.url}")

    def _hear(self, message: ConsoleMessage) -> None:
        # A form that comes back to be mended is no trouble, though the console calls its status one.
        if message.type in {"error", "warning"} and not REFUSAL.match(message.text):
            self.troubles.append(f"{message.type}: {message.text}")


@contextmanager
def served(book: Path, *more: str) -> Iterator[str]:
    """A book served by a process of its own; the address that opens the desk."""
    server = Server(by_command, str(book), "--port", "0", "--no-browser", *more)
    try:
        address = re.search(r"http://\S+", server.said)
        assert address, server.said
        yield address[0]
    finally:
        server.stop()


@contextmanager
def watched(browser: Browser, address: str, **context: object) -> Iterator[Page]:
    """A page that opened an address; at the end nothing may have gone wrong in it."""
    watch = Watch(urlsplit(address).netloc)
    opened = browser.new_context(**context)  # type: ignore[arg-type]
    try:
        watch.attach(opened)
        opened.set_default_timeout(PATIENCE_MS)
        page = opened.new_page()
        page.goto(address)
        yield page
    finally:
        opened.close()
    assert watch.troubles == []


def save(page: Page) -> None:
    """Press the form's own button, and wait for the page that comes of it."""
    with page.expect_navigation():
        page.get_by_role("button", name="Save", exact=True).click()


def follow(page: Page, link: Locator) -> None:
    """Click a link, and wait until all of the page it leads to is there, with its scripts."""
    with page.expect_navigation():
        link.click()


def open_headings(page: Page) -> None:
    """Open all that a form has folded under its headings, as a person does who looks for a field there."""
    for heading in page.locator("form.entry details:is(.group, .more):not([open]) > summary").all()[::-1]:
        if heading.is_visible():
            heading.click()

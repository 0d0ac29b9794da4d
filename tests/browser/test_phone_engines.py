"""The app in WebKit, the engine of every browser on an iPhone, and in Firefox: joined, offline, an entry, a photograph.

An engine that is not installed is passed over; the set-up brings both where it may (webkit2gtk-driver, xvfb,
firefox-esr).
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager
from pathlib import Path
from typing import Any

import pytest

from fieldbook.book.examine import examine
from fieldbook.book.opening import create_book
from tests.browser.engines import NEEDED, Engine, firefox, webkit
from tests.browser.phones import CONTROLLED, Laptop
from tests.sites import survey

# WebKit asks nobody any more, now and then, once a server was away and other browsers are at work beside it.
pytestmark = [pytest.mark.slow, pytest.mark.alone]

# Waits in the page itself until it says something, or comes to what is asked for.
SAYS = """async () => {
  const end = Date.now() + 240_000;
  while (Date.now() < end) {
    const said = document.body?.innerText ?? "";
    if (%s.every((words) => said.includes(words))) return "";
    await new Promise((go) => setTimeout(go, 50));
  }
  return document.body?.innerText ?? "nothing";
}"""
FILL = """async () => {
  const end = Date.now() + 240_000;
  for (const [id, value] of %s) {
    while (!document.getElementById(id) && Date.now() < end) await new Promise((go) => setTimeout(go, 50));
    const input = document.getElementById(id);
    input.value = value;
    input.dispatchEvent(new Event("input", { bubbles: true }));
  }
}"""
PRESS = """async () => {
  const end = Date.now() + 240_000;
  while (Date.now() < end) {
    const buttons = [...document.querySelectorAll(".action, button")].filter((one) => !one.closest("[inert]"));
    const found = buttons.find((one) => one.textContent.trim() === %s);
    if (found) return found.click();
    await new Promise((go) => setTimeout(go, 50));
  }
  return document.body.innerText;
}"""
# A press while a run is on its way to fail begins none: pressed again until one came through.
SEND = """async () => {
  const end = Date.now() + 240_000;
  const badge = document.getElementById("waits");
  while (Date.now() < end && !badge.textContent.includes("all sent")) {
    const button = [...document.querySelectorAll(".action")].find((one) => one.textContent.trim() === "Send now");
    if (badge.ariaBusy === "false") button?.click();
    await new Promise((go) => setTimeout(go, 200));
  }
  return badge.textContent.includes("all sent") ? "" : document.body.innerText;
}"""
TAKE = """async () => {
  const canvas = Object.assign(document.createElement("canvas"), { width: 64, height: 48 });
  canvas.getContext("2d").fillRect(8, 8, 20, 20);
  const blob = await new Promise((keep) => canvas.toBlob(keep, "image/jpeg"));
  const files = new DataTransfer();
  files.items.add(new File([blob], "a.jpg", { type: "image/jpeg" }));
  const input = document.getElementById("camera-file");
  input.files = files.files;
  input.dispatchEvent(new Event("change", { bubbles: true }));
  return "";
}"""


@pytest.fixture(params=[webkit, firefox], ids=["WebKit", "Firefox"])
def engine(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Engine]:
    """A browser of another engine."""
    opened: Callable[[Path], AbstractContextManager[Engine]] = request.param
    if absent := NEEDED[opened]:
        pytest.skip(f"not installed: {', '.join(absent)}")
    with opened(tmp_path / "profile") as browser:
        yield browser


@pytest.fixture
def laptop(tmp_path: Path) -> Iterator[Laptop]:
    """A served book with a site, a room and a face."""
    with create_book(tmp_path / "book") as book:
        survey(book)
    running = Laptop(tmp_path / "book")
    running.start()
    yield running
    running.stop()


def says(browser: Engine, *words: str) -> None:
    """Wait until the page says all of these."""
    left = browser.run(SAYS % json.dumps(words))
    assert left == "", f"{words} never came; the page says: {left}"


def does(browser: Engine, script: str, given: Any = None) -> None:
    """Run something in the page that says nothing when it went well."""
    told = browser.run(script % json.dumps(given) if given is not None else script)
    assert not told, told


def test_phone_joins_works_offline_and_sends_an_entry_and_a_photograph(engine: Engine, laptop: Laptop) -> None:
    """Joined by the square's address; it opens with the laptop stopped, and a room and a photograph arrive."""
    engine.open(f"{laptop.address}?join={laptop.code()}")
    says(engine, "Join the book")
    does(engine, FILL, [["join-name", "another phone"]])
    does(engine, PRESS, "Join")
    says(engine, "Long room", "all sent")
    engine.run(CONTROLLED)

    laptop.stop()
    engine.open(laptop.address)
    says(engine, "Long room")
    does(engine, "async () => { location.hash = '#/new/room'; }")
    does(engine, FILL, [["name", "Store"], ["mark", "R2"]])
    does(engine, PRESS, "Save")
    says(engine, "1 not sent", "Store")
    with laptop.book() as book:
        (face,) = book.items("face")
    does(engine, f"async () => {{ location.hash = '#/photograph/{face['id']}'; }}")
    says(engine, "Take the photograph")
    does(engine, TAKE)
    says(engine, "64 × 48 px")
    does(engine, FILL, [["purpose", "as found"]])
    does(engine, PRESS, "Save")
    says(engine, "3 not sent")
    engine.open(laptop.address)
    says(engine, "3 not sent")

    laptop.start()
    does(engine, "async () => { location.hash = '#/waiting'; }")
    says(engine, "Send now")
    does(engine, SEND)
    with laptop.book() as book:
        assert {room["name"] for room in book.items("room")} == {"Long room", "Store"}
        (photograph,) = book.items("photograph")
        assert (photograph["subject"], photograph["width_px"]) == (face["id"], 64)
        assert examine(book) == []

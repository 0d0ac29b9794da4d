"""A phone and a laptop of different versions, in a real browser: what is not known is kept, and told."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import expect

from fieldbook.book.identity import uuid7
from fieldbook.book.opening import create_book
from tests.books.newer import from_a_newer_version
from tests.browser.phones import WRITE, InstalledApps, Laptop, Phone, in_the_book
from tests.sites import survey

BY_HAND = in_the_book(
    """
  const { Runner } = (await import("/phone/app.js")).modules["phone/sync/runner.js"];
  const runner = new Runner(notebook);
  if (given) {  // as an app would that knows one field more
    const room = notebook.registry.kinds.get("room");
    room.byAnyName.set(given, { ...room.byName.get("use"), name: given });
    notebook.registry.described = "fingerprint of a newer version";
  }
  await within(240_000, "no run of its own", async (done) => {
    while (!runner.progress.shell) {  // the app's own may be under way
      await navigator.locks.request("fieldbook-sync", () => {});
      await runner.run({ byHand: true });
    }
    done();
  });
  await notebook.load();
  const reasons = notebook.outbox.map(({ findings }) => findings?.map(({ error }) => error) ?? []);
  return { problem: runner.progress.problem, cursor: notebook.cursor, shelf: notebook.shelf.length, reasons };"""
)
OUTBOX_NEWER = in_the_book(
    """
  const { record } = (await import("/phone/app.js")).modules["phone/store/ledger.js"];
  const { device } = notebook.facts;
  await record([{ device, at: "2026-05-31T14:30:00+01:00", base: notebook.cursor, ...given }]);"""
)


@pytest.fixture
def laptop(tmp_path: Path, installed: InstalledApps) -> Iterator[Laptop]:
    """A served book with a site, a room and a face."""
    with create_book(tmp_path / "book") as book:
        survey(book)
    running = Laptop(tmp_path / "book", installed.port)
    running.start()
    yield running
    running.stop()


@pytest.fixture
def phone(installed: InstalledApps, laptop: Laptop, tmp_path: Path) -> Iterator[Phone]:
    """A phone that has joined."""
    held = Phone(tmp_path / "phone", laptop.address, installed=installed)
    held.open()
    held.join(laptop.code())
    yield held
    held.close()
    assert held.troubles == []


def entry(kind: str, item: str, values: dict[str, Any]) -> dict[str, Any]:
    """An entry of a newer version."""
    return {"id": uuid7(), "kind": kind, "item": item, "set": values}


def room_of(laptop: Laptop) -> str:
    """The room of the book."""
    with laptop.book() as book:
        return book.items("room")[0]["id"]


def test_s15_phone_keeps_all_and_pulls_on_where_the_laptop_runs_an_older_fieldbook(
    laptop: Laptop, phone: Phone
) -> None:
    """Nothing goes up into a newer version's book; what it holds comes down, and the app says why."""
    room = room_of(laptop)
    phone.page.context.set_offline(True)
    phone.page.evaluate(WRITE, [{"kind": "room", "item": room, "set": {"use": "weighing"}}])
    from_a_newer_version(laptop.folder, [entry("room", room, {"smell": "tar"})])
    phone.page.context.set_offline(False)
    came = phone.page.evaluate(BY_HAND, None)
    assert "newer Fieldbook" in came["problem"]
    assert (came["reasons"], came["shelf"]) == ([[]], 0)
    with laptop.book() as book:
        assert came["cursor"] == book.revision()


def test_s17_phone_shows_what_it_knows_and_changes_nothing_it_does_not_know_all_of(
    laptop: Laptop, phone: Phone
) -> None:
    """An item with a newer version's field is read, and its form is not opened; a kind that is not known is told of."""
    room = room_of(laptop)
    from_a_newer_version(
        laptop.folder, [entry("room", room, {"smell": "tar"}), entry("survey flight", uuid7(), {"name": "from above"})]
    )
    phone.page.evaluate(BY_HAND, None)
    phone.page.reload()
    expect(phone.page.locator("[data-about=newer-book]")).to_contain_text("newer Fieldbook")
    phone.page.goto(f"{laptop.address}phone/#/item/{room}")
    expect(phone.page.locator("#page")).to_contain_text("From a newer Fieldbook")
    expect(phone.page.locator("#page")).to_contain_text("tar")
    phone.page.goto(f"{laptop.address}phone/#/change/{room}")
    expect(phone.page.locator("#page")).to_contain_text("For a newer version of this app")
    expect(phone.page.locator("#page form")).to_have_count(0)


def test_s17_phone_sends_nothing_its_own_version_does_not_know(laptop: Laptop, phone: Phone) -> None:
    """What a newer app has left in the outbox stays there, is told of, and does not hold up the rest."""
    room = room_of(laptop)
    phone.page.evaluate(OUTBOX_NEWER, entry("room", room, {"smell": "tar"}))
    with laptop.book() as book:
        face = book.items("face")[0]["id"]
    phone.page.evaluate(WRITE, [{"kind": "face", "item": face, "set": {"note": "sound"}}])
    came = phone.page.evaluate(BY_HAND, None)
    assert (came["problem"], came["reasons"], came["shelf"]) == (None, [[]], 0)
    with laptop.book() as book:
        assert book.item(face)[1]["note"] == "sound"
        assert len(book.history(room)) == 1
    phone.page.goto(f"{laptop.address}phone/#/waiting")
    expect(phone.page.locator("#page")).to_contain_text("made with a newer version of this app")


def test_s16_newer_phones_entry_waits_with_the_reason(laptop: Laptop, phone: Phone) -> None:
    """An app that knows a field the laptop does not keeps the entry in the outbox, and says which is the older."""
    room = room_of(laptop)
    phone.page.evaluate(OUTBOX_NEWER, entry("room", room, {"smell": "tar"}))
    came = phone.page.evaluate(BY_HAND, "smell")
    assert (came["reasons"], came["shelf"]) == ([["newer-entry"]], 0)
    with laptop.book() as book:
        assert len(book.history(room)) == 1

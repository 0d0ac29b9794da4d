"""The whole job of the invented site entered by hand at the desk: clicks, fields and characters.

Its ledger is typed again into an empty book, item by item, in a real browser; at the end both books must say the
same. What is drawn with a finger, a signature, is left out, and pictures are small ones.

Run by hand, some twenty minutes: python -m tests.bench.count_desk [--forms-alone] [PART …]
"""

from __future__ import annotations

import argparse
import os
import tempfile
import time
from collections.abc import Collection, Iterable, Iterator, Mapping
from itertools import groupby
from pathlib import Path
from typing import Any
from urllib.parse import parse_qs, urljoin, urlsplit

from playwright.sync_api import Page, sync_playwright

import demo_site
from demo_site import logged, photographs
from fieldbook.book import ledger
from fieldbook.book.book import Book, create_book, open_book
from fieldbook.model.fields import Field, Type
from fieldbook.model.kinds import KINDS, Kind
from tests.bench.typist import Count, Typist, typed
from tests.browser.conftest import FLAGS, chromium_path, served
from tests.sites import picture

Entry = Mapping[str, Any]
BY_HAND = 3  # of a long series of readings so many are typed at either end; the others cost the same
NOT_TYPED = ("signature", "sha256", "size_bytes", "media_type", "width_px", "height_px")
PUT_UP = "Put up and taken down"
PARTS: Mapping[str, tuple[str, ...]] = {
    "Survey": ("site", "room", "face", "zone", "limit", "hold", "member"),
    "Plan": ("finish", "material", "fitting", "fixing"),
    PUT_UP: (),
    "Agreed": ("agreement", "decision"),
    "Watched": ("reading", "observation", "log"),
    "Care, visits, money": ("task", "visit", "cost"),
    "Photographs": ("photograph",),
}


def steps_of(book: Book) -> list[tuple[str, bool, list[Entry]]]:
    """What was entered, in order: kind, whether the items are new, and the entries made one after the other."""
    seen: set[str] = set()
    told = []
    for (row,) in book.db.execute("SELECT item FROM ledger ORDER BY revision"):
        told.append(row not in seen)
        seen.add(row)
    entries = zip(ledger.entries(book.db), told, strict=True)
    return [
        (kind, new, [entry for entry, _ in group])
        for (kind, new), group in groupby(entries, key=lambda pair: (pair[0]["kind"], pair[1]))
    ]


class ByForms:
    """One form after the other, each begun like the last one where that spares something."""

    def __init__(self, page: Page):
        self.ids: dict[str, str] = {}
        self.site = ""
        self.typist = Typist(page, lambda: self.ids[self.site])
        self.page = page

    def enter(self, kind: Kind, entries: list[Entry]) -> None:
        """New items of one kind."""
        if kind.name == "reading":  # whoever types them takes one series after the other
            entries = sorted(
                entries, key=lambda entry: [str(entry["set"].get(one.name)) for one in kind.asked if one.copied]
            )
        last: Mapping[str, Any] | None = None
        for number, entry in enumerate(entries):
            values = self.meant(entry)
            if last is not None and kind.name == "reading" and self._in_series(kind, entries, number):
                last = self._as_those_before(kind, entry)
                continue
            if last is None:
                self._begin(kind, values)
            if kind.with_a_file:
                self._choose_file(kind, number)
            self.typist.fill(kind, values)
            after = entries[number + 1]["set"] if number + 1 < len(entries) else None
            goes_on = after is not None and self._like_pays(kind, entry["set"], after)
            self.typist.press("Save and enter another like it" if goes_on else self._save(kind))
            self._note(entry, goes_on)
            last = values if goes_on else None

    def _in_series(self, kind: Kind, entries: list[Entry], number: int) -> bool:
        """Whether the same was typed by hand several times just before, and goes on after this one."""
        near = entries[max(number - BY_HAND, 0) : number + 2]
        alike = [{field.name: one["set"].get(field.name) for field in kind.asked if field.copied} for one in near]
        return len(near) == BY_HAND + 2 and all(one == alike[0] for one in alike)

    def _as_those_before(self, kind: Kind, entry: Entry) -> Mapping[str, Any]:
        """One more of a series, counted like those before it, which were typed; it goes into the book at once."""
        values = self.meant(entry)
        own = [field for field in kind.asked if not field.copied and field.name in values]
        self.typist.count += Count(1, len(own), sum(len(typed(field, values[field.name])) for field in own))
        with open_book(self.folder) as book:
            self.ids[entry["item"]] = book.write(kind.name, values)
        address = f"/site/{self.ids[self.site]}/new/{kind.name}?like={self.ids[entry['item']]}"
        self.page.goto(urljoin(self.page.url, address))
        return values

    def change(self, kind: Kind, entries: list[Entry]) -> None:
        """Items that are there already; the first few by hand, the others cost as many clicks each."""
        for number, entry in enumerate(entries):
            before, values = self.typist.count, self.meant(entry)
            if number < 2 * BY_HAND:
                self._change_one(kind, self.ids[entry["item"]], values)
                clicks = (self.typist.count - before).clicks
                continue
            fields = [kind.by_name[name] for name in values]
            self.typist.count += Count(clicks, len(fields), sum(len(typed(one, values[one.name])) for one in fields))
            with open_book(self.folder) as book:
                book.write(kind.name, values, self.ids[entry["item"]])

    def _change_one(self, kind: Kind, item: str, changed: Mapping[str, Any]) -> None:
        values = self.typist_values(kind, item) | changed
        for address in (f"/face/{values.get('face')}", f"/item/{item}", f"/item/{item}/change"):
            self.typist.go(address)
        self.typist.fill(kind, values)
        self.typist.press("Save")

    def at_once(self, kind: Kind, entries: list[Entry]) -> None:
        """Into the book without a hand, and without being counted."""
        with open_book(self.folder) as book:
            for entry in entries:
                values = {name: value for name, value in entry["set"].items() if value is not None}
                linked = {name: self._linked(kind.by_name[name], value) for name, value in values.items()}
                self.ids[entry["item"]] = book.write(kind.name, linked, self.ids.get(entry["item"]))
        if kind.name == "site":
            self.site = entries[0]["item"]

    def typist_values(self, kind: Kind, item: str) -> dict[str, Any]:
        """What the form of an item shows before anything is changed."""
        with open_book(self.folder) as book:
            return {name: value for name, value in book.item(item)[1].items() if name in kind.by_name}

    folder: Path

    def meant(self, entry: Entry) -> dict[str, Any]:
        """The values of an entry with the ids that this book has."""
        kind = KINDS[entry["kind"]]
        return {
            name: self._linked(kind.by_name[name], value)
            for name, value in entry["set"].items()
            if value is not None and name not in NOT_TYPED
        }

    def _linked(self, field: Field, value: Any) -> Any:
        if field.type is Type.LINK:
            return self.ids[value]
        return [self.ids[one] for one in value] if field.type is Type.LINKS else value

    def _begin(self, kind: Kind, values: Mapping[str, Any]) -> None:
        """Open an empty form from the page of what the item belongs to."""
        if kind.name == "site":
            self.typist.go("/site/new")
            return
        around = next((values[name] for name in ("face", "room", kind.parent) if values.get(name)), None)
        if kind.with_a_file:
            around = values.get("subject") or values[kind.parent]
        assert around
        self.typist.go(self.page_of(around))
        link = self.page.locator(f'main a[href*="/new/{kind.name}?"], main a[href$="/new/{kind.name}"]')
        if kind.name == "photograph":
            link = self.page.locator('main a[href*="/photographs/new"]')
        elif kind.name == "log":
            link = self.page.locator('main a[href*="/logger-files/new"]')
        with self.page.expect_navigation():
            self.typist.click(link.filter(visible=True).first)

    def page_of(self, item: str) -> str:
        """The address of an item's page."""
        with open_book(self.folder) as book:
            kind = book.item(item)[0]
        return f"/{kind if kind in ('site', 'room', 'face') else 'item'}/{item}"

    def _choose_file(self, kind: Kind, number: int) -> None:
        """The picker of files is no page of ours, and is counted as two clicks."""
        content = logged.file() if kind.name == "log" else picture(64 + number)
        self.page.locator("#files").set_input_files({"name": "a", "mimeType": "image/jpeg", "buffer": content})
        self.typist.count.clicks += 2

    @staticmethod
    def _like_pays(kind: Kind, values: Mapping[str, Any], after: Mapping[str, Any]) -> bool:
        """Whether another like this one has more in common with it than an empty form."""
        if kind.with_a_file or kind.name == "site":
            return False
        copied = {field.name for field in kind.asked if field.copied and field.name in values}
        alike = sum(values[name] == after.get(name) for name in copied)
        return alike >= len(copied) - alike

    @staticmethod
    def _save(kind: Kind) -> str:
        return "Add" if kind.with_a_file else "Save"

    def _note(self, entry: Entry, goes_on: bool) -> None:
        """Remember what id the item got."""
        if refused := self.page.locator("#refused").all():
            raise AssertionError(f"{entry}: {refused[0].inner_text()}")
        address = urlsplit(self.page.url)
        item = parse_qs(address.query)["like"][0] if goes_on else address.path.split("/")[2]
        if entry["kind"] == "photograph":
            with open_book(self.folder) as book:
                item = book.items("photograph")[-1]["id"]
        self.ids[entry["item"]] = item
        if entry["kind"] == "site":
            self.site = entry["item"]


def counted(way: ByForms, steps: Iterable[tuple[str, bool, list[Entry]]], parts: Collection[str]) -> dict[str, Count]:
    """What each of these parts of the job costs; the others go into the book at once."""
    found = {part: Count() for part in parts}
    for kind_name, new, entries in steps:
        kind = KINDS[kind_name]
        own = next((part for part, kinds in PARTS.items() if kind_name in kinds), "")
        part = own if new else PUT_UP
        if part not in parts:
            way.at_once(kind, entries)
            continue
        before, begun = way.typist.count, time.monotonic()
        way.typist.count = Count()
        (way.enter if new else way.change)(kind, entries)
        found[part] += way.typist.count
        cost, way.typist.count = way.typist.count, before + way.typist.count
        took = time.monotonic() - begun
        print(f"{kind_name:12}{'new' if new else 'changed':9}{len(entries):5}{_told(cost)}   {took:5.0f} s", flush=True)
    return found


def _told(cost: Count) -> str:
    return f"{cost.clicks:7,} clicks{cost.fields:8,} fields{cost.characters:9,} characters"


def differences(one: Book, other: Book, ids: Mapping[str, str]) -> Iterator[str]:
    """What the book that was typed says otherwise than the one it was typed from."""

    def here(value: Any) -> Any:
        if isinstance(value, list):
            return sorted(here(each) for each in value) if all(isinstance(each, str) for each in value) else value
        return ids.get(value, value) if isinstance(value, str) else value

    for kind in KINDS.values():
        typed = {item["id"]: item for item in other.items(kind.name)}
        for item in one.items(kind.name):
            for field in kind.asked:
                meant, found = item[field.name], typed[ids[item["id"]]][field.name]
                if field.name not in NOT_TYPED and here(meant) != (
                    sorted(found) if field.type in (Type.LINKS, Type.CHOICES) and found else found
                ):
                    yield f"{kind.name} {item.get(kind.numbered_by)}: {field.name} is {found!r}, not {meant!r}"


def main() -> None:
    """All of it, on this machine."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--forms-alone", action="store_true")
    parser.add_argument("parts", nargs="*", default=list(PARTS), help=f"of: {', '.join(PARTS)}")
    asked = parser.parse_args()
    os.environ["TZ"] = "Europe/London"
    time.tzset()
    with tempfile.TemporaryDirectory(dir="/tmp") as name, sync_playwright() as driver:  # noqa: S108 - sockets want short paths
        folder = Path(name)
        with create_book(folder / "meant") as meant:
            demo_site.make(meant, drawn=lambda: [(shot, picture(64 + at)) for at, shot in enumerate(photographs.SHOTS)])
            steps = steps_of(meant)
        create_book(folder / "typed").close()
        browser = driver.chromium.launch(executable_path=chromium_path(), args=list(FLAGS))
        with served(folder / "typed") as address:
            page = browser.new_page(viewport={"width": 1440, "height": 900})
            page.set_default_timeout(60_000)
            page.goto(address)
            way = ByForms(page)
            way.folder = folder / "typed"
            found = counted(way, steps, asked.parts)
        with open_book(folder / "meant") as meant, open_book(folder / "typed") as found_book:
            wrong = list(differences(meant, found_book, way.ids))
        assert not wrong, "\n".join(wrong)
        print()
        for part, cost in found.items():
            print(f"{part:26}{_told(cost)}")
        print(f"{'All':26}{_told(sum(found.values(), Count()))}")


if __name__ == "__main__":
    main()

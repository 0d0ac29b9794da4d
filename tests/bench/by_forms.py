"""The job with forms alone: one after the other, each begun like the last one where that spares something."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import groupby
from pathlib import Path
from typing import Any
from urllib.parse import parse_qs, urljoin, urlsplit

from playwright.sync_api import Page

from demo_site import logged
from fieldbook.book.opening import open_book
from fieldbook.model.fields import Field, Type
from fieldbook.model.kinds import KINDS, Kind
from tests.bench.typist import Count, Typist, letters
from tests.sites import noted as noted_by_camera
from tests.sites import picture

Entry = Mapping[str, Any]
BY_HAND = 3  # of a long series so many are typed at either end; the others cost the same
NOT_TYPED = ("signature", "fitter_signature", "sha256", "size_bytes", "media_type", "width_px", "height_px")


def taken(number: int, values: Mapping[str, Any]) -> bytes:
    """A picture like no other, whose camera noted when."""
    moment, offset = values.get("taken_at", "")[:19], values.get("taken_at", "")[-6:]
    return picture(64 + number, exif=noted_by_camera(moment.replace("-", ":").replace("T", " "), offset))


class ByForms:
    """One form after the other, each begun like the last one where that spares something."""

    by_keys = False

    def __init__(self, page: Page, folder: Path):
        self.folder = folder
        self.ids: dict[str, str] = {}
        self.site = ""
        self.typist = Typist(page, lambda: self.ids[self.site], self.by_keys)
        self.page = page

    def enter_fittings(self, fittings: list[Entry], fixings: list[Entry]) -> None:
        """New fittings, and then the fixings of them all."""
        self.enter(KINDS["fitting"], fittings)
        self.enter(KINDS["fixing"], fixings)

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
                self._choose_file(kind, number, values)
            noted = kind.name == "photograph" and "taken_at" in values
            self.typist.fill(kind, {name: value for name, value in values.items() if not noted or name != "taken_at"})
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
        self.typist.count += Count(1, len(own), sum(letters(field, values[field.name]) for field in own))
        with open_book(self.folder) as book:
            self.ids[entry["item"]] = book.write(kind.name, values)
        address = f"/site/{self.ids[self.site]}/new/{kind.name}?like={self.ids[entry['item']]}"
        self.page.goto(urljoin(self.page.url, address))
        return values

    def cite(self, entries: list[Entry]) -> None:
        """What rests on documents, a form for each that does."""
        for name, found in groupby(entries, key=lambda entry: entry["kind"]):
            self.change(KINDS[name], list(found))

    def change(self, kind: Kind, entries: list[Entry]) -> None:
        """Items that are there already; the first few by hand, the others cost as many clicks each."""
        for number, entry in enumerate(entries):
            before, values = self.typist.count + Count(), self.meant(entry)
            if number < 2 * BY_HAND:
                self._change_one(kind, self.ids[entry["item"]], values)
                clicks = (self.typist.count - before).clicks
                continue
            fields = [kind.by_name[name] for name in values]
            self.typist.count += Count(clicks, len(fields), sum(letters(one, values[one.name]) for one in fields))
            with open_book(self.folder) as book:
                book.write(kind.name, values, self.ids[entry["item"]])

    def _change_one(self, kind: Kind, item: str, changed: Mapping[str, Any]) -> None:
        values = self.typist_values(kind, item) | changed
        around = f"/face/{values['face']}" if values.get("face") else f"/site/{self.ids[self.site]}/all/{kind.name}"
        for address in (around, f"/item/{item}", f"/item/{item}/change"):
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

    def _choose_file(self, kind: Kind, number: int, values: Mapping[str, Any]) -> None:
        """The picker of files is no page of ours, and is counted as two clicks; a picture says when it was taken."""
        content = taken(number, values) if kind.name == "photograph" else logged.file()
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

"""Entering the invented site in a book the way it came about: survey, plan, fitting, inspection, taking down.

Every entry bears the day it would have been made on and the device it would have been made with, so
that an item's history tells its story.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from fieldbook.book.book import Book
from fieldbook.book.identity import uuid7
from fieldbook.book.ledger import Status
from fieldbook.errors import Refused
from fieldbook.model.fields import Type
from fieldbook.model.kinds import KINDS

from .booking import Values

DESK, PHONE = "desk", "fitter’s phone"
NAMED_BY = ("mark", "reference")
AS_FITTED = ("fitted_x_mm", "fitted_z_mm", "fitted_on", "fitted_by", "taken_down_on")


class Desk:
    """Someone entering items that name one another by their marks.

    ids  mark -> id of everything entered so far; the site is “site”
    """

    def __init__(self, book: Book):
        self.book = book
        self.ids: dict[str, str] = {}

    def enter(self, kind: str, items: Iterable[Mapping[str, Any]], at: str, device: str = DESK) -> list[str]:
        """New items of one kind, all in one go; returns their ids. Raises Refused."""
        entries, ids = [], []
        for item in items:
            values = dict(item)
            if "site" in KINDS[kind].by_name:
                values["site"] = "site"
            new = uuid7()
            ids.append(new)
            for name in NAMED_BY:
                if values.get(name):
                    self.ids[values[name]] = new
            entries.append(self._entry(kind, new, values, at, device))
        self._send(entries)
        return ids

    def change(self, kind: str, changes: Mapping[str, Mapping[str, Any]], at: str, device: str = PHONE) -> None:
        """Changes of items already entered, by their marks, all in one go. Raises Refused."""
        self._send([self._entry(kind, self.ids[mark], values, at, device) for mark, values in changes.items()])

    def _entry(self, kind: str, item: str, values: Mapping[str, Any], at: str, device: str) -> Values:
        given = {name: self._linked(kind, name, value) for name, value in values.items() if value is not None}
        base = self.book.revision()
        return {"id": uuid7(), "device": device, "at": at, "kind": kind, "item": item, "base": base, "set": given}

    def _linked(self, kind: str, name: str, value: Any) -> Any:
        field = KINDS[kind].by_name.get(name)
        if field and field.type is Type.LINK:
            return self.ids[value]
        if field and field.type is Type.LINKS:
            return [self.ids[mark] for mark in value]
        return value

    def _send(self, entries: list[Values]) -> None:
        findings = [
            finding
            for answer in self.book.append(entries)
            if answer.status is not Status.ACCEPTED
            for finding in answer.findings
        ]
        if findings:
            raise Refused(findings)


def as_planned(item: Values) -> Values:
    """The item before anything of it was up: without what is known only from the fitting."""
    if item["state"] == "planned":
        return item
    return {name: value for name, value in item.items() if name not in (*AS_FITTED, "note")} | {"state": "planned"}


def as_fitted(item: Values) -> Values:
    """What the fitting changed of it."""
    known = [name for name in AS_FITTED if name != "taken_down_on"]
    if item["state"] == "fitted":
        known.append("note")
    return {name: item[name] for name in known if name in item} | {"state": "fitted"}


def as_taken_down(item: Values) -> Values:
    """What taking it down changed of it."""
    return {name: item[name] for name in ("state", "taken_down_on", "note") if name in item}

"""Entering the invented site in a book the way it came about: survey, plan, fitting, inspection, taking down.

Every entry bears the day it would have been made on and the device it would have been made with, so
that an item's history tells its story.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import count
from typing import Any

from fieldbook.book.book import Book
from fieldbook.book.entering import enter
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
        self._without_mark = count(1)

    def enter(self, kind: str, items: Iterable[Mapping[str, Any]], at: str, device: str = DESK) -> None:
        """New items of one kind, all in one go. Raises Refused."""
        of_site = {"site": "site"} if "site" in KINDS[kind].by_name else {}
        self._enter([self._line(kind, self._name(kind, item), {**item, **of_site}) for item in items], at, device)

    def change(self, kind: str, changes: Mapping[str, Mapping[str, Any]], at: str, device: str = PHONE) -> None:
        """Changes of items already entered, by their marks, all in one go. Raises Refused."""
        self._enter([self._line(kind, mark, values) for mark, values in changes.items()], at, device)

    def _name(self, kind: str, item: Mapping[str, Any]) -> str:
        if kind == "site":
            return kind
        return next((item[name] for name in NAMED_BY if item.get(name)), f"{kind} {next(self._without_mark)}")

    @staticmethod
    def _line(kind: str, name: str, values: Mapping[str, Any]) -> Values:
        given = {field: value for field, value in values.items() if value is not None}
        return {"kind": kind, "item": name, "set": given}

    def _enter(self, lines: list[Values], at: str, device: str) -> None:
        if lines:
            self.ids |= enter(self.book, lines, self.book.folder, device=device, at=at, known=self.ids).ids


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

"""Fields that two devices set without having seen each other: side by side, settled with one click."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from flask import Blueprint, flash, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from ...book.book import Book
from ...book.gathering import gather, site_of
from ...book.site import Item
from ...book.tables import WITHDRAWN
from ...errors import UnknownItem
from ...model.fields import Field
from ...model.kinds import KINDS, Kind
from ..books import book, device_names, item_of
from ..shown.filters import plain, titles_of

blueprint = Blueprint("conflicts", __name__, url_prefix="/conflicts")


@dataclass(frozen=True)
class Side:
    """One of two values, and where it came from."""

    revision: int
    device: str
    at: str
    words: str


@dataclass(frozen=True)
class Conflict:
    """Two values of one field of an item; the later one shows until one of them is chosen."""

    item: Item
    field: str
    label: str
    sides: tuple[Side, Side]


@blueprint.get("")
def every() -> str:
    """All conflicts that wait."""
    devices = device_names()
    titles = cache(lambda site: titles_of(gather(book(), site)))  # of each site once, however many wait on it
    waiting = [_conflict(book(), row, devices, titles) for row in book().conflicts()]
    return render_template("conflicts/every.html", conflicts=waiting)


@blueprint.post("/settle")
def settle() -> Response:
    """Let one of the two values stand, by a new entry that says so."""
    item, field, revision = (request.form.get(name, "") for name in ("item", "field", "revision"))
    value = _value_of(book(), item, field, revision)
    if field == WITHDRAWN:
        book().withdraw(item, value)
    else:
        book().write(item_of(item).kind, {field: value}, item)
    flash("Settled. The history keeps both.")
    return redirect(url_for(".every"), 303)


def _conflict(
    opened: Book, row: Mapping[str, Any], devices: Mapping[str, str], titles_on: Callable[[str], Mapping[str, str]]
) -> Conflict:
    item = item_of(row["item"])
    kind = KINDS[item.kind]
    field = kind.by_name.get(row["field"])
    titles = titles_on(site_of(opened, item.id))
    sides = []
    for entry in opened.history(item.id):
        if entry["revision"] in (row["earlier"], row["later"]):
            words = "; ".join(_words(kind, field, entry, titles))
            sides.append(Side(entry["revision"], devices.get(entry["device"], entry["device"]), entry["at"], words))
    return Conflict(item, row["field"], field.label if field else "State", (sides[0], sides[1]))


def _words(kind: Kind, field: Field | None, entry: Mapping[str, Any], titles: Mapping[str, str]) -> Iterator[str]:
    """One side in words; where the quarrel is whether the item stays, with what was changed in it."""
    yield plain(field, _set_by(entry, field.name if field else WITHDRAWN), titles)
    if field is None:
        for name, value in entry.get("set", {}).items():
            yield f"{kind.by_name[name].label}: {plain(kind.by_name[name], value, titles)}"


def _set_by(entry: Mapping[str, Any], field: str) -> Any:
    return entry.get("withdraw", False) if field == WITHDRAWN else entry["set"].get(field)


def _value_of(opened: Book, item: str, field: str, revision: str) -> Any:
    """The value one side of a waiting conflict gave; raises UnknownItem when there is none such."""
    for row in opened.conflicts():
        if row["item"] == item and row["field"] == field and revision in {str(row["earlier"]), str(row["later"])}:
            entry = next(entry for entry in opened.history(item) if str(entry["revision"]) == revision)
            return _set_by(entry, field)
    raise UnknownItem("That conflict is settled already.", "Look at the list again.", field="revision", value=revision)

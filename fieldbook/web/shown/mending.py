"""Where a finding that is not known can be mended: the form that holds what is missing, at its input."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from flask import url_for

from ...book.site import Item, Site
from ...checks.verdict import Word
from ...errors import FieldbookError
from ...findings import Finding
from ...findings.asking import label_of
from ...findings.finding import Blank
from ...findings.load_paths import carried
from ...findings.open_points import Point
from ...model.kinds import KINDS
from ..forms.of_kind import fields_of

# what a check calls it -> the fields of items that hold it
HELD_IN = {"projection": ("build_up", "stands_out_mm"), "connector": ("sort",), "specific_gravity": ("grips",)}


@dataclass(frozen=True)
class Mending:
    """What to do about a finding, and the address where."""

    words: str
    address: str


def mending_of(site: Site, finding: Finding) -> Mending | None:
    """Where to enter what a finding lacks; None where nothing is lacking."""
    if finding.missing:
        return entry_of(site, finding.missing[0])
    if finding.verdict.word is not Word.NOT_KNOWN:
        return None
    missing = next(iter(finding.verdict.missing), "")
    around = list(_around(site, finding))
    for empty_only in (True, False):
        for item in around:
            for field in fields_of(KINDS[item.kind]):
                is_empty = item.values[field.name] in (None, [])
                if field.name in HELD_IN.get(missing, (missing,)) and (is_empty or not empty_only):
                    words = f"{'Enter' if is_empty else 'Look at'} “{field.label}” of {item.called}"
                    return Mending(words, url_for("entries.change", item=item.id, _anchor=field.name))
    return Mending(f"Look at {finding.subject.called}", url_for("entries.change", item=finding.subject.id))


def place_of(site: Site, point: Point) -> Mending:
    """Where an open point is entered or looked at."""
    if point.blank:
        return entry_of(site, point.blank)
    return Mending(f"Look at {point.item.called}", url_for("items.show", item=point.item.id))


def entry_of(site: Site, blank: Blank) -> Mending:
    """Where something that is not entered is entered."""
    if blank.field not in KINDS[blank.item.kind].by_name and blank.field in KINDS:
        given: dict[str, Any] = dict(blank.given)
        if blank.item.kind != "site":
            given[blank.item.kind] = blank.item.id
        address = url_for("entries.new", item=site.item.id, kind=blank.field, **given)
    else:
        address = url_for("entries.change", item=blank.item.id, _anchor=blank.field)
    return Mending(f"Enter {label_of(blank)}", address)


def _carried(site: Site, fitting: Item) -> list[Item]:
    try:
        return carried(site, fitting)
    except FieldbookError:  # round in a circle, which is what is to be mended
        return [fitting]


def _around(site: Site, finding: Finding) -> Iterator[Item]:
    """The items a finding is reckoned from, the nearest first."""
    for item in (finding.subject, finding.against):
        if item is None:
            continue
        yield item
        if item.kind == "fixing" and (hold := site.get(item.hold)):
            yield hold
        fitting = item if item.kind == "fitting" else site.get(item.values.get("fitting"))
        if fitting:
            yield from _carried(site, fitting)
        parent = site.parent(item)
        while parent is not None:
            yield parent
            parent = site.parent(parent)

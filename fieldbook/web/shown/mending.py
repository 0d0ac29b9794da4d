"""Where a verdict that is not known can be mended: the form that holds what is missing, at its input."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from flask import url_for

from ...book.site import Item, Site
from ...checks.verdict import Word
from ...findings import Finding, loads
from ...model.kinds import KINDS
from ..forms.of_kind import fields_of

# what a check calls it -> the fields of items that hold it
HELD_IN = {"projection": ("build_up", "stands_out_mm"), "connector": ("sort",), "specific_gravity": ("grips",)}
QUANTITIES = KINDS["reading"].by_name["quantity"].choices


@dataclass(frozen=True)
class Mending:
    """What to do about a verdict, and the address where."""

    words: str
    address: str


def mending_of(site: Site, finding: Finding) -> Mending | None:
    """Where to enter what a verdict lacks; None where nothing is lacking."""
    if finding.verdict.word is not Word.NOT_KNOWN:
        return None
    missing = next(iter(finding.verdict.missing), "")
    around = list(_around(site, finding))
    if missing in QUANTITIES:
        room = next((item for item in around if item.kind == "room"), None)
        address = url_for("entries.new", item=site.item.id, kind="reading", room=room and room.id, quantity=missing)
        return Mending(f"Enter a reading of the {missing}", address)
    if missing == "fixings":
        address = url_for("entries.new", item=site.item.id, kind="fixing", fitting=finding.subject.id)
        return Mending(f"Enter the fixings of {finding.subject.called}", address)
    for empty_only in (True, False):
        for item in around:
            for field in fields_of(KINDS[item.kind]):
                is_empty = item.values[field.name] in (None, [])
                if field.name in HELD_IN.get(missing, (missing,)) and (is_empty or not empty_only):
                    words = f"{'Enter' if is_empty else 'Look at'} “{field.label}” of {item.called}"
                    return Mending(words, url_for("entries.change", item=item.id, _anchor=field.name))
    return Mending(f"Look at {finding.subject.called}", url_for("entries.change", item=finding.subject.id))


def _around(site: Site, finding: Finding) -> Iterator[Item]:
    """The items a verdict is reckoned from, the nearest first."""
    for item in (finding.subject, finding.against):
        if item is None:
            continue
        yield item
        if item.kind == "fixing" and (hold := site.get(item.hold)):
            yield hold
        fitting = item if item.kind == "fitting" else site.get(item.values.get("fitting"))
        if fitting:
            yield from loads.carried(site, fitting)
        parent = site.parent(item)
        while parent is not None:
            yield parent
            parent = site.parent(parent)

"""The mark a new thing would have, going on from those there are: D1.6 gives D1.7, R2 gives R3; the first is A1.

static/phone/book/next_mark.js does the same; tests/cases/next_mark.json holds the two together.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from ..model.kinds import Kind
from ..model.order import counting
from .site import Site

COUNTED = re.compile(r"(.*?)([0-9]+)")
EXAMPLE = re.compile(r"short: ([A-Z]+)[0-9]+")
MARKS = ("mark", "reference")


def next_mark(kind: Kind, site: Site, values: Mapping[str, Any], more: Iterable[str] = ()) -> str:
    """The mark that comes next; "" where nothing shows how things are counted.

    values  of the new thing, as far as they are known; more  marks that are taken besides
    """
    name = kind.numbered_by
    fitting = site.get(values.get("fitting"), "fitting") if kind.name == "fixing" else None
    if name not in MARKS or (kind.name == "fixing" and fitting is None):
        return ""
    siblings = site.of(fitting, "fixing") if fitting else site.all(kind.name)
    marks = sorted(filter(None, [*(one.values[name] for one in siblings), *more]), key=counting)
    last = next((found for mark in reversed(marks) if (found := COUNTED.fullmatch(mark))), None)
    if last is None and fitting:
        return f"{fitting.mark}.1" if fitting.mark else ""
    if last is None:
        return "" if marks else first_mark(kind)
    return _after(last)


def mark_after(mark: str) -> str:
    """The mark that follows one: D1.6 gives D1.7; "" after one without a number.

    >>> mark_after("H09")
    'H10'
    """
    counted = COUNTED.fullmatch(mark)
    return _after(counted) if counted else ""


def _after(counted: re.Match[str]) -> str:
    before, number = counted.groups()
    return f"{before}{str(int(number) + 1).zfill(len(number))}"


def first_mark(kind: Kind) -> str:
    """The first of a kind that needs a mark, by the letter of the example beside it; "" where it can do without."""
    field = kind.by_name[kind.numbered_by]
    found = EXAMPLE.fullmatch(field.help) if field.required else None
    return f"{found[1]}1" if found else ""


def next_number(site: Site, photograph: str | None) -> int:
    """The number a new mark on a photograph would have: one more than the highest there."""
    one = site.get(photograph, "photograph")
    return 1 + max((mark.number for mark in (site.of(one, "pointer") if one else ())), default=0)

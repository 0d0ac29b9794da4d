"""Several entries of one page: written together or not at all, by the same way as `fieldbook enter`."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from flask import flash, request, url_for

from ..book.entering import Entered, enter
from ..book.entry_lines import Line
from ..book.site import Item, Site
from ..errors import FieldbookError, Refused
from .books import book
from .shown.filters import page_of

ITEMS = "items"  # what tick boxes are called


def written(
    lines: Sequence[Line], base: str | None, called: Callable[[int], str], find: Callable[[FieldbookError], None]
) -> Entered | None:
    """Enter all lines, and tell what is to be looked at; None where one is refused.

    base    the revision the page showed, as it was sent
    called  what a line is called, by its number from 1
    find    is given each thing that is wrong, with its line
    """
    seen = int(base) if base and base.isdecimal() and len(base) < 16 else 0
    try:
        entered = enter(
            book(), lines, book().folder, base=min(seen, book().revision()), called=lambda number, _: called(number)
        )
    except Refused as refused:
        for finding in refused.findings:
            find(finding)
        return None
    for warning in entered.warnings:
        flash(warning.reason)
    return entered


def ticked(site: Site) -> list[Item]:
    """What was ticked, each once and in that order; what is no longer there is left out."""
    names = dict.fromkeys(request.values.getlist(ITEMS))
    return [one for name in names if (one := site.get(name)) is not None and one.kind != "site"]


def page_around(site: Site, items: Sequence[Item]) -> str:
    """The page that shows all of these: of their face, fitting or room where they share one, else their list."""
    for name in ("face", "fitting", "room"):
        shared = {one.values.get(name) for one in items}
        if len(shared) == 1 and (around := site.get(shared.pop())) is not None:
            return page_of(around)
    return url_for("register.every", item=site.item.id, kind=items[0].kind)

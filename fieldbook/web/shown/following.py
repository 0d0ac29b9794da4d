"""What follows the change of a make or of a fitting's place: written with it, told, and asked about where it stands."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from flask import flash, url_for

from ...book.entering import enter
from ...book.entry_lines import Line
from ...book.makes import Following, following
from ...book.site import Item, Site
from ...book.wording import marks
from ...errors import FieldbookError, Refused
from ...model.kinds import KINDS
from ..all_or_nothing import ITEMS
from ..books import book
from ..forms.of_kind import as_typed

FOLLOWED = ("fitting", "fixing")


def write_with_following(site: Site, one: Item, changed: dict[str, Any], base: int) -> None:
    """Enter a change and what follows it, all or nothing; raises Refused."""
    follows = _following(site, one, changed)
    if not follows.lines:
        book().write(one.kind, changed, one.id, base)
        return
    lines: list[Line] = [{"kind": one.kind, "item": one.id, "set": changed}, *follows.lines]
    others = [site[str(line["item"])] for line in lines if isinstance(line, dict)]
    try:
        enter(book(), lines, book().folder, base=base, called=lambda number, _: others[number - 1].called)
    except Refused as refused:
        raise Refused([_placed(finding) for finding in refused.findings]) from refused
    _told(follows)


def _placed(finding: FieldbookError) -> FieldbookError:
    """What is wrong with the thing itself stands beside its input, what is wrong with another on top."""
    if finding.line != 1:
        finding.field = None
    return finding


def _told(follows: Following) -> None:
    for items, words in ((follows.moved, "moved along"), (follows.taken_over, "made like it, took this over")):
        if items:
            flash(f"{_called(items)}: {words}.")


def asked_next(site: Site, one: Item, changed: Mapping[str, Any]) -> str:
    """The page that asks whether it holds for copies that stand already; "" where there are none."""
    standing = _following(site, one, changed).standing
    if not standing:
        return ""
    kind = KINDS[one.kind]
    flash(
        f"{_called(standing)} stand already, and were made like it. Is this so on them too? Set it for all, or leave."
    )
    fields = [kind.by_name[name] for name, value in changed.items() if kind.by_name[name].copied and value is not None]
    given: dict[str, Any] = {name: text for name, text in as_typed(fields, changed).items() if text}
    given[ITEMS] = [copy.id for copy in standing]
    return url_for("together.change", item=site.item.id, **given)


def _following(site: Site, one: Item, changed: Mapping[str, Any]) -> Following:
    return following(site, one, changed) if one.kind in FOLLOWED else Following([], [], [], [])


def _called(items: Sequence[Item]) -> str:
    return marks([one.called for one in items])

"""What follows the change of a make or of a fitting's place: written with it, told, and asked about where it stands."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import chain
from typing import Any

from flask import flash, url_for

from ...book import build_ups
from ...book.entering import enter
from ...book.entry_lines import Line
from ...book.fixings_of_copies import NONE, Reaching, reaching
from ...book.makes import Following, following
from ...book.site import Item, Site
from ...book.wording import marks
from ...errors import FieldbookError, Refused
from ...model.kinds import KINDS, Kind
from ..all_or_nothing import ITEMS
from ..books import book
from ..forms.of_kind import as_typed

FOLLOWED = ("fitting", "fixing")
NEW = "new"


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
    told(follows)


def _placed(finding: FieldbookError, own: int = 1) -> FieldbookError:
    """What is wrong with the things themselves stands beside their inputs, what is wrong with another on top.

    own  how many of the lines are theirs, the first ones
    """
    if finding.line is None or finding.line > own:
        finding.field = None
    return finding


def told(follows: Following) -> None:
    for items, words in ((follows.moved, "moved along"), (follows.taken_over, "made like it, took this over")):
        if items:
            flash(f"{_called(items)}: {words}.")


def asked_next(site: Site, one: Item, changed: Mapping[str, Any]) -> str:
    """The page that asks whether it holds for copies that stand already; "" where there are none."""
    return asked_about(site, _following(site, one, changed).standing, changed)


def asked_about(site: Site, standing: Sequence[Item], changed: Mapping[str, Any]) -> str:
    """The page that asks whether a change holds for these, which stand already; "" where there are none."""
    if not standing:
        return ""
    kind = KINDS[standing[0].kind]
    flash(f"{_standing(standing)} Is this so there too? Set it, or leave.")
    fields = [kind.by_name[name] for name, value in changed.items() if kind.by_name[name].copied and value is not None]
    given: dict[str, Any] = {name: text for name, text in as_typed(fields, changed).items() if text}
    given[ITEMS] = [copy.id for copy in standing]
    return url_for("together.change", item=site.item.id, **given)


def asked_about_each(site: Site, changes: Mapping[Item, Mapping[str, Any]]) -> str:
    """The page that asks about the first of several changes; the others are told, with where to look."""
    asks = ""
    for one, changed in changes.items():
        standing = [copy for copy in _following(site, one, changed).standing if copy not in changes]
        if standing and asks:
            flash(f"{_standing(standing)} Look whether the change of {one.called} is so there too.")
        asks = asks or asked_about(site, standing, changed)
    return asks


def write_new(site: Site | None, kind: Kind, each: Sequence[dict[str, Any]]) -> tuple[list[str], str]:
    """Enter new things of a kind, and fixings on planned copies of their fitting too, all or nothing; raises Refused.

    returns  their ids, and the page that asks whether copies that stand already get them; "" where there are none
    """
    lines: list[Line] = [{"kind": kind.name, "item": f"{NEW} {at}", "set": own} for at, own in enumerate(each)]
    reach = reaching(site, lines) if site else NONE
    if len(lines) == 1 and not reach.lines:
        ids = {f"{NEW} 0": book().write(kind.name, each[0])}
    else:

        def called(number: int) -> str:
            return str(each[number - 1].get(kind.numbered_by) or f"{kind.label} {number}")

        try:
            ids = enter(book(), [*lines, *reach.lines], book().folder, called=reach.calling(len(lines), called)).ids
        except Refused as refused:
            raise Refused([_placed(finding, len(lines)) for finding in refused.findings]) from refused
    return [ids[str(line["item"])] for line in lines if isinstance(line, dict)], (
        asked_about_new(site, reach, ids) if site else ""
    )


def asked_about_new(site: Site, reach: Reaching, ids: Mapping[str, str]) -> str:
    """Tell which copies have new fixings too; the page that asks for those that stand, "" where there are none.

    ids  of what was entered, by what the lines call it
    """
    if reach.planned:
        flash(f"{_called(reach.planned)}, made like it: planned there too, at the same place.")
    if not reach.standing:
        return ""
    flash(f"{_standing(reach.standing)} Is it to be put in there too?")
    return url_for("copies.fixings", item=site.item.id, fixing=[ids[name] for name in reach.asked_of])


def following_all(site: Site, changes: Mapping[Item, Mapping[str, Any]]) -> Following:
    """What follows when several things are changed at once; what is changed itself follows nothing."""
    found = [_following(site, one, changed) for one, changed in changes.items()]
    own = {one.id for one in changes}

    def others(items: Iterable[Item]) -> list[Item]:
        return [one for one in dict.fromkeys(items) if one.id not in own]

    lines = [line for each in found for line in each.lines if isinstance(line, dict) and line["item"] not in own]
    moved, taken_over, standing = (
        others(chain.from_iterable(getattr(each, name) for each in found))
        for name in ("moved", "taken_over", "standing")
    )
    return Following(list[Line](lines), moved, taken_over, standing)


def _following(site: Site, one: Item, changed: Mapping[str, Any]) -> Following:
    if one.kind == build_ups.KIND:
        return build_ups.following(site, one, changed)
    return following(site, one, changed) if one.kind in FOLLOWED else Following([], [], [], [])


def _standing(items: Sequence[Item]) -> str:
    if items[0].kind == "face":
        return f"{_called(items)} {'is' if len(items) == 1 else 'are'} described so."
    verbs = "stands already, and was" if len(items) == 1 else "stand already, and were"
    return f"{_called(items)} {verbs} made like it."


def _called(items: Sequence[Item]) -> str:
    return marks([one.called for one in items])

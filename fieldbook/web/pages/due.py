"""What is due on a site, overdue first, room by room; what was done is entered from here, from paper as well."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from itertools import groupby

from flask import Blueprint, render_template

from ...book.gathering import gather
from ...book.site import Item, Site
from ...findings.due import STATES, Due, dated_ahead, due_on, room_of, state
from ...model.choices import DONE
from ..books import book

blueprint = Blueprint("due", __name__)

HEADINGS = dict(
    zip(STATES, ("Overdue, or due today", "In the next three months", "Later", "No day entered"), strict=True)
)


@blueprint.get("/site/<item:item>/due")
def every(item: str) -> str:
    """What is due, and what is dated after today."""
    site, today = gather(book(), item), date.today()
    return render_template(
        "due/every.html",
        one=site.item,
        site=site,
        today=today,
        parts=list(parts_of(site, due_on(site, today), today)),
        ahead=dated_ahead(site, today),
        done_form=done_form,
    )


def parts_of(site: Site, found: list[Due], today: date) -> Iterator[tuple[str, list[tuple[Item | None, list[Due]]]]]:
    """Heading of a state -> room by room what is due; no room last."""
    for name, alike in groupby(found, lambda one: state(one, today)):
        rooms = groupby(alike, lambda one: room_of(site, one.about))
        yield HEADINGS[name], [(room, list(those)) for room, those in rooms]


def done_form(one: Due) -> dict[str, str]:
    """What the form for the work says before anybody has typed; empty where it is another form that says it."""
    about = {one.about.kind: one.about.id} if one.about and one.about.kind in {"fitting", "fixing"} else {}
    sorts = {"care": "care", "tightness": "tightening", "finding": "repair"}
    if one.sort not in sorts:
        return {}
    said_by = {"care": {"task": one.item.id}, "finding": {"observation": one.item.id}}.get(one.sort, {})
    return {"kind": "work", "what": one.what, "sort": sorts[one.sort], "outcome": DONE} | about | said_by

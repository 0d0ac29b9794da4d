"""The sites of the book, and the overview of one."""

from __future__ import annotations

from datetime import date

from flask import Blueprint, render_template

from ...book.gathering import gather
from ...findings import appraise
from ..books import book, every_site, item_of, withdrawn_from
from ..shown.glance import glance_at
from ..shown.looked_at import photographs_in, plan_of

blueprint = Blueprint("sites", __name__)


@blueprint.get("/")
def every() -> str:
    """All sites of the book."""
    return render_template("sites/every.html", sites=every_site(), conflicts=book().conflicts())


@blueprint.get("/site/<item:item>")
def show(item: str) -> str:
    """What is planned, fitted, over a limit or missing on a site."""
    one = item_of(item, "site")
    site = gather(book(), item)
    findings = appraise(site)
    rooms = site.all("room")
    return render_template(
        "sites/show.html",
        one=one,
        site=site,
        glance=glance_at(site, findings, date.today()),
        conflicts=book().conflicts(),
        plans={room.id: plan_of(site, room, findings) for room in rooms},
        pictured={room.id: [one for _, those in photographs_in(site, room) for one in those] for room in rooms},
    )


@blueprint.get("/site/<item:item>/withdrawn")
def withdrawn(item: str) -> str:
    """What was withdrawn on a site and can be brought back."""
    site = gather(book(), item)
    return render_template("sites/withdrawn.html", one=site.item, site=site, gone=withdrawn_from(site))

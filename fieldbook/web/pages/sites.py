"""The sites of the book, and one site at a glance."""

from __future__ import annotations

from flask import Blueprint, render_template

from ...book.site import gather
from ...findings import appraise
from ..books import book, every_site, item_of, withdrawn_from
from ..shown.glance import glance_at

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
    return render_template(
        "sites/show.html", one=one, site=site, glance=glance_at(site, appraise(site)), conflicts=book().conflicts()
    )


@blueprint.get("/site/<item:item>/withdrawn")
def withdrawn(item: str) -> str:
    """What was withdrawn on a site and can be brought back."""
    site = gather(book(), item)
    return render_template("sites/withdrawn.html", one=site.item, site=site, gone=withdrawn_from(site))

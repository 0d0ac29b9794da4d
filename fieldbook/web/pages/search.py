"""Looking for anything on a site by its mark, its name, or any word entered about it."""

from __future__ import annotations

from flask import Blueprint, render_template, request

from ...book.gathering import gather
from ..books import book
from ..shown.sought import sought

blueprint = Blueprint("search", __name__)

MOST = 60


@blueprint.get("/site/<item:item>/search")
def every(item: str) -> str:
    """What holds the words that are looked for."""
    site, text = gather(book(), item), request.args.get("words", "")
    found = sought(site, text)
    return render_template(
        "search/every.html", one=site.item, site=site, text=text, found=found[:MOST], more=len(found) - MOST
    )

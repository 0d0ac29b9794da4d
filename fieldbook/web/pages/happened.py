"""Something happened: what to do now and whom to call, before it is entered."""

from __future__ import annotations

from typing import Any

from flask import Blueprint, render_template, request, url_for

from ...book.gathering import gather
from ...book.site import Item, Site
from ...findings.happened import WhatToDo, what_to_do
from ...model.kinds import KINDS
from ..books import book

blueprint = Blueprint("happened", __name__)


@blueprint.get("/site/<item:item>/happened")
def ask(item: str) -> str:
    """What happened and to what are asked first; then the answer, and the way to enter it."""
    site = gather(book(), item)
    happened = KINDS["observation"].by_name["happened"].choices
    what, about = request.args.get("what", ""), site.get(request.args.get("about", ""))
    told = what_to_do(site, about if about and about.kind == "fitting" else None, what) if what in happened else None
    things = [one for one in site.all("fitting") if one.state == "fitted"]
    return render_template(
        "happened/ask.html", one=site.item, site=site, happened=happened, what=what, about=about, told=told,
        things=[*things, *site.all("room")], enter=told and _form(site, about, what, told),
    )  # fmt: skip


def _form(site: Site, about: Item | None, what: str, told: WhatToDo) -> str:
    """The address of the form that enters it, with all of it that is known."""
    named = f": {about.title}" if about else ""
    known: dict[str, Any] = {"occasion": "something happened", "happened": what, "urgency_class": told.urgency}
    known["what"] = f"{what[0].upper()}{what[1:]}{named}"
    if about and about.kind == "fitting":
        face = site[about.face]
        known |= {"fitting": about.id, "face": face.id, "room": face.room}
    elif about:
        known["room"] = about.id
    return url_for("entries.new", item=site.item.id, kind="observation", **known)

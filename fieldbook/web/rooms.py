"""A room with its plan."""

from __future__ import annotations

from flask import Blueprint, render_template

from ..record.room_plan import room_plan
from ..verdicts import appraise
from .books import item_of, site_around
from .glance import word_on
from .sheet import sheet_of

blueprint = Blueprint("rooms", __name__)


@blueprint.get("/room/<item:item>")
def show(item: str) -> str:
    """The faces of a room, its plan, its conditions and what was seen and read there."""
    one, site = item_of(item, "room"), site_around(item)
    findings = appraise(site)
    return render_template(
        "rooms/show.html",
        one=one,
        site=site,
        sheet=sheet_of(site, one),
        plan=room_plan(site, one, findings, interactive=True),
        faces=[(face, word_on(site, face, findings)) for face in site.of(one, "face")],
    )

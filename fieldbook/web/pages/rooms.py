"""A room with its plan."""

from __future__ import annotations

from flask import Blueprint, render_template

from ...book.walls import walls_lacking
from ...drawing.diagrams import humidity_of, light_of
from ...drawing.room_plan import room_plan
from ...findings import appraise, worst_words
from ...findings.hazards import cautions_in
from ..books import book, item_of, site_around
from ..forms.of_rows import COLUMNS, WALL_COLUMNS, WALLS
from ..shown.drawings import WIDE_MM
from ..shown.facts import sheet_of
from ..shown.glance import faces_of
from ..shown.looked_at import photographs_in
from .register import register_of

blueprint = Blueprint("rooms", __name__)


@blueprint.get("/room/<item:item>")
def show(item: str) -> str:
    """The faces of a room, its plan, its conditions and what was seen and read there."""
    one, site = item_of(item, "room"), site_around(item)
    findings = appraise(site)
    words, sheet = worst_words(findings), sheet_of(site, one, book().not_known_of(item))
    return render_template(
        "rooms/show.html",
        one=one,
        site=site,
        sheet=sheet,
        plan=room_plan(site, one, findings, interactive=True),
        plots=[
            drawn for drawn in (plot(site, one, paper_width_mm=WIDE_MM) for plot in (humidity_of, light_of)) if drawn
        ],
        cautions=cautions_in(one),
        registers=[register_of(site, kind, items, words) for kind, items in sheet.belonging if kind != "face"],
        faces=faces_of(site, one, words),
        walls={WALLS: "plan", COLUMNS: list(WALL_COLUMNS)} if walls_lacking(site, one) else None,
    )


@blueprint.get("/room/<item:item>/photographs")
def photographs(item: str) -> str:
    """The photographs of a room wall by wall, with the way to the rooms beside it."""
    one, site = item_of(item, "room"), site_around(item)
    rooms = list(site.all("room"))
    at = next((place for place, room in enumerate(rooms) if room.id == item), None)
    before, after = ([], []) if at is None else (rooms[:at][-1:], rooms[at + 1 :][:1])
    return render_template(
        "rooms/photographs.html",
        one=one,
        site=site,
        shown=list(photographs_in(site, one)),
        before=next(iter(before), None),
        after=next(iter(after), None),
    )

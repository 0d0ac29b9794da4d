"""The table of materials the checks take their figures from, with the site's own rows before it."""

from __future__ import annotations

from flask import Blueprint, render_template, request

from ...book.gathering import gather
from ...checks import materials
from ...findings.geometry import own_materials
from ...model.kinds import KINDS
from ..books import book

blueprint = Blueprint("materials", __name__)


@blueprint.get("/materials", defaults={"item": None})
@blueprint.get("/site/<item:item>/materials")
def every(item: str | None) -> str:
    """All materials, or those of a name and a group, each figure with its source and how sure that is."""
    site = gather(book(), item) if item else None
    named, group = request.args.get("named", ""), request.args.get("group", "")
    return render_template(
        "materials/every.html",
        site=site,
        rows=materials.table(own_materials(site) if site else (), named, group),
        own={own.name: own for own in site.all("material")} if site else {},
        groups=materials.GROUPS,
        properties=KINDS["material"].by_name,
        named=named,
        group=group,
    )

"""Two photographs of one face laid over each other, and the changes somebody has seen between them."""

from __future__ import annotations

from flask import Blueprint, render_template, request

from ...drawing.before_after import before_after, first_and_last
from ...drawing.underlay import photographs_under
from ...errors import FieldbookError
from ..books import item_of, site_around

blueprint = Blueprint("before_after", __name__)


@blueprint.get("/face/<item:item>/before-after")
def show(item: str) -> tuple[str, int]:
    """The two that were asked for, or the first and the last; what both show of the face, at one scale."""
    one, site = item_of(item, "face"), site_around(item)
    pictures = photographs_under(site, one)
    usual = first_and_last(site, one) or (*pictures[-1:], *pictures[:1])
    by_id = {picture.id: picture for picture in pictures}
    chosen = [by_id.get(request.args.get(name, "")) for name in ("before", "after")]
    two = [picked or usual_one for picked, usual_one in zip(chosen, usual, strict=False)]
    pair = refusal = None
    if len(pictures) > 1:
        try:
            pair = before_after(site, one, *two)
        except FieldbookError as error:
            refusal = error
    page = render_template(
        "faces/before_after.html", one=one, site=site, pictures=pictures, two=two, pair=pair, refusal=refusal
    )
    return page, 422 if refusal else 200

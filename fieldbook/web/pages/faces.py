"""A face: its drawing above its booking, and the answer for any point of it."""

from __future__ import annotations

from collections.abc import Sequence

from flask import Blueprint, jsonify, make_response, render_template, request, url_for
from werkzeug.wrappers import Response

from ...book.site import Item, Site
from ...drawing.bow import bow
from ...drawing.drafting import Drawn
from ...drawing.underlay import photographs_under, underlaid
from ...errors import Refused
from ...findings import Finding, appraise, worst_words
from ...findings.at_point import ASKED, answer, asked_in
from ..books import book, item_of, site_around
from ..errors import wants_json
from ..shown.booking import BOOKED, SHOWN, booking_of, parts_of, without_place
from ..shown.drawings import WIDE_MM, drawing_of
from ..shown.facts import sheet_of
from ..shown.setting_out import setting_out
from .register import register_of

blueprint = Blueprint("faces", __name__, url_prefix="/face/<item:item>")


@blueprint.get("")
def show(item: str) -> tuple[str, int]:
    """The drawing of a face, to scale, its booking, and what is set out on it."""
    one, site = item_of(item, "face"), site_around(item)
    findings = appraise(site)
    out = setting_out(site, one, request.args)
    pictures = photographs_under(site, one)
    only, by_fitting = request.args.get("only", ""), request.args.get("by") == "fitting"
    under = next((picture for picture in pictures if picture.id == request.args.get("under")), None)
    words, sheet = worst_words(findings), sheet_of(site, one, book().not_known_of(item))
    page = render_template(
        "faces/show.html",
        one=one,
        site=site,
        sheet=sheet,
        registers=[register_of(site, kind, items, words) for kind, items in sheet.belonging if kind not in BOOKED],
        drawing=_drawn(site, one, findings, under),
        under=under,
        pictures=pictures,
        bow=bow(site, one, paper_width_mm=WIDE_MM, interactive=True) if one.surface else None,
        parts=parts_of(site, booking_of(site, one), only, by_fitting=by_fitting),
        only=only,
        by_fitting=by_fitting,
        shown_kinds=[(name, words) for name, (words, _) in SHOWN.items()],
        unplaced=list(without_place(site, one)),
        words=words,
        asked=ASKED,
        out=out,
    )
    return page, 422 if out.errors else 200


def _drawn(site: Site, face: Item, findings: Sequence[Finding], under: Item | None) -> Drawn:
    """The drawing of a face, a photograph faintly under it where one is chosen."""
    drawn = drawing_of(site, face, findings)
    if under is None:
        return drawn
    return underlaid(drawn, face, url_for("measuring.flat", item=under.id, faint=1, at=site.revision))


@blueprint.get("/answer")
def at_point(item: str) -> Response | tuple[str, int]:
    """What may be done at a point, as a page or as JSON."""
    one, site = item_of(item, "face"), site_around(item)
    said = refused = None
    if request.args or wants_json():
        try:
            said = answer(site, one, *asked_in(request.args))
        except Refused as error:
            refused = error
    if wants_json():
        shown = refused or said
        return make_response(jsonify(shown and shown.as_dict()), 422 if refused else 200)
    errors = {finding.field: finding for finding in refused.findings} if refused else {}
    page = render_template("faces/answer.html", one=one, site=site, asked=ASKED, said=said, errors=errors)
    return page, 422 if refused else 200

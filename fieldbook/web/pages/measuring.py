"""Measuring in a photograph: its marks, what they come to, where a point of it lies on the face, and it laid flat."""

from __future__ import annotations

import math
from collections.abc import Mapping
from io import BytesIO

from flask import Blueprint, abort, flash, redirect, render_template, request, send_file, url_for
from werkzeug.wrappers import Response

from ...book.card_in_photograph import colour_in, in_words, measured_again
from ...book.site import Item, Site
from ...checks.card_colour import Correction, Matched
from ...checks.picture_plane import Plane, Spot
from ...drawing.before_after import shared_part
from ...drawing.elevation import drawn_part
from ...drawing.over_photograph import face_shown, over_photograph
from ...drawing.rectified import bent_there, laid_flat, plane_in, plane_or_none
from ...errors import FieldbookError, Missing
from ...model.description import number, rows
from ...model.fields import Field
from ...model.kinds import KINDS
from ...model.settled import PICTURE_POINT
from ...model.typed import from_text, to_text
from ...model.values import accept_all
from ..books import book, item_of, site_around
from ..errors import findings_of

blueprint = Blueprint("measuring", __name__, url_prefix="/item/<item:item>")
FIELDS = [KINDS["photograph"].by_name[name] for name in ("plane_face", "plane_marks", "mark_px")]
ASKED = ("across_px", "down_px")
CORNERS = rows("corners", "Corners of a zone", *PICTURE_POINT,
               help="one a line: across and down the picture in px")  # fmt: skip
LEAST_CORNERS = 3
PLACES = (
    number("across_px", "Across", "px", 0, 100_000, required=True),
    number("down_px", "Down", "px", 0, 100_000, required=True),
    number("reach_px", "Reach to each side", "px", 1, 2_000, required=True),
)


@blueprint.route("/measure", methods=["GET", "POST"])
def measure(item: str) -> tuple[str, int]:
    """The photograph with its marks; posted marks are entered, a point asked for is placed."""
    one, site = item_of(item, "photograph"), site_around(item)
    typed = {field.name: to_text(field, one.values[field.name]) for field in FIELDS}
    errors: Mapping[str, FieldbookError] = {}
    if request.method == "POST":
        typed = {field.name: request.form.get(field.name, "") for field in FIELDS}
        try:
            read = {field.name: from_text(field, typed[field.name]) for field in FIELDS}
            book().write("photograph", accept_all(KINDS["photograph"].by_name, read), item)
            one, site = item_of(item, "photograph"), site_around(item)
        except FieldbookError as error:
            errors = {finding.field or "": finding for finding in findings_of(error)}
    elif not typed["plane_face"]:
        face = face_shown(site, one)
        typed["plane_face"] = face.id if face else ""
    plane, refusal = _plane(one)
    spot, bent, corners = None, False, []
    try:
        if plane and not errors and all(request.args.get(name) for name in ASKED):
            point = _asked()
            spot, bent = plane.place(*point), bent_there(one, plane, *point)
        if plane and not errors and request.args.get(CORNERS.name):
            corners = _corners(plane)
    except FieldbookError as error:
        refusal = findings_of(error)[0]
    page = render_template(
        "measuring/show.html", one=one, site=site, fields=FIELDS, typed=typed, errors=errors, plane=plane,
        refusal=refusal, spot=spot, bent=bent, corners=corners, asked_corners=CORNERS,
        over=over_photograph(site, one, plane),
        missed=[math.hypot(*part) for part in plane.residuals_mm] if plane else [],
    )  # fmt: skip
    return page, 422 if errors else 200


def _plane(photograph: Item) -> tuple[Plane | None, FieldbookError | None]:
    if not photograph.plane_marks:
        return None, None
    try:
        return plane_in(photograph), None
    except FieldbookError as error:
        return None, error


def _asked() -> tuple[float, float]:
    """The point of the photograph an address asks for, px."""
    fields = KINDS["pointer"].by_name
    at = accept_all(fields, {name: from_text(fields[name], request.args[name]) for name in ASKED})
    return at["across_px"], at["down_px"]


def _corners(plane: Plane) -> list[Spot]:
    asked = accept_all({CORNERS.name: CORNERS}, {CORNERS.name: from_text(CORNERS, request.args[CORNERS.name])})
    points = asked[CORNERS.name] or []
    if len(points) < LEAST_CORNERS:
        reason = f"There are {len(points)} corners; a zone has {LEAST_CORNERS} at least."
        raise Missing(reason, "Set more on the photograph.", field=CORNERS.name)
    return [plane.place(*point) for point in points]


@blueprint.route("/colour", methods=["GET", "POST"])
def colour(item: str) -> Response | tuple[str, int]:
    """The card of a photograph, and the colour of a finish beside it; posted, it is entered as measured again."""
    one, site = item_of(item, "photograph"), site_around(item)
    card = KINDS["photograph"].by_name["card_patches"]
    typed = {"card_patches": to_text(card, one.card_patches), "finish": _finish_of(site, one)} | request.form.to_dict()
    errors: Mapping[str, FieldbookError] = {}
    if request.method == "POST":
        try:
            matched, correction = _matched(item, card)
            photograph, finish = book().item(item)[1], _finish_chosen(site)
            entered = book().write("colour", measured_again(photograph, finish, matched, correction))
            flash(in_words(photograph, matched, correction))
            return redirect(url_for("items.show", item=entered), 303)
        except FieldbookError as error:
            errors = {finding.field or "": finding for finding in findings_of(error)}
    page = render_template(
        "measuring/colour.html", one=one, site=site, card=card, typed=typed, errors=errors, places=PLACES
    )
    return page, 422 if errors else 200


def _finish_of(site: Site, photograph: Item) -> str:
    """The only finish, or the one a photograph is of; "" where that is for whoever took it to say."""
    finishes = [finish.id for finish in site.all("finish")]
    return finishes[0] if len(finishes) == 1 else photograph.subject if photograph.subject in finishes else ""


def _finish_chosen(site: Site) -> str:
    finish = site.get(request.form.get("finish"), "finish")
    if finish is None:
        raise Missing("No finish is chosen.", "Choose the one that was photographed.", field="finish")
    return finish.id


def _matched(item: str, card: Field) -> tuple[Matched, Correction]:
    """What was typed, the card entered first, so that it stays whatever comes of the colour."""
    rows = from_text(card, request.form.get(card.name, ""))
    book().write("photograph", accept_all({card.name: card}, {card.name: rows}), item)
    fields = {field.name: field for field in PLACES}
    read = accept_all(fields, {name: from_text(field, request.form.get(name, "")) for name, field in fields.items()})
    return colour_in(book(), book().item(item)[1], *(read[field.name] for field in PLACES))


@blueprint.get("/flat.jpg")
def flat(item: str) -> Response:
    """The face of a photograph laid flat and to scale: all of it, or the part another photograph shows as well."""
    one, site = item_of(item, "photograph"), site_around(item)
    face = site.get(one.plane_face)
    if plane_or_none(one) is None or face is None:
        abort(404)
    other = site.get(request.args.get("with"), "photograph")
    part = shared_part(face, one, other) if other and plane_or_none(other) else drawn_part(face)
    return send_file(BytesIO(laid_flat(book(), one, part, faint="faint" in request.args)), "image/jpeg")

"""Phones at the desk: which have joined, how another joins, and shutting one out."""

from __future__ import annotations

from urllib.parse import urlsplit

from flask import Blueprint, current_app, flash, redirect, render_template, request, url_for
from markupsafe import Markup
from werkzeug.wrappers import Response

from ...phones import codes, devices, pieces, put_back
from ...serving.address import Way
from ...serving.announcing import qr_svg
from ..books import book

WAY = "WAY"  # setting: how phones come to this book, None while only this machine is served

blueprint = Blueprint("joining", __name__, url_prefix="/phones")


@blueprint.get("")
def every() -> str:
    """The phones of this book, with what waits on them."""
    return render_template(
        "joining/every.html", devices=devices.every_device(book()), put_back=put_back.every(book()), way=_way()
    )


@blueprint.post("/join")
def join() -> str:
    """A new code, with all a person needs to let a phone in."""
    way, code, cable_port = _way(), codes.new_join_code(book()), _cable_port()
    cable_url = f"http://localhost:{cable_port}/phone/" if cable_port else None
    led = way.leading(code) if way else f"{cable_url}?join={code}"
    drawn = qr_svg(led) if way or cable_url else None
    return render_template(
        "joining/join.html",
        way=way,
        code=code,
        cable_port=cable_port,
        cable_url=cable_url,
        drawn=Markup(drawn) if drawn else None,  # noqa: S704 - made by us, of an address
    )


def _cable_port() -> int | None:
    """The port of this desk, which a cable can carry to a phone; none behind a proxy."""
    return None if request.is_secure else urlsplit(request.host_url).port


@blueprint.post("/<uuid:device>/shut-out")
def shut_out(device: str) -> Response:
    """Answer a phone no more."""
    devices.shut_out(book(), str(device))
    pieces.forget(book(), str(device))
    flash("Shut out. It keeps what it has, and can join again with a new code.")
    return redirect(url_for(".every"), 303)


def _way() -> Way | None:
    return current_app.config.get(WAY)

"""Phones at the desk: which have joined, how another joins, and shutting one out."""

from __future__ import annotations

from urllib.parse import urlsplit
from uuid import UUID

from flask import Blueprint, abort, current_app, flash, redirect, render_template, request, session, url_for
from markupsafe import Markup
from werkzeug.wrappers import Response

from ...phones import codes, devices, pieces, put_back, sessions
from ...serving.address import Way
from ...serving.announcing import qr_svg
from ..books import book

WAY = "WAY"  # setting: how phones come to this book, None while only this machine is served

blueprint = Blueprint("joining", __name__, url_prefix="/phones")


@blueprint.get("")
def every() -> str:
    """The phones of this book, with what waits on them."""
    return render_template(
        "joining/every.html",
        devices=devices.every_device(book()),
        put_back=put_back.every(book()),
        way=_way(),
        sessions=sessions.every_session(book()),
        own=sessions.session_of(book(), session.get("desk")),
    )


@blueprint.post("/join")
@blueprint.post("/<uuid:device>/join-again", endpoint="join_again")
def join(device: UUID | None = None) -> str:
    """A new code, with all a person needs to let a phone in; an earlier one as itself where it is named."""
    named = device and next((one for one in devices.every_device(book()) if one.id == str(device)), None)
    if device and not named:
        abort(404)
    way, code, cable_port = _way(), codes.new_join_code(book(), str(device) if device else None), _cable_port()
    cable_url = f"http://localhost:{cable_port}/phone/" if cable_port else None
    led = way.leading(code) if way else f"{cable_url}?join={code}"
    drawn = qr_svg(led) if way or cable_url else None
    return render_template(
        "joining/join.html",
        way=way,
        named=named,
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
    flash("Removed. It keeps what it has, and can join again with a code made for it.")
    return redirect(url_for(".every"), 303)


@blueprint.post("/browsers/<uuid:one>/end")
def end(one: UUID) -> Response:
    """Let a browser in to the desk no more."""
    sessions.end(book(), str(one))
    flash("Ended. That browser needs a new one-time address.")
    return redirect(url_for(".every"), 303)


def _way() -> Way | None:
    return current_app.config.get(WAY)

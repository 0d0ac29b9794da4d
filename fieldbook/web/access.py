"""Who may use the desk: a browser that came in through a one-time address, and posts from no other site.

The address is made where the server runs (`codes.new_opening`) and works once; from then on the
browser's session opens the desk. Phones have tokens of their own (see `sync.py`).
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from flask import Blueprint, Flask, current_app, redirect, request, session, url_for
from flask_wtf.csrf import generate_csrf
from werkzeug.middleware.proxy_fix import ProxyFix
from werkzeug.wrappers import Response

from ..errors import FieldbookError, shown
from ..phones import codes, sessions
from .books import book

# "session": only a browser let in by a one-time address; "open": whoever reaches the port.
DEFAULTS = {"ACCESS": "session", "BEHIND_PROXY": False}
WITHOUT_SESSION = {"access", "sync", "phone"}  # blueprints; the last two show nothing of the book without a token
SYSTEMS = ("Android", "iPhone", "iPad", "Windows", "Mac OS", "Linux")
BROWSERS = (("Edg/", "Edge"), ("Firefox/", "Firefox"), ("Chrome/", "Chromium"), ("Safari/", "Safari"))
READING = {"GET", "HEAD", "OPTIONS"}

blueprint = Blueprint("access", __name__)


class DeskClosed(FieldbookError):
    """The desk was asked for by a browser that was not let in."""

    code = "desk-closed"


class ForeignOrigin(FieldbookError):
    """A page of another site tried to change something here."""

    code = "foreign-origin"


def prepare(app: Flask, _: Path, settings: Mapping[str, Any]) -> None:
    """Guard the desk; trust a proxy's word for where a request came from only when told that there is one."""
    app.config.update(DEFAULTS | {name: settings[name] for name in DEFAULTS if name in settings})
    app.before_request(_guard)
    if app.config["BEHIND_PROXY"]:
        app.wsgi_app = ProxyFix(app.wsgi_app, x_for=1, x_proto=1, x_host=1)  # type: ignore[method-assign]


def _guard() -> None:
    if request.method not in READING:
        _refuse_other_sites()
    if current_app.config["ACCESS"] == "open" or request.endpoint in {None, "static"}:
        return
    if request.blueprint not in WITHOUT_SESSION and not sessions.session_of(book(), session.get("desk")):
        raise DeskClosed(
            "This browser has not been let in to the desk.",
            "Open the address that was shown where the server was started; each works once. "
            "Start it again for a new one. If you have just opened one, reload this page.",
        )


def _refuse_other_sites() -> None:
    """A browser says by itself which site a post comes from; a page of another one is refused."""
    origin, relation = request.headers.get("Origin"), request.headers.get("Sec-Fetch-Site")
    if origin not in {None, request.host_url.rstrip("/")} or relation not in {None, "same-origin", "none"}:
        raise ForeignOrigin("This came from a page of another site.", "Use the pages of this book.", value=origin)


@blueprint.get("/open/<secret>")
def open_desk(secret: str) -> Response:
    """Let the browser in that brings a one-time secret, and show the desk."""
    with book().noting():
        fits = codes.redeem(book(), codes.OPEN, secret)
        let_in = sessions.begin(book(), _browser()) if fits else None
    if let_in:
        session.clear()
        session.permanent = True
        session["desk"] = let_in
        generate_csrf()  # before any form is opened: two of them, opened at once, would each begin one of their own
    elif not sessions.session_of(book(), session.get("desk")):
        raise DeskClosed("This address has been used, or is too old.", "Start the server again for a new one.")
    return redirect(url_for("sites.every"), 303)


def _browser() -> str:
    """What a browser calls itself, as far as a person needs it: its system and its name."""
    said = request.user_agent.string
    system = next((system for system in SYSTEMS if system in said), "")
    name = next((name for sign, name in BROWSERS if sign in said), "")
    return shown(" on ".join(filter(None, (name, system))) or said)

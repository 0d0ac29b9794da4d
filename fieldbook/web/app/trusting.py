"""The plain page that leads a phone to trust a book: the authority's certificate, its fingerprint, the steps.

It is served without encryption, on a port of its own, since the phone trusts nothing yet. Nothing
else is there: no page of the book, no entry, no code.
"""

from __future__ import annotations

import base64
import hashlib

from flask import Flask, Response, make_response, render_template
from jinja2 import StrictUndefined
from werkzeug.exceptions import HTTPException

from ... import folders
from ...serving.address import Way
from ...serving.authority import Authority, called
from ..pages.joining import WAY

CERTIFICATE, PROFILE = "fieldbook.crt", "fieldbook.mobileconfig"


def create_bootstrap_app(authority: Authority, way: Way) -> Flask:
    """The app for the plain port.

    way  where the phone goes on once it trusts the book; another one may be put in its place later
    """
    app = Flask(__name__, static_folder=None, template_folder=folders.TEMPLATES)
    app.jinja_env.undefined = StrictUndefined
    app.jinja_env.trim_blocks = app.jinja_env.lstrip_blocks = True
    app.config["TRUSTED_HOSTS"] = list(way.hosts)
    style, script = (
        (folders.TEMPLATES / "trusting" / name).read_text(encoding="utf-8") for name in ("page.css", "page.js")
    )
    app.config[WAY] = way
    title = called(way.hosts[0])

    @app.get("/")
    def page() -> str:
        files, parts = (CERTIFICATE, PROFILE), {"style": style, "script": script}
        return render_template("trusting/page.html", way=app.config[WAY], title=title, files=files, **parts)

    @app.get(f"/{CERTIFICATE}")
    def certificate() -> Response:
        return _file(authority.der, "application/x-x509-ca-cert", CERTIFICATE)

    @app.get(f"/{PROFILE}")
    def profile() -> Response:
        return _file(authority.profile(way.hosts[0]), "application/x-apple-aspen-config", PROFILE)

    app.register_error_handler(HTTPException, _nothing_else)
    app.after_request(lambda response: _with_headers(response, style, script))
    return app


def _file(content: bytes, media_type: str, name: str) -> Response:
    response = make_response(content)
    response.headers["Content-Type"] = media_type
    response.headers["Content-Disposition"] = f'attachment; filename="{name}"'
    return response


def _nothing_else(error: HTTPException) -> Response:
    response = make_response("There is only one page here: the one at /.\n", error.code or 404)
    response.headers["Content-Type"] = "text/plain; charset=utf-8"
    return response


def _with_headers(response: Response, style: str, script: str) -> Response:
    styled, run = (base64.b64encode(hashlib.sha256(text.encode()).digest()).decode() for text in (style, script))
    policy = f"default-src 'none'; style-src 'sha256-{styled}'; script-src 'sha256-{run}'; "
    policy += "base-uri 'none'; frame-ancestors 'none'"
    response.headers["Content-Security-Policy"] = policy
    response.headers["X-Content-Type-Options"] = "nosniff"
    response.headers["Cache-Control"] = "no-store"
    return response

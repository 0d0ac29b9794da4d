"""Loaded where servers are forked from: what takes a moment to make for the first who asks is made before."""

from __future__ import annotations

import tempfile
from pathlib import Path

from fieldbook.book.opening import create_book
from fieldbook.web import create_app
from tests.compiled_once import compile_once

OF_NO_PAGE = ("record/", "handover/")  # written with words of their own, and not by what serves


def ask_first() -> None:
    """Let the page of the phone's app, its pictures, the list of its files, and the desk's templates be made once."""
    with tempfile.TemporaryDirectory() as folder:
        create_book(Path(folder) / "book").close()
        app = create_app(Path(folder) / "book")
        app.test_client().get("/sw.js")
    for name in app.jinja_env.list_templates(["html"]):
        if not name.startswith(OF_NO_PAGE):
            app.jinja_env.get_template(name)


compile_once()
ask_first()

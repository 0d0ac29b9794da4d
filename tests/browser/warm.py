"""Loaded where servers are forked from: what takes a moment to make for the first phone that asks is made before."""

from __future__ import annotations

import tempfile
from pathlib import Path

from fieldbook.book.opening import create_book
from fieldbook.web import create_app


def ask_as_a_phone() -> None:
    """Let the page of the app, its pictures and the list of its files be made once."""
    with tempfile.TemporaryDirectory() as folder:
        create_book(Path(folder) / "book").close()
        create_app(Path(folder) / "book").test_client().get("/sw.js")


ask_as_a_phone()

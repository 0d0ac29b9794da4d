"""A served book and phones that have joined it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from fieldbook.book.book import Book
from fieldbook.phones import codes, devices
from fieldbook.web import create_app
from tests.sites import Surveyed


@dataclass(frozen=True)
class Phone:
    """A phone that has joined: it asks as the protocol says, with its token."""

    client: FlaskClient
    book: Book
    device: str
    token: str

    def ask(self, method: str, path: str, **more: Any) -> TestResponse:
        """One request."""
        headers = {"Authorization": f"Bearer {self.token}"} | more.pop("headers", {})
        return self.client.open(f"/phone/{path}", method=method, headers=headers, **more)

    def send(self, *entries: Any, **more: Any) -> TestResponse:
        """Step 3."""
        epoch = self.book.fact("epoch")
        return self.ask("POST", "entries", json={"epoch": epoch, "waiting": len(entries), "entries": entries} | more)

    def put(self, sha256: str, content: bytes, first: int, last: int) -> TestResponse:
        """Step 5: the bytes from `first` up to `last`, exclusive."""
        headers = {"Content-Range": f"bytes {first}-{last - 1}/{len(content)}"}
        kind = "application/octet-stream"
        path = f"photographs/{sha256}"
        return self.ask("PUT", path, data=content[first:last], headers=headers, content_type=kind)


@pytest.fixture
def app(surveyed: Surveyed) -> Flask:
    """The app over a book with a site, a room and a face."""
    return create_app(surveyed.book.folder)


@pytest.fixture
def phone(app: Flask, surveyed: Surveyed) -> Phone:
    """A phone that has joined."""
    joined = devices.join(surveyed.book, codes.new_join_code(surveyed.book), "fitter's phone")
    return Phone(app.test_client(), surveyed.book, joined.device, joined.token)

"""The desk as a browser without scripts sees it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from html import unescape
from typing import Any

import pytest
from flask import Flask
from werkzeug.routing import AnyConverter, IntegerConverter, Rule
from werkzeug.test import TestResponse

from fieldbook.web import create_app
from tests.sites import Surveyed

NOBODY = "0197b7a0-0000-7000-8000-0000000000ff"
TOKEN = re.compile(r'name="csrf_token"[^>]*?value="([^"]+)"')
INPUT = re.compile(r"<(input|textarea|select)\b([^>]*)>")
FORM = re.compile(r"<form\b.*?</form>", re.DOTALL)


class Desk:
    """A browser at the desk: it keeps its cookies, sends tokens back, and finds no page that failed."""

    def __init__(self, app: Flask):
        self.app = app
        self.client = app.test_client()

    def get(self, address: str, **more: Any) -> TestResponse:
        """A page."""
        return self.checked(self.client.get(address, buffered=True, **more))

    def post(
        self, address: str, data: dict[str, Any] | None = None, page: str | None = None, **more: Any
    ) -> TestResponse:
        """Send a form, with the token of the page it stands on."""
        token = self.token(page or address)
        return self.checked(self.client.post(address, data={"csrf_token": token} | (data or {}), buffered=True, **more))

    def token(self, page: str) -> str:
        """The token a page's forms carry."""
        found = TOKEN.search(self.get(page).text)
        assert found, f"no form on {page}"
        return unescape(found[1])

    def entered(self, address: str, data: dict[str, Any]) -> str:
        """Send a form that must be accepted; the id of the item it leads to."""
        answer = self.post(address, data)
        assert answer.status_code == 303, messages(answer)
        return answer.location.rpartition("/")[2]

    def changed(self, item: str, **data: Any) -> TestResponse:
        """Change some fields of an item, leaving the others as its form shows them."""
        address = f"/item/{item}/change"
        return self.post(address, shown(self.get(address).text) | data)

    @staticmethod
    def checked(answer: TestResponse) -> TestResponse:
        """The answer, when the server did not fail."""
        assert answer.status_code < 500, answer.text
        return answer


def shown(page: str) -> dict[str, Any]:
    """What the entry form of a page holds, by the names of its inputs."""
    form = next(form for form in FORM.findall(page) if 'class="entry"' in form)
    values: dict[str, Any] = {}
    for found in INPUT.finditer(form):
        attributes = dict(re.findall(r'([\w-]+)(?:="([^"]*)")?', found[2]))
        name, rest = attributes.get("name"), form[found.end() :]
        if not name or attributes.get("type") == "file":
            continue
        if found[1] == "textarea":
            values[name] = unescape(rest.partition("</textarea>")[0]).strip("\r\n")
        elif found[1] == "select":
            chosen = re.search(r'value="([^"]*)"[^>]*\bselected\b', rest.partition("</select>")[0])
            values[name] = unescape(chosen[1]) if chosen else ""
        elif attributes.get("type") == "checkbox":
            if "checked" in attributes:
                values.setdefault(name, []).append(unescape(attributes["value"]))
        else:
            values[name] = unescape(attributes.get("value", ""))
    return values


def messages(answer: TestResponse) -> dict[str, str]:
    """The messages of a page beside its inputs, by the names of these."""
    found = re.findall(r'<p class="error" id="([\w.-]+)-error"[^>]*>(.*?)</p>', answer.text, re.DOTALL)
    return {name: unescape(re.sub(r"<[^>]+>", "", text)).strip() for name, text in found}


def fitting_values(rule: Rule) -> Iterator[tuple[str, Any]]:
    """Values for the parts of an address that take only numbers, or only some words."""
    for name, read in rule._converters.items():
        if isinstance(read, IntegerConverter):
            yield name, 7
        elif isinstance(read, AnyConverter):
            yield name, sorted(read.items)[0]


def addresses(app: Flask, values: dict[str, Any], method: str = "") -> Iterator[tuple[str, str]]:
    """Endpoint and address of every route, those that take a method if one is named."""
    stand_in = {"kind": "nothing", "sha256": "0" * 64, "filename": "no.js"}
    for rule in list(app.url_map.iter_rules()):
        if not method or method in rule.methods:
            known = stand_in | values | dict(fitting_values(rule))
            given = {name: known.get(name, NOBODY) for name in rule.arguments}
            with app.test_request_context():
                address = app.url_for(rule.endpoint, **given)
            yield rule.endpoint, address


@pytest.fixture
def app(surveyed: Surveyed) -> Flask:
    """The pages of a book with a site, a room and a face."""
    return create_app(surveyed.book.folder, access="open")


@pytest.fixture
def desk(app: Flask) -> Iterator[Desk]:
    """A browser at the desk of that book."""
    one = Desk(app)
    with one.client:
        yield one

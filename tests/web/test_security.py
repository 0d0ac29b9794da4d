"""What browsers are told, who is served, and posts that come from elsewhere."""

from __future__ import annotations

import stat

import pytest
from flask import Flask

from fieldbook import folders
from fieldbook.web import create_app
from fieldbook.web.security import session_key
from fieldbook.web.static_files import url_path
from tests.sites import Surveyed
from tests.web.conftest import NOBODY, Desk, addresses, shown

CARRY_THEIR_OWN = {"entries.new", "entries.new_site", "entries.change", "photographs.new"}


def test_pages_forbid_scripts_and_styles_of_their_own(desk: Desk, surveyed: Surveyed) -> None:
    """The policy allows files of this server only, and no page holds what it would forbid."""
    surveyed.fixing(surveyed.fitting())
    for address in (
        "/",
        f"/site/{surveyed.site}",
        f"/face/{surveyed.face}",
        f"/site/{surveyed.site}/new/zone?face={surveyed.face}",
    ):
        answer = desk.get(address)
        policy = answer.headers["Content-Security-Policy"]
        assert "default-src 'none'" in policy
        assert "unsafe" not in policy
        for forbidden in ("<style", " style=", " onclick=", "javascript:", "<script>"):
            assert forbidden not in answer.text, address


@pytest.mark.parametrize("address", ["/", "/nowhere", f"{url_path(folders.STATIC)}/desk.css", f"/item/{NOBODY}"])
def test_every_answer_carries_the_headers(desk: Desk, address: str) -> None:
    """Also what is refused, and files."""
    headers = desk.get(address).headers
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Referrer-Policy"] == "same-origin"
    assert headers["Cross-Origin-Opener-Policy"] == "same-origin"
    assert headers["Cross-Origin-Resource-Policy"] == "same-origin"
    assert "frame-ancestors 'none'" in headers["Content-Security-Policy"]


def test_book_is_not_served_under_another_name(desk: Desk) -> None:
    """A page elsewhere cannot reach the book by pointing its own name here."""
    answer = desk.get("/", headers={"Host": "elsewhere.example"})
    assert answer.status_code == 400
    assert "not served under that name" in answer.text


def test_cookie_is_kept_from_scripts_and_other_sites(desk: Desk) -> None:
    """Without TLS the cookie cannot be marked for it; all else holds."""
    (cookie,) = desk.get("/site/new").headers.getlist("Set-Cookie")
    assert cookie.startswith("fieldbook-")
    assert "HttpOnly" in cookie
    assert "SameSite=Strict" in cookie


def test_cookie_is_bound_to_the_host_where_there_is_tls(surveyed: Surveyed) -> None:
    """The name says so, and browsers hold to it."""
    client = create_app(surveyed.book.folder, tls=True, access="open").test_client()
    (cookie,) = client.get("/site/new", base_url="https://localhost").headers.getlist("Set-Cookie")
    assert cookie.startswith("__Host-fieldbook-")
    assert "Secure" in cookie
    assert "Domain" not in cookie


def test_key_is_made_once_and_for_its_owner_alone(surveyed: Surveyed) -> None:
    """Sessions outlive the server; nobody else reads the key."""
    key = session_key(surveyed.book.folder)
    path = surveyed.book.folder / "keys" / "session"
    assert len(key) == 64
    assert session_key(surveyed.book.folder) == key
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert [one.name for one in path.parent.iterdir() if one.name.startswith("tmp")] == []


@pytest.mark.parametrize("content", [b"", b"\x00" * 64, b"\xff\xfe", b"ab" * 31, b"ab" * 40], ids=len)
def test_unreadable_key_is_made_again_with_a_word(
    surveyed: Surveyed, content: bytes, caplog: pytest.LogCaptureFixture
) -> None:
    """What a failing disk left, empty, torn or too long, is told and replaced by a key that stays."""
    session_key(surveyed.book.folder)
    path = surveyed.book.folder / "keys" / "session"
    path.write_bytes(content)
    key = session_key(surveyed.book.folder)
    assert "made again" in caplog.text
    assert (len(key), session_key(surveyed.book.folder)) == (64, key)
    assert stat.S_IMODE(path.stat().st_mode) == 0o600


def test_posts_without_a_token_change_nothing(app: Flask, desk: Desk, surveyed: Surveyed) -> None:
    """Every address of the desk that changes something asks where the post came from."""
    zone = surveyed.zone()
    before = surveyed.book.revision()
    tried = set()
    for endpoint, address in addresses(app, {"item": zone, "site": surveyed.site, "kind": "zone"}, "POST"):
        answer = desk.client.post(address, data={"name": "x", "revision": "1"})
        assert 400 <= answer.status_code < 500, endpoint
        tried.add(endpoint)
    assert surveyed.book.revision() == before
    assert tried >= {"items.withdraw", "items.bring_back", "items.set_back", "conflicts.settle", "editions.make"}
    assert tried >= CARRY_THEIR_OWN


def test_form_refused_for_its_token_keeps_what_was_typed(desk: Desk, surveyed: Surveyed) -> None:
    """A page left open too long costs nobody their typing; with the new token it goes through."""
    page = f"/site/{surveyed.site}/new/room"
    typed = shown(desk.get(page).text) | {"name": "Weighing hall", "floor": "Flags, worn", "csrf_token": "long ago"}
    answer = desk.client.post(page, data=typed)
    assert answer.status_code == 422
    again = shown(answer.text)
    assert (again["name"], again["floor"]) == ("Weighing hall", "Flags, worn")
    assert desk.client.post(page, data=again).status_code == 303

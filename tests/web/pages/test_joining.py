"""Phones at the desk: listed, let in, shut out."""

from __future__ import annotations

import re

import pytest
from flask.testing import FlaskClient

from fieldbook.phones import codes, devices, pieces
from fieldbook.serving.address import Way, way_behind_a_proxy
from fieldbook.web import create_app
from tests.sites import Surveyed

WAY = Way(
    "https://fieldbook-0a1b2c.local:23456/phone/",
    ("https://192.168.1.7:23456/phone/",),
    "http://192.168.1.7:23457/",
    "AB:CD:EF",
    ("fieldbook-0a1b2c.local", "192.168.1.7", "localhost"),
)


def desk(surveyed: Surveyed, **settings: object) -> FlaskClient:
    """A browser at an open desk."""
    return create_app(surveyed.book.folder, access="open", wtf_csrf_enabled=False, **settings).test_client()


@pytest.fixture
def phone(surveyed: Surveyed) -> str:
    """The id of a phone that has joined and said that 7 wait on it."""
    joined = devices.join(surveyed.book, codes.new_join_code(surveyed.book), "fitter & mate")
    devices.touch(surveyed.book, devices.authenticate(surveyed.book, joined.token), 7)
    return joined.device


def test_phones_are_listed_with_what_waits_on_them(surveyed: Surveyed, phone: str) -> None:
    """The desk shows each phone by its name, with what has not come in yet."""
    page = desk(surveyed).get("/phones").text
    assert "fitter &amp; mate" in page
    assert "7 not sent yet" in page


def test_page_to_join_shows_address_fingerprint_and_a_code_that_works(surveyed: Surveyed) -> None:
    """All that a phone needs stands on one page, as text and as a square for its camera."""
    page = desk(surveyed, way=WAY).post("/phones/join").text
    assert WAY.phone_url in page
    assert WAY.by_number[0] in page
    assert "AB:CD:EF" in page
    (code,) = set(re.findall(r"\b[0-9A-Z]{4}-[0-9A-Z]{4}\b", page))
    assert f"<title>{WAY.trust_url}#{code}</title>" in page
    assert "23456 and 23457" in page
    assert devices.join(surveyed.book, code, "phone").token


def test_earlier_phone_is_let_in_again_by_a_code_of_its_own(surveyed: Surveyed, phone: str) -> None:
    """The yes is given beside the phone, and the page says what it means."""
    page = desk(surveyed, way=WAY).post(f"/phones/{phone}/join-again").text
    assert "makes entries as “<bdi>fitter &amp; mate</bdi>”" in page
    (code,) = set(re.findall(r"\b[0-9A-Z]{4}-[0-9A-Z]{4}\b", page))
    assert devices.join(surveyed.book, code, "same phone", phone).device == phone
    assert desk(surveyed).post(f"/phones/{surveyed.face}/join-again").status_code == 404


def test_page_to_join_behind_a_proxy_asks_for_no_trust(surveyed: Surveyed) -> None:
    """Where phones trust the certificate already, they go straight to the app."""
    page = desk(surveyed, way=way_behind_a_proxy("book.example")).post("/phones/join").text
    assert "https://book.example/phone/" in page
    assert "ingerprint" not in page


def test_page_to_join_offers_the_cable_where_only_this_machine_is_served(surveyed: Surveyed) -> None:
    """The page says how all others are served, and leads a phone on a cable to an address that is not secret there."""
    browser = desk(surveyed)
    page = browser.post("/phones/join", base_url="http://127.0.0.1:8479").text
    assert "--lan" in page
    assert "adb reverse tcp:8479 tcp:8479" in page
    (code,) = set(re.findall(r"\b[0-9A-Z]{4}-[0-9A-Z]{4}\b", page))
    assert f"<title>http://localhost:8479/phone/?join={code}</title>" in page
    assert browser.get("/phone/", base_url="http://localhost:8479").status_code == 200


def test_app_put_on_the_home_screen_begins_with_its_code(surveyed: Surveyed) -> None:
    """The manifest made for a code is the app's own but for where it begins."""
    browser = desk(surveyed)
    plain = browser.get("/phone/manifest.webmanifest").json
    coded = browser.get("/phone/join-7K3M-Q9TX.webmanifest").json
    assert plain and coded
    assert plain["start_url"] == plain["id"]
    assert coded == plain | {"start_url": "/phone/?join=7K3M-Q9TX"}


def test_phone_shut_out_at_the_desk_is_known_no_more(surveyed: Surveyed, phone: str) -> None:
    """One press shuts a phone out, and what it had begun to send is thrown away."""
    pieces.take(surveyed.book, phone, "0" * 64, 0, 9, [b"x"])
    answer = desk(surveyed).post(f"/phones/{phone}/shut-out")
    assert (answer.status_code, answer.location) == (303, "/phones")
    with pytest.raises(devices.ShutOut):
        devices.device_named(surveyed.book, phone)
    assert not list((surveyed.book.folder / "arriving").rglob("*.part"))


def test_pages_of_phones_need_a_post_from_the_page(surveyed: Surveyed, phone: str) -> None:
    """Nobody is let in or shut out by a link, or by a form that is none of ours."""
    browser = create_app(surveyed.book.folder, access="open").test_client()
    for path in ("/phones/join", f"/phones/{phone}/shut-out", f"/phones/{phone}/file", "/phones/back"):
        assert browser.get(path).status_code == 405
        assert browser.post(path).status_code == 400

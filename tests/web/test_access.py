"""Who is let in to the desk."""

from __future__ import annotations

import re
from io import BytesIO

import pytest
from flask.testing import FlaskClient

from fieldbook.phones import codes
from fieldbook.phones.sessions import every_session
from fieldbook.web import create_app
from tests.sites import Surveyed


def desk(surveyed: Surveyed, **settings: object) -> FlaskClient:
    """A browser that has not been let in yet."""
    return create_app(surveyed.book.folder, **settings).test_client()


def test_desk_is_closed_unless_told_otherwise(surveyed: Surveyed) -> None:
    """Without a one-time address no page of the book is shown, and no file of it."""
    browser = desk(surveyed)
    for path in ("/", f"/sites/{surveyed.site}", "/conflicts", "/phones", "/glossary"):
        assert browser.get(path).status_code in {403, 404}
    answer = browser.get("/", headers={"Accept": "application/json"})
    assert (answer.status_code, answer.get_json()["error"]) == (403, "desk-closed")
    assert b"Customs shed" not in browser.get("/").data


def test_every_page_but_those_of_phones_needs_the_session(surveyed: Surveyed) -> None:
    """No blueprint slips past the door: each route without a session is refused before its view runs."""
    app = create_app(surveyed.book.folder)
    open_to_all = {rule.endpoint for rule in app.url_map.iter_rules() if "desk" not in _refusal(app, rule.endpoint)}
    assert {endpoint.partition(".")[0] for endpoint in open_to_all} <= {"static", "access", "sync", "phone"}


def _refusal(app: object, endpoint: str) -> str:
    from flask import Flask, request

    from fieldbook.web import access

    assert isinstance(app, Flask)
    with app.test_request_context("/"):
        request.url_rule = next(rule for rule in app.url_map.iter_rules() if rule.endpoint == endpoint)
        try:
            access._guard()
        except access.DeskClosed as error:
            return error.code
    return ""


def test_one_time_address_opens_the_desk_once(surveyed: Surveyed) -> None:
    """The browser that opens it is let in and stays in; a second one is not."""
    secret = codes.new_opening(surveyed.book)
    browser = desk(surveyed)
    answer = browser.get(f"/open/{secret}")
    assert (answer.status_code, answer.location) == (303, "/")
    assert b"Customs shed" in browser.get("/").data
    assert browser.get(f"/open/{secret}").status_code == 303
    other = desk(surveyed)
    assert other.get(f"/open/{secret}").status_code == 403
    assert other.get("/").status_code == 403


@pytest.mark.parametrize("secret", ["x", "0000-0000", "%00", "a" * 5000])
def test_address_with_a_guessed_secret_opens_nothing(surveyed: Surveyed, secret: str) -> None:
    """A secret that was never given out is refused in words."""
    codes.new_opening(surveyed.book)
    assert desk(surveyed).get(f"/open/{secret}").status_code == 403


def test_browsers_let_in_are_listed_and_ended(surveyed: Surveyed) -> None:
    """Another browser stands in the list with its age in days, and is out as soon as it is ended here."""
    browsers = [desk(surveyed, wtf_csrf_enabled=False) for _ in range(2)]
    for browser in browsers:
        browser.get(f"/open/{codes.new_opening(surveyed.book)}", headers={"User-Agent": "Mozilla (Linux) Firefox/1"})
    with surveyed.book.noting():
        earlier = ["2020-01-01T00:00:00.000+00:00", every_session(surveyed.book)[0].id]
        surveyed.book.db.execute("UPDATE desk_session SET opened_at = ? WHERE id = ?", earlier)
    page = browsers[0].get("/phones").text
    assert page.count("Firefox on Linux") == 2
    assert re.search(r"Let in \d+ days ago, last used less than a day ago\.", page)
    assert "Let in less than a day ago, last used less than a day ago." in page
    own = re.search(r"this one\).*?/phones/browsers/([0-9a-f-]{36})/end", page, re.DOTALL)
    assert own
    (other,) = {one.id for one in every_session(surveyed.book)} - {own[1]}
    browsers[0].post(f"/phones/browsers/{other}/end")
    assert [browser.get("/").status_code for browser in browsers] == [200, 403]


def test_browser_unused_for_a_month_is_let_in_no_more(surveyed: Surveyed) -> None:
    """A session lapses by itself, whatever its cookie says."""
    browser = desk(surveyed)
    browser.get(f"/open/{codes.new_opening(surveyed.book)}")
    assert browser.get("/").status_code == 200
    with surveyed.book.noting():
        surveyed.book.db.execute("UPDATE desk_session SET seen_at = '2020-01-01T00:00:00.000+00:00'")
    assert browser.get("/").status_code == 403


def test_answer_that_comes_late_takes_nothing_back(surveyed: Surveyed) -> None:
    """What was asked for before a form was opened may arrive after it: the form is taken all the same."""
    browser = desk(surveyed)
    browser.get(f"/open/{codes.new_opening(surveyed.book)}")
    name = browser.application.config["SESSION_COOKIE_NAME"]
    before = _cookie(browser)
    token = _token_of_a_form(browser)
    after = _cookie(browser)
    for late in (f"{browser.application.static_url_path}/desk.css", "/", f"/site/{surveyed.site}", "/phones"):
        browser.set_cookie(name, before)
        if "Set-Cookie" not in browser.get(late, buffered=True).headers:
            browser.set_cookie(name, after)
        assert browser.post("/phones/join", data={"csrf_token": token}).status_code == 200, late


def test_two_forms_opened_at_once_are_both_taken(surveyed: Surveyed) -> None:
    """Each was asked for before the other's answer was there; the cookie of the last is the one that is kept."""
    browser = desk(surveyed)
    browser.get(f"/open/{codes.new_opening(surveyed.book)}")
    before = _cookie(browser)
    first = _token_of_a_form(browser)
    browser.set_cookie(browser.application.config["SESSION_COOKIE_NAME"], before)
    second = _token_of_a_form(browser)
    for token in (first, second):
        assert browser.post("/phones/join", data={"csrf_token": token}).status_code == 200


def _cookie(browser: FlaskClient) -> str:
    cookie = browser.get_cookie(browser.application.config["SESSION_COOKIE_NAME"])
    assert cookie
    return cookie.value


def _token_of_a_form(browser: FlaskClient) -> str:
    token = re.search(r'name="csrf_token"[^>]*?value="([^"]+)"', browser.get("/phones").text)
    assert token
    return token[1]


def test_body_of_a_stranger_is_not_read(surveyed: Surveyed) -> None:
    """Whoever is not let in is refused before a byte of what it sends is looked at, and so is what is too large."""
    browser = desk(surveyed)
    for path in (f"/item/{surveyed.face}/change", "/phone/entries", "/phones/join", "/phone/join"):
        for sort in ("multipart/form-data; boundary=x", "application/json"):
            sent = {"CONTENT_LENGTH": "1000000000", "CONTENT_TYPE": sort, "wsgi.input": Untouched()}
            assert browser.post(path, environ_overrides=sent).status_code in {401, 403, 413, 415}, path
    let_in = desk(surveyed, access="open", wtf_csrf_enabled=False)
    assert let_in.post("/phones/join", environ_overrides=sent).status_code in {200, 413}


class Untouched(BytesIO):
    """A body that nobody may read."""

    def read(self, *_: object) -> bytes:
        """Fails the test."""
        raise AssertionError("it was read")

    readinto = readline = read


def test_code_for_phones_does_not_open_the_desk(surveyed: Surveyed) -> None:
    """What is read aloud to let a phone join lets nobody in to the desk."""
    code = codes.new_join_code(surveyed.book)
    assert desk(surveyed).get(f"/open/{code}").status_code == 403


def test_session_cookie_is_bound_to_the_host_and_to_tls(surveyed: Surveyed) -> None:
    """Under TLS the cookie is secure, unreadable for scripts, of this host alone and sent from its own pages only."""
    browser = desk(surveyed, tls=True)
    address = f"/open/{codes.new_opening(surveyed.book)}"
    cookie = browser.get(address, base_url="https://localhost").headers["Set-Cookie"]
    assert cookie.startswith("__Host-fieldbook")
    words = {part.strip() for part in cookie.split(";")[1:]}
    assert {"Secure", "HttpOnly", "Path=/", "SameSite=Strict"} <= words
    assert not any(word.startswith("Domain") for word in words)


def test_open_desk_needs_no_address(surveyed: Surveyed) -> None:
    """Where it is said in so many words, whoever reaches the port is let in."""
    assert b"Customs shed" in desk(surveyed, access="open").get("/").data


@pytest.mark.parametrize(
    "headers", [{"Origin": "https://elsewhere.example"}, {"Origin": "null"}, {"Sec-Fetch-Site": "cross-site"}]
)
def test_post_from_another_site_is_refused_though_the_desk_is_open(surveyed: Surveyed, headers: dict[str, str]) -> None:
    """A page elsewhere changes nothing here, whatever cookie the browser sends along."""
    browser = desk(surveyed, access="open", wtf_csrf_enabled=False)
    assert browser.post("/phones/join", headers=headers).status_code == 403
    assert browser.post("/phones/join", headers={"Origin": "http://localhost"}).status_code == 200


def test_name_that_is_not_this_machines_is_refused(surveyed: Surveyed) -> None:
    """A name that someone else lets point here opens nothing (DNS rebinding)."""
    browser = desk(surveyed, access="open")
    assert browser.get("/", headers={"Host": "elsewhere.example"}).status_code == 400
    assert browser.get("/", headers={"X-Forwarded-Host": "localhost", "Host": "elsewhere.example"}).status_code == 400


def test_proxys_word_is_taken_only_when_there_is_one(surveyed: Surveyed) -> None:
    """Behind a proxy its headers say where a request came from; without one they are not looked at."""
    forwarded = {"X-Forwarded-Host": "book.example", "X-Forwarded-Proto": "https", "Origin": "https://book.example"}
    settings = {
        "access": "open",
        "wtf_csrf_enabled": False,
        "tls": True,
        "trusted_hosts": ["book.example", "localhost"],
    }
    behind, before = desk(surveyed, behind_proxy=True, **settings), desk(surveyed, **settings)
    assert behind.post("/phones/join", headers=forwarded).status_code == 200
    assert before.post("/phones/join", headers=forwarded).status_code == 403

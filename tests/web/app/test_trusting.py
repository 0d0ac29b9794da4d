"""The plain page that leads a phone to trust a book, and nothing else."""

from __future__ import annotations

import base64
import hashlib
import plistlib
import re

import pytest
from cryptography import x509
from flask.testing import FlaskClient

from fieldbook import folders
from fieldbook.serving.address import address_of, way_on_the_local_network
from fieldbook.serving.authority import Keys, keys_of
from fieldbook.web.app.trusting import create_bootstrap_app
from fieldbook.web.static_files import url_path
from tests.sites import Surveyed


@pytest.fixture
def keys(surveyed: Surveyed) -> Keys:
    """The keys of a book."""
    return keys_of(surveyed.book, address_of(surveyed.book), ["192.168.1.7"])


@pytest.fixture
def browser(surveyed: Surveyed, keys: Keys) -> FlaskClient:
    """A phone's browser at the plain port."""
    way = way_on_the_local_network(address_of(surveyed.book), ["192.168.1.7"], keys.authority.fingerprint)
    return create_bootstrap_app(keys.authority, way).test_client()


def test_page_shows_the_fingerprint_the_address_and_both_ways(
    browser: FlaskClient, surveyed: Surveyed, keys: Keys
) -> None:
    """The page has what is to be compared, where to go on, and the steps for both sorts of phone."""
    page = browser.get("/").text
    assert keys.authority.fingerprint in page
    assert address_of(surveyed.book).url in page
    assert {"iphone", "android", "remove"} <= set(re.findall(r'id="([a-z]+)"', page))
    assert page.count("<svg") >= 6
    assert "Customs shed" not in page


def test_certificate_is_the_authoritys_and_holds_no_key(browser: FlaskClient, keys: Keys) -> None:
    """What a phone takes is the certificate whose fingerprint is shown."""
    answer = browser.get("/fieldbook.crt")
    assert answer.headers["Content-Type"] == "application/x-x509-ca-cert"
    assert answer.data == keys.authority.der
    assert x509.load_der_x509_certificate(answer.data)


def test_profile_for_an_iphone_holds_the_same_certificate(browser: FlaskClient, keys: Keys) -> None:
    """The profile carries one root certificate, and stays the same from day to day."""
    answer = browser.get("/fieldbook.mobileconfig")
    assert answer.headers["Content-Type"] == "application/x-apple-aspen-config"
    profile = plistlib.loads(answer.data)
    (content,) = profile["PayloadContent"]
    assert (profile["PayloadType"], content["PayloadType"]) == ("Configuration", "com.apple.security.root")
    assert content["PayloadContent"] == keys.authority.der
    assert browser.get("/fieldbook.mobileconfig").data == answer.data


@pytest.mark.parametrize(
    "path", ["/phone/hello", "/phones", "/open/x", f"{url_path(folders.STATIC)}/desk.css", "/keys/authority.key", "/x"]
)
def test_there_is_nothing_else(browser: FlaskClient, path: str) -> None:
    """No page of the book and no file is given out without encryption."""
    assert browser.get(path).status_code == 404
    assert browser.post("/").status_code == 405


def test_page_may_load_nothing_but_its_own_style_and_script(browser: FlaskClient) -> None:
    """Style and script are named by their digests, and nothing else may be loaded."""
    answer = browser.get("/")
    policy = answer.headers["Content-Security-Policy"]
    for name in ("style", "script"):
        (text,) = re.findall(f"<{name}>(.*?)</{name}>", answer.text, re.DOTALL)
        digest = base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()
        assert f"{name}-src 'sha256-{digest}';" in policy
    assert policy.startswith("default-src 'none';")


def test_name_that_is_not_this_books_is_refused(browser: FlaskClient, surveyed: Surveyed) -> None:
    """The page answers to the book's name and numbers alone."""
    assert browser.get("/", headers={"Host": "elsewhere.example"}).status_code == 400
    assert browser.get("/", headers={"Host": f"{address_of(surveyed.book).name}:23457"}).status_code == 200

"""Every address answers, whatever it is asked; every link leads somewhere; nothing is far away."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from html import unescape
from io import BytesIO
from typing import Any

import pytest
from flask import Flask

from fieldbook.book import evidence
from fieldbook.book.opening import create_book
from fieldbook.book.photographs import keep
from fieldbook.model.kinds import KINDS
from fieldbook.web import create_app
from tests.sites import Surveyed, picture, survey
from tests.web.conftest import NOBODY, Desk, addresses

pytestmark = pytest.mark.slow

TOGETHER = pytest.mark.xdist_group("crawled")
LINK = re.compile(r'(?:href|src)="([^"#]+)(?:#[^"]*)?"')
ANCHOR = re.compile(r'href="([^"#]*)#([^"]+)"')
METHODS = ("GET", "HEAD", "POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "NONSENSE")
HOSTILE_FORM = b"csrf_token=%FF%FE&name=%00&base=1&x_mm=1e999&outline=rectangle+1+2"
CUT_UPLOAD = b'--a\r\nContent-Disposition: form-data; name="files"; filename="../../x"\r\n\r\nhello'
BODIES: dict[str, dict[str, Any]] = {
    "bytes": {"data": b"\x00\xff" * 50},
    "broken JSON": {"data": b"{", "content_type": "application/json"},
    "hostile form": {"data": HOSTILE_FORM, "content_type": "application/x-www-form-urlencoded"},
    "cut upload": {"data": CUT_UPLOAD, "content_type": "multipart/form-data; boundary=a"},
    "many parts": {"data": {f"field{number}": "x" for number in range(1200)}, "content_type": "multipart/form-data"},
}


def links_of(page: str) -> set[str]:
    """The addresses a page leads to on this server."""
    return {unescape(link) for link in LINK.findall(page) if link.startswith("/")}


def furnished(surveyed: Surveyed) -> Surveyed:
    """One item of every kind a page can show."""
    book, on_site, at = surveyed.book, {"site": surveyed.site}, "2026-05-03T10:00:00+01:00"
    surveyed.zone()
    surveyed.limit()
    on_face = {"face": surveyed.face, "x_mm": 100, "z_mm": 200}
    book.write("hold", on_face | {"mark": "H1", "sort": "hook", "may_be_used": "yes"})
    survey = {"surface": [[x, z, x / 500] for x in (0, 2500, 5000) for z in (0, 3000)], "floor": [[0, 0], [5000, 12]]}
    book.write("face", survey, surveyed.face)
    cut = {"parts": [["stave", 900, 120, 4, "along"]], "stock_length_mm": 2400, "stock_width_mm": 600, "kerf_mm": 3}
    weighs = {"mass_loaded_kg": 12, "mass_empty_kg": 10, "centre_out_mm": 40}
    finishes = [book.write("finish", on_site | {"name": "Grey", "sort": "wax"})]
    fitting = surveyed.fitting(finishes=finishes, **cut, **weighs)
    surveyed.fixing(fitting, x_mm=1090)
    surveyed.fixing(fitting, mark="D1.2", x_mm=1900, packers_mm=3)
    logged = "when,rh\n" + "".join(f"2026-05-{day:02} 10:00,{50 + day}\n" for day in range(1, 20))
    read = {
        "time_column": "when",
        "humidity_column": "rh",
        "sha256": evidence.keep(book.folder, "log", logged.encode()),
    }
    book.write("log", {"room": surveyed.room, "name": "Logger by the door", "size_bytes": len(logged)} | read)
    seen = on_face | {"room": surveyed.room, "at": at}
    book.write("reading", seen | {"quantity": "level", "value": 3, "unit": "mm"})
    book.write("observation", seen | {"what": "A crack", "x_mm": None, "z_mm": None})
    given = {"reference": "A1", "answer": "yes", "words": "As drawn", "said_by": "keeper", "on": "2026-05-01"}
    book.write("agreement", on_site | given | {"items": [fitting]})
    book.write("task", on_site | {"what": "Dust", "fitting": fitting})
    book.write("visit", on_site | {"purpose": "survey", "on": "2026-05-01"})
    paid = {"what": "Ash", "sort": "material", "amount": 12, "currency": "EUR", "state": "paid"}
    book.write("cost", on_site | paid)
    book.write("material", on_site | {"name": "Own oak", "group": "species", "source": "test"})
    book.write("build_up", on_site | {"name": "Cob", "sort": "wall", "layers": [["cob", 540, "old"]]})
    kept = keep(book, picture())
    shows = {"subject": surveyed.face, "purpose": "datum"} | asdict(kept)
    book.write("photograph", on_site | shows)
    return surveyed


@dataclass(frozen=True)
class Crawled:
    """The desk of a book with one item of every kind, and all that its links reach.

    clicks  address -> clicks from the page of the site
    pages   address -> what stands there, where that is a page
    """

    surveyed: Surveyed
    clicks: dict[str, int]
    pages: dict[str, str]


@pytest.fixture(scope="module")
def crawled(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Crawled]:
    """Follow every link once; none leads nowhere."""
    with create_book(tmp_path_factory.mktemp("crawled") / "book") as book:
        surveyed = furnished(survey(book))
        desk, start = Desk(create_app(book.folder, access="open")), f"/site/{surveyed.site}"
        clicks, pages, at_hand = {start: 0}, {}, [start]
        while at_hand:
            address = at_hand.pop(0)
            answer = desk.get(address)
            assert answer.status_code in {200, 302, 303, 308}, address
            if answer.mimetype == "text/html":
                pages[address] = answer.text
                for link in links_of(answer.text) - clicks.keys():
                    clicks[link] = clicks[address] + 1
                    at_hand.append(link)
        yield Crawled(surveyed, clicks, pages)


@TOGETHER
def test_every_link_leads_somewhere(crawled: Crawled) -> None:
    """No page points to one that is not there, and no page is a dead end; the first page is among them."""
    assert len(crawled.clicks) > 60
    assert "/" in crawled.pages


@TOGETHER
def test_everything_is_three_clicks_from_the_page_of_the_site(crawled: Crawled) -> None:
    """Every item, and every form and history of one, is at hand."""
    clicks, surveyed = crawled.clicks, crawled.surveyed
    items = [row["id"] for kind in KINDS for row in surveyed.book.items(kind)]
    for item in items:
        for address in (f"/item/{item}", f"/item/{item}/change", f"/item/{item}/history"):
            shown = address.replace("/item/", "/face/") if address == f"/item/{surveyed.face}" else address
            assert clicks.get(address, clicks.get(shown, 99)) <= 3, address
    for kind in KINDS:
        if kind not in {"site", "log", "photograph"}:  # those begin elsewhere
            assert any(re.search(rf"/new/{kind}\b", address) and number <= 3 for address, number in clicks.items()), (
                kind
            )


@TOGETHER
def test_anchors_lead_to_what_is_on_the_page(crawled: Crawled) -> None:
    """A link to a part of a page finds that part."""
    for address, text in crawled.pages.items():
        for target, anchor in ANCHOR.findall(text):
            page = crawled.pages[unescape(target)] if target else text
            assert f'id="{anchor}"' in page, f"{address} to {target}#{anchor}"


@pytest.mark.parametrize("method", METHODS)
def test_every_address_answers_every_method(app: Flask, desk: Desk, surveyed: Surveyed, method: str) -> None:
    """Known items, unknown ones and ones of another kind: a reason, never a failure."""
    zone = surveyed.zone()
    for item in (NOBODY, zone, surveyed.face):
        for _, address in addresses(app, {"item": item, "site": item, "printing": item}):
            desk.checked(desk.client.open(address, method=method, buffered=True))


# Werkzeug leaves the part of an upload that was cut short to the garbage collector.
@pytest.mark.filterwarnings("ignore:.*SpooledTemporaryFile:pytest.PytestUnraisableExceptionWarning")
@pytest.mark.parametrize("body", BODIES.values(), ids=BODIES)
def test_every_address_answers_every_body(app: Flask, desk: Desk, surveyed: Surveyed, body: dict[str, Any]) -> None:
    """Bytes, broken JSON, control characters, cut uploads and too many parts: 4xx, and nothing is written."""
    zone = surveyed.zone()
    before = surveyed.book.revision()
    for endpoint, address in addresses(app, {"item": zone, "site": surveyed.site, "kind": "zone"}, "POST"):
        answer = desk.client.post(address, **body)
        assert 400 <= answer.status_code < 500, (endpoint, answer.status_code)
    assert surveyed.book.revision() == before


@pytest.mark.parametrize(
    "address",
    [
        "/item/nothing",
        "/item/",
        "/site/%00",
        "/face/..%2f..",
        f"/item/{NOBODY}",
        f"/site/{NOBODY}/new/zone",
        "/site/x/new/y",
        "/%ff",
    ],
)
def test_unknown_addresses_say_so(desk: Desk, address: str) -> None:
    """404, in words, with a way back."""
    answer = desk.get(address)
    assert answer.status_code == 404
    assert 'href="/"' in answer.text


def test_json_is_answered_with_json(desk: Desk) -> None:
    """A program gets the same refusal as plain values."""
    answer = desk.get(f"/face/{NOBODY}/answer", headers={"Accept": "application/json"})
    assert (answer.status_code, answer.json["error"]) == (404, "unknown-item")
    assert answer.json["remedy"]


def test_method_that_does_not_apply_says_which_do(desk: Desk) -> None:
    """405 with Allow."""
    answer = desk.client.delete("/")
    assert answer.status_code == 405
    assert "GET" in answer.headers["Allow"]


def test_upload_beyond_all_bounds_is_refused_with_a_reason(app: Flask, desk: Desk, surveyed: Surveyed) -> None:
    """413, and not a closed connection without a word."""
    app.config["MAX_CONTENT_LENGTH"] = 10_000
    answer = desk.client.post(
        f"/site/{surveyed.site}/photographs/new",
        data={"files": (BytesIO(picture(200, 200, "PNG", compress_level=0)), "x.png")},
    )
    assert answer.status_code == 413


def test_failure_nobody_foresaw_shows_a_reference_and_no_trace(
    app: Flask, desk: Desk, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    """The page names a reference; the log holds the trace under it."""

    def fails() -> str:
        raise RuntimeError("a secret of the inside")

    monkeypatch.setitem(app.view_functions, "glossary.words", fails)
    answer = desk.client.get("/glossary")
    assert answer.status_code == 500
    assert "secret" not in answer.text
    assert "Traceback" not in answer.text
    reference = re.search(r"reference ([0-9a-f]{8})", answer.text)
    assert reference
    assert reference[1] in caplog.text

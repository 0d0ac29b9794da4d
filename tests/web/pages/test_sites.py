"""The overview of a site, and looking for something on it."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from fieldbook.book.gathering import gather
from fieldbook.book.opening import create_book
from fieldbook.findings import appraise
from fieldbook.web import create_app
from fieldbook.web.shown.glance import glance_at
from fieldbook.web.shown.sought import sought
from tests.sites import Surveyed
from tests.web.conftest import Desk


def test_glance_counts_work_money_and_verdicts(surveyed: Surveyed) -> None:
    """States, budget against costs in its currency, other currencies apart."""
    book, site = surveyed.book, surveyed.site
    book.write("site", {"budget": 100, "currency": "EUR"}, site)
    for amount, currency, state in ((30, "EUR", "paid"), (80.5, "EUR", "expected"), (7, "SEK", "paid")):
        cost = {"site": site, "what": "x", "sort": "material", "amount": amount, "currency": currency, "state": state}
        book.write("cost", cost)
    surveyed.zone()
    surveyed.fixing(surveyed.fitting(x_mm=0, z_mm=0), x_mm=110, z_mm=50)
    gathered = gather(book, site)
    glance = glance_at(gathered, appraise(gathered), date(2026, 1, 1))
    assert glance.states["fixing"] == {"planned": 1, "fitted": 0, "taken down": 0}
    euro, krona = glance.money
    assert (euro.currency, euro.paid, euro.expected, euro.left) == ("EUR", 30, 80.5, -10.5)
    assert (krona.currency, krona.left) == ("SEK", None)
    assert glance.words["over"] == 1
    assert glance.worst[0].subject.called == "D1.1"
    ((_, faces),) = glance.rooms
    assert [(face.id, word) for face, word in faces] == [(surveyed.face, "over")]


def test_new_site_begins_empty_and_says_so(desk: Desk) -> None:
    """The first page after the first form is of use."""
    site = desk.entered("/site/new", {"name": "Weigh house"})
    page = desk.get(f"/site/{site}").text
    assert "No rooms yet" in page
    assert "Missing from the record" in page


def test_overview_tells_what_is_due_and_the_next_visit(surveyed: Surveyed, desk: Desk) -> None:
    """What is due, in conflict and when somebody comes next stand on one page, before the rooms."""
    surveyed.book.write(
        "visit", {"site": surveyed.site, "purpose": "inspection", "on": "2026-01-05", "next_on": "2199-03-09"}
    )
    gathered = gather(surveyed.book, surveyed.site)
    days = (date(2199, 3, 8), date(2199, 3, 9), date(2199, 3, 10))
    assert [glance_at(gathered, (), day).visit.replace("\u00a0", " ") for day in days] == [
        *("9 March 2199", "9 March 2199, today", "overdue: was due on 9 March 2199"),
    ]
    page = desk.get(f"/site/{surveyed.site}").text
    assert page.index("9\u00a0March 2199") < page.index('id="rooms"')


def test_tab_of_the_page_one_is_on_says_so(surveyed: Surveyed, desk: Desk) -> None:
    """One tab, and no other, is marked as current."""
    for address, words in ((f"/site/{surveyed.site}", "Overview"), (f"/site/{surveyed.site}/findings", "Findings")):
        page = desk.get(address).text
        tabs = page[page.index('aria-label="This site"') : page.index("</header>")]
        assert tabs.count("aria-current") == 1
        assert f'aria-current="page">{words}<' in tabs


def test_empty_book_names_three_things_each_a_click_away(desk: Desk, tmp_path: Path) -> None:
    """Building, room, face: the next one is a link as soon as what it belongs to is entered."""
    book = create_book(tmp_path / "new.book")
    book.close()
    empty = Desk(create_app(tmp_path / "new.book", access="open"))
    with empty.client:
        assert 'href="/site/new">The building' in empty.get("/").text
    site = desk.entered("/site/new", {"name": "Sail loft"})
    assert f'href="/site/{site}/new/room">A room' in desk.get(f"/site/{site}").text
    room = desk.entered(f"/site/{site}/new/room", {"name": "Long room"})
    assert f"/new/face?room={room}" in desk.get(f"/site/{site}").text
    desk.entered(
        f"/site/{site}/new/face?room={room}",
        {"room": room, "name": "Gable", "sort": "wall", "width_mm": "6310", "height_mm": "2870"},
    )
    assert "Three things" not in desk.get(f"/site/{site}").text


@pytest.mark.parametrize(
    ("text", "first"), [("K1", "K1 "), ("flue BEHIND", "K1 "), ("nowhere at all", None), ("", None)]
)
def test_search_finds_by_mark_and_by_any_word(surveyed: Surveyed, desk: Desk, text: str, first: str | None) -> None:
    """Every word is looked for, in any case and in any field; a blank finds nothing."""
    surveyed.zone(mark="K1", name="Old flue", reason="a chimney stands behind it")
    found = sought(gather(surveyed.book, surveyed.site), text)
    assert [item.title[: len(first)] for item in found[:1]] == [first] if first else found == []
    assert ("Nothing found" in desk.get(f"/site/{surveyed.site}/search?words={text}").text) is bool(text and not first)


def test_photographs_are_walked_room_by_room(surveyed: Surveyed, desk: Desk) -> None:
    """A room's page of photographs leads to the rooms before and after it."""
    other = surveyed.book.write("room", {"site": surveyed.site, "mark": "R9", "name": "Loft"})
    assert f"/room/{other}/photographs" in desk.get(f"/room/{surveyed.room}/photographs").text
    assert f"/room/{surveyed.room}/photographs" in desk.get(f"/room/{other}/photographs").text

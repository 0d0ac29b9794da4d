"""Conflicts at the desk: both values side by side, settled by one press."""

from __future__ import annotations

import re

import pytest

from tests.sites import Surveyed
from tests.web.conftest import Desk
from tests.web.pages.test_entries import PHONE, entry

OTHER = PHONE[:-1] + "2"


def quarrel(surveyed: Surveyed) -> str:
    """A zone whose margin two phones have set without seeing each other: 45, then 60."""
    zone = surveyed.zone()
    base = surveyed.book.revision()
    first, second = (entry("zone", zone, base, {"margin_mm": margin}) for margin in (45, 60))
    surveyed.book.append([first, second | {"device": OTHER}])
    assert len(surveyed.book.conflicts()) == 1
    return zone


def buttons(page: str) -> list[dict[str, str]]:
    """The hidden values of each form that settles something."""
    forms = re.findall(r'<form method="post" action="/conflicts/settle".*?</form>', page, re.DOTALL)
    return [dict(re.findall(r'name="(\w+)" value="([^"]*)"', form)) for form in forms]


def test_both_values_stand_side_by_side(surveyed: Surveyed, desk: Desk) -> None:
    """Who, when, from which device, and what."""
    zone = quarrel(surveyed)
    page = desk.get("/conflicts").text
    for words in ("45", "60", PHONE, OTHER, zone):
        assert words in page
    assert "1 conflict to settle" in desk.get("/").text


@pytest.mark.parametrize(("place", "margin"), [(0, 45), (1, 60)])
def test_one_press_settles_it_either_way(surveyed: Surveyed, desk: Desk, place: int, margin: float) -> None:
    """The chosen value stands, by a new entry; the pair waits no more and the history keeps both."""
    zone = quarrel(surveyed)
    before = surveyed.book.revision()
    answer = desk.post("/conflicts/settle", buttons(desk.get("/conflicts").text)[place], page="/conflicts")
    assert answer.status_code == 303
    assert surveyed.book.item(zone)[1]["margin_mm"] == margin
    assert (surveyed.book.conflicts(), surveyed.book.revision()) == ([], before + 1)


def test_item_withdrawn_by_one_and_changed_by_another_can_be_kept_or_let_go(surveyed: Surveyed, desk: Desk) -> None:
    """Whether it stays is a quarrel like any other, shown with what was changed."""
    zone = surveyed.zone()
    base = surveyed.book.revision()
    change = entry("zone", zone, base, {"margin_mm": 45})
    withdrawal = {key: value for key, value in entry("zone", zone, base, {}).items() if key != "set"}
    surveyed.book.append([change, withdrawal | {"withdraw": True, "device": OTHER}])
    page = desk.get("/conflicts").text
    assert "withdrawn" in page
    assert "45" in page
    desk.post("/conflicts/settle", buttons(page)[0], page="/conflicts")
    assert (surveyed.book.item(zone)[1]["withdrawn"], surveyed.book.conflicts()) == (0, [])


def test_conflict_that_does_not_wait_cannot_be_settled(surveyed: Surveyed, desk: Desk) -> None:
    """A press on a page that is out of date changes nothing."""
    zone = quarrel(surveyed)
    (button, _) = buttons(desk.get("/conflicts").text)
    desk.post("/conflicts/settle", button, page="/conflicts")
    before = surveyed.book.revision()
    for sent in (button, {}, {"item": zone, "field": "margin_mm", "revision": "1"}):
        assert desk.post("/conflicts/settle", sent, page=f"/item/{zone}").status_code == 404
    assert surveyed.book.revision() == before

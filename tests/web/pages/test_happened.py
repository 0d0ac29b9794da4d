"""Something happened, at the desk: what to do now before anything is entered, and a form that knows the rest."""

from __future__ import annotations

import re
from html import unescape

from tests.sites import Surveyed
from tests.web.conftest import Desk


def test_what_to_do_stands_before_the_form_and_the_form_knows_it(surveyed: Surveyed, desk: Desk) -> None:
    """What is not known to be light is made safe, with whom to call; entered, it is due at once."""
    book, site = surveyed.book, surveyed.site
    book.write("site", {"call": "gate lodge, 5 55 01"}, site)
    rail = surveyed.fitting(state="fitted", fitted_on="2026-01-02")
    start = desk.get(f"/site/{site}/due").text
    assert f"/site/{site}/happened" in start
    page = desk.get(f"/site/{site}/happened?what=a+knock&about={rail}").text
    assert "A knock: make it safe" in page
    assert "how heavy it is, is not entered" in page
    assert "gate lodge, 5 55 01" in page
    address = unescape(re.search(r'href="([^"]*new/observation[^"]*)"', page)[1])
    item = desk.entered(address, {"at": "2026-05-30T10:00+01:00", "words": "A trolley ran into it."})
    _, seen = book.item(item)
    known = {name: seen[name] for name in ("happened", "urgency_class", "fitting", "face", "room", "occasion")}
    assert known == {
        "happened": "a knock",
        "urgency_class": "3",
        "fitting": rail,
        "face": surveyed.face,
        "room": surveyed.room,
        "occasion": "something happened",
    }
    assert "A knock: D1 Rail" in desk.get(f"/site/{site}/due").text


def test_a_word_that_nobody_offers_answers_nothing(surveyed: Surveyed, desk: Desk) -> None:
    """An address that was altered asks again."""
    page = desk.get(f"/site/{surveyed.site}/happened?what=fire&about={surveyed.face}").text
    assert "What to do now" in page
    assert "Enter it" not in page

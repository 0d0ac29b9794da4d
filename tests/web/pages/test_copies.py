"""Copies of a fitting: shown before they are entered, and what follows a change of the first."""

from __future__ import annotations

from urllib.parse import parse_qs, urlsplit

import pytest

from tests.sites import Surveyed
from tests.web.conftest import Desk, messages, shown


def test_row_is_shown_and_then_entered_with_its_fixings(surveyed: Surveyed, desk: Desk) -> None:
    """Showing writes nothing; the marks go on."""
    fitting = surveyed.fitting(x_mm=100)
    surveyed.fixing(fitting)
    page, before = f"/item/{fitting}/copies", surveyed.book.revision()
    sent = shown(desk.get(page).text) | {"count": "2", "apart": "1200 1500"}
    told = desk.post(page, sent | {"show": "yes"}).text
    assert "As they would be" in told
    assert "D3" in told
    assert surveyed.book.revision() == before
    assert desk.post(page, sent).location == f"/face/{surveyed.face}"
    assert [(one["mark"], one["x_mm"]) for one in surveyed.book.items("fitting")] == [
        ("D1", 100),
        ("D2", 1300),
        ("D3", 2800),
    ]
    assert [(one["mark"], one["x_mm"]) for one in surveyed.book.items("fixing")] == [
        ("D1.1", 200),
        ("D2.1", 1400),
        ("D3.1", 2900),
    ]


@pytest.mark.parametrize(
    ("given", "field"),
    [({}, "apart"), ({"apart": "far"}, "apart"), ({"count": "0", "apart": "900"}, "count"), ({"face": "no"}, "face")],
)
def test_copies_that_have_no_place_are_refused(
    surveyed: Surveyed, desk: Desk, given: dict[str, str], field: str
) -> None:
    """Beside the input that lacks something."""
    fitting = surveyed.fitting()
    page = f"/item/{fitting}/copies"
    answer = desk.post(page, shown(desk.get(page).text) | given)
    assert (answer.status_code, list(messages(answer))) == (422, [field])


def test_copy_that_cannot_be_entered_lets_none_in(surveyed: Surveyed, desk: Desk) -> None:
    """A fixing beyond the face is named by the mark it would have."""
    fitting = surveyed.fitting(x_mm=100)
    surveyed.fixing(fitting)
    page, before = f"/item/{fitting}/copies", surveyed.book.revision()
    answer = desk.post(page, shown(desk.get(page).text) | {"count": "2", "apart": "3000"})
    assert answer.status_code == 422
    assert "D3.1: " in answer.text
    assert surveyed.book.revision() == before


def test_change_of_the_first_is_taken_over_and_asked_about(surveyed: Surveyed, desk: Desk) -> None:
    """A planned copy has it at once; for one that stands the page asks, with the new figure filled in."""
    fitting = surveyed.fitting(x_mm=100, mass_loaded_kg=9)
    page = f"/item/{fitting}/copies"
    desk.post(page, shown(desk.get(page).text) | {"count": "2", "apart": "1100"})
    _, planned, standing = (one["id"] for one in surveyed.book.items("fitting"))
    surveyed.book.write("fitting", {"state": "fitted"}, standing)
    answer = desk.changed(fitting, mass_loaded_kg="8,5")
    assert surveyed.book.item(planned)[1]["mass_loaded_kg"] == 8.5
    assert surveyed.book.item(standing)[1]["mass_loaded_kg"] == 9
    asked = parse_qs(urlsplit(answer.location).query)
    assert asked == {"items": [standing], "mass_loaded_kg": ["8.5"]}
    asks = desk.get(answer.location).text
    assert "stand already" in asks
    assert desk.post(answer.location, shown(asks)).status_code == 303
    assert surveyed.book.item(standing)[1]["mass_loaded_kg"] == 8.5

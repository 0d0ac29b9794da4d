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
    assert "D3 stands already" in asks
    assert desk.post(answer.location, shown(asks)).status_code == 303
    assert surveyed.book.item(standing)[1]["mass_loaded_kg"] == 8.5


def with_copies(surveyed: Surveyed, desk: Desk) -> tuple[str, str, str]:
    """A first, a planned copy and one that stands, each 1,100 mm from the one before."""
    page = f"/item/{surveyed.fitting(x_mm=100)}/copies"
    desk.post(page, shown(desk.get(page).text) | {"count": "2", "apart": "1100"})
    first, planned, standing = (one["id"] for one in surveyed.book.items("fitting"))
    surveyed.book.write("fitting", {"state": "fitted"}, standing)
    return first, planned, standing


CLAMP = {
    "mark": "D1.1", "sort": "clamp", "state": "planned", "x_mm": "340", "z_mm": "1525", "contact_radius_mm": "13",
    "hole": "none", "fabric": "old fabric", "trace": "none",
}  # fmt: skip


def test_new_fixing_of_the_first_reaches_copies(surveyed: Surveyed, desk: Desk) -> None:
    """A planned copy has it with the same entry; for one that stands the page asks, and enters it as planned."""
    first, planned, standing = with_copies(surveyed, desk)
    page = f"/site/{surveyed.site}/new/fixing?fitting={first}"
    answer = desk.post(page, shown(desk.get(page).text) | CLAMP | {"face": surveyed.face})
    made = {one["fitting"]: (one["mark"], one["x_mm"]) for one in surveyed.book.items("fixing")}
    assert made == {first: ("D1.1", 340), planned: ("D2.1", 1440)}
    asks = desk.get(answer.location).text
    assert "D3 stands already" in asks
    assert desk.post(answer.location, shown(asks) | {"lacked": []}).status_code == 422
    assert desk.post(answer.location, shown(asks)).location == f"/face/{surveyed.face}"
    third = next(one for one in surveyed.book.items("fixing") if one["fitting"] == standing)
    assert (third["mark"], third["x_mm"], third["state"]) == ("D3.1", 2540, "planned")
    assert "Every copy has all of them." in desk.get(answer.location).text


def test_fixings_by_the_row_reach_copies(surveyed: Surveyed, desk: Desk) -> None:
    """One that a copy cannot take lets none in and is named by its mark; what is wrong in a row is told once."""
    first, planned, standing = with_copies(surveyed, desk)
    page = f"/site/{surveyed.site}/several/fixing?fitting={first}"
    sent = shown(desk.get(page).text) | CLAMP | {"face": surveyed.face, "mark": ""}
    beyond = desk.post(page, sent | {"rows": "D1.1; 340; 1525\nD1.2; 4500; 1525"}).text
    assert ("Row 2: " in beyond, "D2.2: " in beyond) == (True, False)
    rows = sent | {"rows": "D1.1; 340; 1525\nD1.2; 910; 1525"}
    surveyed.book.write("fitting", {"width_mm": 330}, planned)
    narrow = desk.post(page, rows).text
    assert ("Row 2: " in narrow, "D2.2: " in narrow) == (False, True)
    assert surveyed.book.items("fixing") == []
    surveyed.book.write("fitting", {"width_mm": 1000}, planned)
    answer = desk.post(page, rows)
    assert [(one["mark"], one["x_mm"]) for one in surveyed.book.items("fixing")] == [
        ("D1.1", 340), ("D1.2", 910), ("D2.1", 1440), ("D2.2", 2010),
    ]  # fmt: skip
    assert desk.get(answer.location).text.count("checked") == 2
    assert "Fixings missing from copies" in desk.get(f"/item/{planned}/copies").text
    assert standing not in [one["fitting"] for one in surveyed.book.items("fixing")]


def test_what_is_set_for_several_reaches_the_copies_of_each(surveyed: Surveyed, desk: Desk) -> None:
    """A planned copy takes it over with the same entry; for one that stands the page asks."""
    first, planned, standing = with_copies(surveyed, desk)
    other = surveyed.fitting(mark="D8", z_mm=700)
    page = f"/site/{surveyed.site}/together?items={first}&items={other}"
    answer = desk.post(page, shown(desk.get(page).text) | {"build_up": "cleat; 27; 1"})
    layers = {one["id"]: one["build_up"][0][0] for one in surveyed.book.items("fitting")}
    assert layers == {first: "cleat", other: "cleat", planned: "cleat", standing: "rail"}
    assert parse_qs(urlsplit(answer.location).query)["items"] == [standing]
    told = desk.get(answer.location).text
    assert all(
        words in told for words in ("2\N{NO-BREAK SPACE}fittings changed.", "D2: made like it", "D3 stands already")
    )


@pytest.mark.parametrize("named", ["", "?fitting={face}", "?fitting={nobody}", "?fixing={face}"])
def test_fixings_of_copies_of_nothing_is_a_page_that_says_so(surveyed: Surveyed, desk: Desk, named: str) -> None:
    """An address that names no fitting, or something else, leads back to the site."""
    address = named.format(face=surveyed.face, nobody="0197b7a0-0000-7000-8000-0000000000ff")
    assert "Every copy has all of them" in desk.get(f"/site/{surveyed.site}/fixings-of-copies{address}").text

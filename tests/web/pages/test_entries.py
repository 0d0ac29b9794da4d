"""Entering, changing and copying items, also while others change them."""

from __future__ import annotations

import re
from typing import Any

import pytest

from fieldbook.book.book import Book
from fieldbook.book.identity import uuid7
from fieldbook.book.ledger import now
from tests.sites import Surveyed
from tests.web.conftest import Desk, messages, shown

PHONE = "0197b7a0-0000-7000-8000-000000000001"


def entry(kind: str, item: str, base: int, fields: dict[str, Any]) -> dict[str, Any]:
    """An entry as a phone sends it."""
    return {"id": uuid7(), "device": PHONE, "at": now(), "kind": kind, "item": item, "base": base, "set": fields}


def from_phone(book: Book, kind: str, item: str, **fields: Any) -> None:
    """A change that comes from a phone that has seen all there is."""
    (answer,) = book.append([entry(kind, item, book.revision(), fields)])
    assert answer.status == "accepted"


def test_parent_and_surroundings_are_preset(surveyed: Surveyed, desk: Desk) -> None:
    """A fixing begun from its fitting lies on that fitting's face."""
    fitting = surveyed.fitting()
    preset = shown(desk.get(f"/site/{surveyed.site}/new/fixing?fitting={fitting}&x_mm=12,5").text)
    assert (preset["fitting"], preset["face"], preset["x_mm"], preset["state"]) == (
        fitting,
        surveyed.face,
        "12.5",
        "planned",
    )


def test_address_with_nonsense_in_it_presets_nothing(surveyed: Surveyed, desk: Desk) -> None:
    """What a field would refuse is left out, and strange names are no concern; the only face there is stands in."""
    address = f"/site/{surveyed.site}/new/fixing?x_mm=far&face=nowhere&endpoint=x&_external=1&like=me&state=lost"
    preset = shown(desk.get(address).text)
    assert (preset["x_mm"], preset["face"]) == ("", surveyed.face)


def test_another_like_it_copies_all_but_mark_and_place(surveyed: Surveyed, desk: Desk) -> None:
    """Ninety fixings are not typed ninety times, and their marks count on."""
    fixing = surveyed.fixing(surveyed.fitting(), size="M6 × 40", fitted_x_mm=1101.0, fitted_z_mm=1540.0, state="fitted")
    page = f"/site/{surveyed.site}/new/fixing?like={fixing}"
    copied = shown(desk.get(page).text)
    assert (copied["size"], copied["contact_radius_mm"]) == ("M6 × 40", "12")
    assert (copied["mark"], copied["x_mm"], copied["fitted_x_mm"], copied["state"]) == ("D1.2", "", "", "planned")
    answer = desk.post(page, copied | {"x_mm": "1300", "z_mm": "1540", "then": "another"})
    assert answer.status_code == 303
    assert f"/site/{surveyed.site}/new/fixing?like=" in answer.location


def test_only_items_of_this_site_are_offered(surveyed: Surveyed, desk: Desk) -> None:
    """A link cannot reach into another site of the same book."""
    other = surveyed.book.write("site", {"name": "Weigh house"})
    room = surveyed.book.write("room", {"site": other, "name": "Scale room"})
    page = f"/site/{surveyed.site}/new/face"
    assert "Scale room" not in desk.get(page).text
    sent = {"room": room, "name": "Wall", "sort": "wall", "width_mm": "100", "height_mm": "100"}
    answer = desk.post(page, sent)
    assert (answer.status_code, list(messages(answer))) == (422, ["room"])


@pytest.mark.parametrize(
    ("kind", "link"), [("reading", "face"), ("zone", "face"), ("face", "room"), ("fixing", "fitting")]
)
def test_item_of_another_kind_where_a_link_leads_is_refused_beside_its_field(
    surveyed: Surveyed, desk: Desk, kind: str, link: str
) -> None:
    """It is on the site, and can be told apart all the same: nothing is drawn or worked out from it."""
    material = surveyed.book.write(
        "material", {"site": surveyed.site, "name": "Own oak", "group": "species", "source": "test"}
    )
    answer = desk.post(f"/site/{surveyed.site}/new/{kind}", {link: material})
    assert answer.status_code == 422
    assert link in messages(answer)


def test_two_may_change_different_fields(surveyed: Surveyed, desk: Desk) -> None:
    """A form opened before another change keeps that change, and its own."""
    zone = surveyed.zone()
    page = f"/item/{zone}/change"
    opened = shown(desk.get(page).text)
    from_phone(surveyed.book, "zone", zone, margin_mm=45)
    assert desk.post(page, opened | {"evidence": "a scan"}).status_code == 303
    values = surveyed.book.item(zone)[1]
    assert (values["margin_mm"], values["evidence"]) == (45, "a scan")
    assert surveyed.book.conflicts() == []


def test_field_changed_meanwhile_is_shown_beside_what_was_typed(surveyed: Surveyed, desk: Desk) -> None:
    """Both values are told; saving again lets the later stand, and neither is a conflict then."""
    zone = surveyed.zone(margin_mm=20)
    page = f"/item/{zone}/change"
    opened = shown(desk.get(page).text)
    from_phone(surveyed.book, "zone", zone, margin_mm=45, said_by="adviser")
    answer = desk.post(page, opened | {"margin_mm": "60", "evidence": "a scan"})
    assert answer.status_code == 409
    assert "45" in messages(answer)["margin_mm"]
    again = shown(answer.text)
    assert (again["margin_mm"], again["evidence"], again["said_by"]) == ("60", "a scan", "adviser")
    assert desk.post(page, again).status_code == 303
    values = surveyed.book.item(zone)[1]
    assert (values["margin_mm"], values["evidence"], values["said_by"]) == (60, "a scan", "adviser")
    assert surveyed.book.conflicts() == []


def test_same_change_made_twice_is_no_quarrel(surveyed: Surveyed, desk: Desk) -> None:
    """Two people who enter the same value agree."""
    zone = surveyed.zone()
    page = f"/item/{zone}/change"
    opened = shown(desk.get(page).text)
    from_phone(surveyed.book, "zone", zone, margin_mm=45)
    assert desk.post(page, opened | {"margin_mm": "45"}).status_code == 303


@pytest.mark.parametrize("base", ["", "soon", "-1", "9" * 30, "0"])
def test_form_that_does_not_say_what_it_shows_is_refused(surveyed: Surveyed, desk: Desk, base: str) -> None:
    """Without the state it began from, a change cannot be judged."""
    zone = surveyed.zone()
    assert desk.changed(zone, base=base, margin_mm="45").status_code == 422
    assert surveyed.book.item(zone)[1]["margin_mm"] == 20


def test_nothing_changed_makes_no_entry(surveyed: Surveyed, desk: Desk) -> None:
    """Looking and saving leaves no trace in the ledger."""
    zone = surveyed.zone()
    before = surveyed.book.revision()
    assert desk.changed(zone).status_code == 303
    assert surveyed.book.revision() == before


def test_withdrawn_link_stays_until_it_is_changed(surveyed: Surveyed, desk: Desk) -> None:
    """Saving a form does not silently drop a link to something withdrawn."""
    finish = surveyed.book.write("finish", {"site": surveyed.site, "name": "Grey", "sort": "wax"})
    fitting = surveyed.fitting(finishes=[finish])
    surveyed.book.withdraw(finish)
    assert desk.changed(fitting, purpose="to hang maps").status_code == 303
    assert surveyed.book.item(fitting)[1]["finishes"] == [finish]


def test_mark_that_is_taken_is_told_beside_it_and_saved_all_the_same(surveyed: Surveyed, desk: Desk) -> None:
    """While it is typed, when the form comes back, and once it is in the book."""
    surveyed.fitting(name="Rail")
    asked = desk.get(f"/site/{surveyed.site}/marked/fitting?mark=d01").text
    assert "fitting D1 Rail (R1-N)" in asked
    form = {"face": surveyed.face, "mark": "D1", "name": "Second rail", "state": "planned", "base": "0"}
    place = {"x_mm": "2000", "z_mm": "1500", "width_mm": "100", "height_mm": "too high"}
    refused = desk.post(f"/site/{surveyed.site}/new/fitting", data=form | place)
    assert refused.status_code == 422
    assert "fitting D1 Rail (R1-N)" in refused.text
    saved = desk.post(
        f"/site/{surveyed.site}/new/fitting", data=form | place | {"height_mm": "100"}, follow_redirects=True
    )
    assert "D1: Taken already by fitting D1 Rail (R1-N)." in saved.text
    assert [one["name"] for one in surveyed.book.items("fitting")] == ["Rail", "Second rail"]
    assert desk.get(f"/site/{surveyed.site}/marked/fitting?mark=D11").text == ""


def test_what_is_neither_needed_nor_usual_is_folded(surveyed: Surveyed, desk: Desk) -> None:
    """Its heading opens where something under it is to be mended, and stands open once the last of the kind had it."""
    page = f"/site/{surveyed.site}/new/fixing?fitting={surveyed.fitting()}"
    folded, opened = '<details class="group"><summary>Strength', '<details class="group" open><summary>Strength'
    first = desk.get(page).text
    assert folded in first
    assert "<legend>Contact</legend>" in first  # something there is needed
    assert opened not in first
    assert "<legend>Strength</legend>" in desk.post(page, shown(first) | {"nut_factor": "far"}).text
    surveyed.fixing(surveyed.book.items("fitting")[0]["id"], nut_factor=0.2)
    assert "<legend>Strength</legend>" in desk.get(page).text


def test_copied_face_has_no_measurements(surveyed: Surveyed, desk: Desk) -> None:
    """What it is made of goes along; how large it is, how it leans and where it lies are measured anew."""
    surveyed.book.write("face", {"layers": [["limewash", 1, "old"]], "slope_deg": 2, "left_mm": 40}, surveyed.face)
    copied = shown(desk.get(f"/site/{surveyed.site}/new/face?like={surveyed.face}").text)
    assert copied["layers"] == "limewash; 1; old"
    assert [copied[name] for name in ("width_mm", "height_mm", "slope_deg", "left_mm", "surface")] == [""] * 5


def test_fields_of_other_sorts_say_which_they_are_of(surveyed: Surveyed, desk: Desk) -> None:
    """A script shows those of the chosen sort alone; without one all are there."""
    page = desk.get(f"/site/{surveyed.site}/new/limit?face={surveyed.face}").text
    assert 'data-sorts="route"' in page
    assert 'data-sorts="headroom\nflat"' in page


def test_next_stays_where_one_is_whatever_it_begins_like(surveyed: Surveyed, desk: Desk) -> None:
    """Of a fixing taken from another fitting neither that fitting nor its face comes along."""
    here, there = (surveyed.fitting(mark=mark) for mark in ("D1", "D2"))
    other = surveyed.fixing(there, mark="D2.1", size="M8 × 70")
    page = f"/site/{surveyed.site}/new/fixing?like={surveyed.fixing(here)}"
    answer = desk.post(page, shown(desk.get(page).text) | {"x_mm": "1300", "z_mm": "1540", "then": "another"})
    begun = shown(desk.get(re.sub(r"like=[^&]*", f"like={other}", answer.location)).text)
    assert (begun["size"], begun["fitting"]) == ("M8 × 70", here)

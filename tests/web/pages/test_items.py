"""The page of an item, its history, and taking things out and back."""

from __future__ import annotations

import re

from fieldbook.web.shown.revisions import values_at
from tests.sites import Surveyed
from tests.web.conftest import Desk
from tests.web.pages.test_entries import entry, from_phone


def test_page_of_an_item_shows_its_fields_verdicts_and_what_refers_to_it(surveyed: Surveyed, desk: Desk) -> None:
    """One page tells all."""
    zone = surveyed.zone(reason="Lettering of the tally clerks")
    fitting = surveyed.fitting(x_mm=0, z_mm=0)
    surveyed.fixing(fitting, x_mm=110, z_mm=50)
    surveyed.book.write("task", {"site": surveyed.site, "what": "Dust the rail", "fitting": fitting})
    assert "Lettering of the tally clerks" in desk.get(f"/item/{zone}").text
    page = desk.get(f"/item/{fitting}").text
    assert "D1.1" in page
    assert "Dust the rail" in page


def test_markup_in_a_note_is_shown_as_it_was_typed(surveyed: Surveyed, desk: Desk) -> None:
    """A note may speak of markup; the page does not obey it."""
    zone = surveyed.zone(reason="<img src=x onerror=alert(1)> & so on")
    page = desk.get(f"/item/{zone}").text
    assert "&lt;img src=x onerror=alert(1)&gt; &amp; so on" in page
    assert "<img src=x" not in page


def test_long_note_and_names_in_other_scripts_are_set_apart(surveyed: Surveyed, desk: Desk) -> None:
    """A name written from right to left does not turn what stands beside it."""
    zone = surveyed.zone(name="جدار الكتابة", reason="word " * 2000)
    page = desk.get(f"/item/{zone}").text
    assert "<bdi>جدار الكتابة</bdi>" in page
    assert re.search(r'<div class="note" dir="auto">(word ){1999}word</div>', page)


def test_history_tells_every_entry_and_sets_back_by_a_new_one(surveyed: Surveyed, desk: Desk) -> None:
    """Undo is a later entry; nothing is taken from the ledger."""
    zone = surveyed.zone(margin_mm=20)
    first = surveyed.book.history(zone)[0]["revision"]
    from_phone(surveyed.book, "zone", zone, margin_mm=45, evidence="a scan")
    page = desk.get(f"/item/{zone}/history").text
    assert ("20" in page, "45" in page, "a scan" in page) == (True, True, True)
    before = surveyed.book.revision()
    answer = desk.post(f"/item/{zone}/set-back", {"revision": first}, page=f"/item/{zone}/history")
    assert (answer.status_code, surveyed.book.revision()) == (303, before + 1)
    values = surveyed.book.item(zone)[1]
    assert (values["margin_mm"], values["evidence"]) == (20, None)
    assert len(surveyed.book.history(zone)) == 3


def test_set_back_to_an_entry_of_something_else_is_refused(surveyed: Surveyed, desk: Desk) -> None:
    """Only an item's own history can be gone back to."""
    zone = surveyed.zone()
    for revision in ("1", "x", ""):
        answer = desk.post(f"/item/{zone}/set-back", {"revision": revision}, page=f"/item/{zone}")
        assert answer.status_code == 404


def test_withdrawn_item_can_be_seen_and_brought_back(surveyed: Surveyed, desk: Desk) -> None:
    """It leaves the lists, is named among what was withdrawn, and returns."""
    zone = surveyed.zone()
    assert desk.post(f"/item/{zone}/withdraw", page=f"/item/{zone}").status_code == 303
    assert zone not in desk.get(f"/face/{surveyed.face}").text
    assert zone in desk.get(f"/site/{surveyed.site}/withdrawn").text
    assert "was withdrawn" in desk.get(f"/item/{zone}").text
    assert desk.post(f"/item/{zone}/bring-back", page=f"/item/{zone}").status_code == 303
    assert zone in desk.get(f"/face/{surveyed.face}").text


def test_withdrawn_site_and_room_and_face_still_have_pages(surveyed: Surveyed, desk: Desk) -> None:
    """Whatever was withdrawn above it, an item's page opens, so that it can be brought back."""
    fixing = surveyed.fixing(surveyed.fitting())
    for item in (surveyed.face, surveyed.room, surveyed.site):
        surveyed.book.withdraw(item)
        for address in (f"/item/{item}", f"/item/{fixing}", f"/item/{fixing}/history", f"/item/{fixing}/change"):
            assert desk.get(address).status_code == 200
    for address in (f"/face/{surveyed.face}", f"/room/{surveyed.room}", f"/site/{surveyed.site}", "/"):
        assert desk.get(address).status_code == 200


def test_values_at_agree_with_the_tables(surveyed: Surveyed) -> None:
    """Replaying an item's entries comes to what the tables hold, though they had not seen each other."""
    zone = surveyed.zone()
    surveyed.book.append([entry("zone", zone, 0, {"margin_mm": 70}), entry("zone", zone, 0, {"margin_mm": 60})])
    values = values_at(surveyed.book.history(zone), surveyed.book.revision())
    table = surveyed.book.item(zone)[1]
    assert {name: table[name] for name in values} == values
    assert values["margin_mm"] == 60

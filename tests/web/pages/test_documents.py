"""Documents at the desk: added by form, and handed out to be saved."""

from __future__ import annotations

from io import BytesIO

from demo_site import letters
from fieldbook.book import evidence
from tests.sites import Surveyed
from tests.web.conftest import Desk, shown

LETTER = letters.pdf(("Marrow Quay", "", "As drawn."))


def form(content: bytes = LETTER, **more: str) -> dict:
    """What a browser sends."""
    values = {"reference": "L1", "name": "Note on the rail", "sort": "engineer’s note"}
    return values | more | {"files": (BytesIO(content), "../a.pdf")}


def test_document_is_added_and_given_back_byte_for_byte(desk: Desk, surveyed: Surveyed) -> None:
    """It comes back as a file to be saved, under a name of ours, and its type is the one that was found."""
    address = f"/site/{surveyed.site}/documents/new"
    answer = desk.post(address, {"site": surveyed.site} | form())
    assert answer.status_code == 303
    (document,) = surveyed.book.items("document")
    assert evidence.path_of(surveyed.book.folder, "document", document["sha256"]).read_bytes() == LETTER
    given = desk.get(f"/documents/{document['id']}/as-it-came")
    assert given.data == LETTER
    assert given.mimetype == "application/pdf"
    assert given.headers["Content-Disposition"] == f"attachment; filename={document['sha256'][:12]}.pdf"
    assert "Save the file" in desk.get(answer.location).text


def test_refused_file_is_told_beside_its_input(desk: Desk, surveyed: Surveyed) -> None:
    """What is no PDF and no scan, or nothing, gives the form back with what was typed."""
    for content in (b"", b"MZ"):
        answer = desk.post(f"/site/{surveyed.site}/documents/new", {"site": surveyed.site} | form(content))
        text = answer.text
        assert answer.status_code == 422
        assert 'id="files-error"' in text
        assert "Note on the rail" in text
    assert surveyed.book.items("document") == []


def test_what_rests_on_it_is_ticked_together(desk: Desk, surveyed: Surveyed) -> None:
    """Fixings whose load is stated alike are one tick; what is unticked no longer cites it, another's stays."""
    book, site = surveyed.book, surveyed.site
    stated = {"stated_load_n": 250.0, "stated_source": "data sheet of the peg", "stated_on": "2026-02-03"}
    fitting = surveyed.fitting()
    pegs = [surveyed.fixing(fitting, mark=f"D1.{at}", **stated) for at in (1, 2, 3)]
    surveyed.fixing(fitting, mark="D1.4")
    zone = surveyed.zone(mark="K4")
    added = desk.post(f"/site/{site}/documents/new", {"site": site, "then": "rests"} | form())
    (document,) = book.items("document")
    assert added.location == f"/documents/{document['id']}/rests"
    page = desk.get(added.location).text
    alike = f"stated_in {' '.join(pegs)}"
    assert "data sheet of the peg: Fixings D1.1 to D1.3" in page
    assert "rests" not in shown(page)
    before = book.revision()
    sent = {"base": str(before), "rests": [alike, f"said_in {zone}"]}
    assert desk.post(added.location, sent).location == f"/item/{document['id']}"
    assert {book.item(one)[1]["stated_in"] for one in pegs} == {document["id"]}
    assert book.item(zone)[1]["said_in"] == document["id"]
    assert book.revision() == before + 4
    form_now = shown(desk.get(added.location).text)
    assert set(form_now["rests"]) == {alike, f"said_in {zone}"}
    desk.post(added.location, form_now | {"rests": [alike]})
    assert book.item(zone)[1]["said_in"] is None
    assert {book.item(one)[1]["stated_in"] for one in pegs} == {document["id"]}


def test_only_a_document_is_rested_on(desk: Desk, surveyed: Surveyed) -> None:
    """Nothing else has such a page."""
    assert desk.get(f"/documents/{surveyed.face}/rests").status_code == 404


def test_file_of_something_else_is_not_handed_out(desk: Desk, surveyed: Surveyed) -> None:
    """Only a document's."""
    assert desk.get(f"/documents/{surveyed.face}/as-it-came").status_code == 404

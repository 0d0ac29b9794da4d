"""Lists from a spreadsheet: shown with what is wrong, entered together or not at all."""

from __future__ import annotations

from io import BytesIO
from urllib.parse import parse_qs, urlsplit

from fieldbook.model.kinds import KINDS
from tests.sites import Surveyed
from tests.web.conftest import Desk, messages, shown


def page_of(surveyed: Surveyed, kind: str) -> str:
    """The page where a list of a kind is entered."""
    return f"/site/{surveyed.site}/list/{kind}"


def holds(surveyed: Surveyed, *rows: str) -> str:
    """A table of holes on the face."""
    fields = KINDS["hold"].by_name
    names = ("mark", "face", "sort", "may_be_used", "x_mm", "z_mm")
    return "\n".join(
        [";".join(fields[name].heading for name in names), *(row.replace("FACE", surveyed.face) for row in rows)]
    )


def test_list_is_shown_and_then_entered(surveyed: Surveyed, desk: Desk) -> None:
    """By labels or names, with semicolons and decimal commas; the first press writes nothing."""
    page, before = page_of(surveyed, "hold"), surveyed.book.revision()
    text = holds(surveyed, "H4;FACE;hook;yes;417,5;1280", ";FACE;hook;no;930;1345")
    answer = desk.post(page, shown(desk.get(page).text) | {"text": text})
    assert answer.status_code == 200 and "2 new" in answer.text and "Enter all" in answer.text
    assert answer.text.count(surveyed.face) == 2  # as it was sent, in the box; the rows shown name the face
    assert answer.text.count(">R1-N</td>") == 2
    assert surveyed.book.revision() == before
    assert desk.post(page, shown(answer.text) | {"enter": "all"}).status_code == 303
    found = [(one["mark"], one["x_mm"], one["may_be_used"]) for one in surveyed.book.items("hold")]
    assert found == [("H4", 417.5, "yes"), ("H5", 930, "no")]


def test_one_fault_lets_nothing_in_and_is_told_at_its_cell(surveyed: Surveyed, desk: Desk) -> None:
    """In the row and the column where it stands, also where the button to enter is pressed all the same."""
    page, before = page_of(surveyed, "hold"), surveyed.book.revision()
    text = holds(surveyed, "H4;FACE;hook;yes;417;1280", "H6;FACE;hook;yes;wide;1345", "H7;FACE;peg;yes;6;88")
    answer = desk.post(page, shown(desk.get(page).text) | {"text": text, "enter": "all"})
    assert answer.status_code == 422 and "2 to be corrected" in answer.text
    assert "Row 2: " in answer.text and "Row 3: " in answer.text and "Enter all" not in answer.text
    assert shown(answer.text)["text"] == text
    assert surveyed.book.revision() == before


def test_list_taken_as_csv_comes_back_changed(surveyed: Surveyed, desk: Desk) -> None:
    """What has an id is changed where it differs; a list that was not touched changes nothing."""
    fitting = surveyed.fitting(purpose="=1+1, so that a spreadsheet would reckon")
    surveyed.fixing(fitting, mark="D1.1", size="M6")
    surveyed.zone()
    before = surveyed.book.revision()
    for kind in ("fitting", "fixing", "zone", "face", "room"):
        taken = desk.get(f"/site/{surveyed.site}/all/{kind}.csv").data
        page = page_of(surveyed, kind)
        answer = desk.post(page, shown(desk.get(page).text) | {"files": [(BytesIO(taken), "list.csv")]})
        assert answer.status_code == 200 and "1 as it is" in answer.text, kind
    taken = desk.get(f"/site/{surveyed.site}/all/fixing.csv").text.replace("M6", "M8")
    page = page_of(surveyed, "fixing")
    answer = desk.post(page, shown(desk.get(page).text) | {"text": taken})
    assert "1 changed" in answer.text and surveyed.book.revision() == before
    desk.post(page, shown(answer.text) | {"enter": "all"})
    assert [one["size"] for one in surveyed.book.items("fixing")] == ["M8"]
    assert surveyed.book.revision() == before + 1


def test_table_that_cannot_be_read_is_asked_back(surveyed: Surveyed, desk: Desk) -> None:
    """Heads that are no fields, heads alone, a file of another encoding."""
    page = page_of(surveyed, "hold")
    empty = shown(desk.get(page).text)
    for sent in ({"text": "Mark,Colour of the moon\nH1,pale"}, {"text": "Mark"}, {"text": ""}):
        answer = desk.post(page, empty | sent)
        assert (answer.status_code, list(messages(answer))) == (422, ["text"]), sent
    answer = desk.post(page, empty | {"files": [(BytesIO("Märk;x".encode("cp1252")), "list.csv")]})
    assert answer.status_code == 422 and "UTF-8" in answer.text


def test_change_of_the_first_in_a_list_reaches_its_copies(surveyed: Surveyed, desk: Desk) -> None:
    """Planned ones have it with the same entry, unless they are in the list; standing ones are asked about."""
    page = f"/item/{surveyed.fitting(x_mm=100, mass_loaded_kg=9)}/copies"
    desk.post(page, shown(desk.get(page).text) | {"count": "3", "apart": "820"})
    first, planned, told, standing = (one["id"] for one in surveyed.book.items("fitting"))
    surveyed.book.write("fitting", {"state": "fitted"}, standing)
    page = page_of(surveyed, "fitting")
    text = f"id;mass_loaded_kg\n{first};11.5\n{told};7.25"
    answer = desk.post(page, shown(desk.get(page).text) | {"text": text, "enter": "all"})
    masses = {one["id"]: one["mass_loaded_kg"] for one in surveyed.book.items("fitting")}
    assert masses == {first: 11.5, planned: 11.5, told: 7.25, standing: 9}
    assert parse_qs(urlsplit(answer.location).query) == {"items": [standing], "mass_loaded_kg": ["11.5"]}

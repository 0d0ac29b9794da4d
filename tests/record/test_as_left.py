"""The as-left statement: expected and found, the wall before and after, signed by both or to be signed on paper."""

from __future__ import annotations

import subprocess
from pathlib import Path

from fieldbook.book import photographs
from fieldbook.book.gathering import gather
from fieldbook.record.as_left import as_left, write_as_left
from tests.record.furnished import picture
from tests.sites import Surveyed

STROKES = [[0, 0, 0], [40, 30, 0], [60, 5, 1], [90, 20, 1]]


def taken_down(surveyed: Surveyed) -> tuple[str, str]:
    """A rail that is down and signed for, one trace as expected and one not, and a shelf that is not."""
    book = surveyed.book
    gone = {"state": "taken down", "taken_down_on": "2031-02-28"}
    rail = surveyed.fitting(**gone, went_to="store", went_where="shelf 3", out_of_order="the lamp was wanted")
    found = gone | {"made_good": "Brushed.", "left_behind": "nothing"}
    clamp = surveyed.fixing(rail, mark="D1.1", **found, trace_found="none")
    surveyed.fixing(rail, mark="D1.2", **found, trace_found="a mark that cleans off", trace_words="a grey ring")
    surveyed.fixing(rail, mark="D1.3")  # never went in
    shelf = surveyed.fitting(mark="D2", name="Shelf", **gone)
    for purpose in ("before removal", "after removal"):
        kept = photographs.keep(book, picture(purpose))
        taken = {"site": surveyed.site, "subject": clamp, "purpose": purpose, "taken_at": "2031-02-28T10:00+00:00"}
        book.write("photograph", taken | vars(kept))
    signed = {"site": surveyed.site, "reference": "S1", "items": [rail], "on": "2031-03-01", "fitter": "joiner"}
    book.write("statement", signed | {"keeper": "caretaker", "signature": STROKES, "fitter_signature": STROKES})
    return rail, shelf


def test_each_place_stands_with_what_was_expected_and_found(surveyed: Surveyed) -> None:
    """What never went in is left out; what nobody signed for stands apart."""
    rail, shelf = taken_down(surveyed)
    left = as_left(gather(surveyed.book, surveyed.site))
    ((statement, (down,)),) = left.statements
    assert (statement.reference, down.fitting.id) == ("S1", rail)
    assert [(place.fixing.mark, place.as_expected) for place in down.places] == [("D1.1", True), ("D1.2", False)]
    assert [bool(place.before and place.after) for place in down.places] == [True, False]
    assert [one.fitting.id for one in left.unsigned] == [shelf]


def test_statement_is_printed_with_its_photographs_and_signatures(surveyed: Surveyed, tmp_path: Path) -> None:
    """All of it can be read from the page."""
    taken_down(surveyed)
    file = tmp_path / "left.pdf"
    write_as_left(surveyed.book, gather(surveyed.book, surveyed.site), file, "1 March 2031")
    text = subprocess.run(["pdftotext", "-layout", file, "-"], check=True, capture_output=True, text=True).stdout
    words = " ".join(text.split())
    for told in (
        "Statement S1",
        "a grey ring",
        "Brushed.",
        "shelf 3",
        "the lamp was wanted",
        "Both sign for what they saw.",
        "Not signed for yet",
        "D2",
    ):
        assert told in words
    assert "D1.3" not in words
    images = subprocess.run(["pdfimages", "-list", file], check=True, capture_output=True, text=True).stdout
    assert len(images.splitlines()) - 2 == 2

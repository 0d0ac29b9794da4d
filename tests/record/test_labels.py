"""Labels: their squares, read by an independent reader from the printed sheet, hold the words printed beside them."""

from __future__ import annotations

import subprocess
from datetime import date
from pathlib import Path

import pikepdf
import pytest
import zxingcpp
from PIL import Image

from fieldbook.book.gathering import gather
from fieldbook.record.labels import labels_of, square
from tests.record.conftest import HandedOver
from tests.sites import Surveyed

TODAY = date(2026, 6, 1)


def test_squares_on_the_printed_sheet_hold_the_words_beside_them(handed_over: HandedOver, tmp_path: Path) -> None:
    """Every fitting's label is read back from the page as a picture, and its words stand there in letters as well."""
    sheet = handed_over.folder / "data" / "labels.pdf"
    subprocess.run(["pdftoppm", "-r", "150", "-gray", "-png", sheet, tmp_path / "page"], check=True)
    squares = []
    for page in sorted(tmp_path.glob("page*.png")):
        with Image.open(page) as image:
            squares += [one.text for one in zxingcpp.read_barcodes(image)]
    standing = {one.fitting.title for one in handed_over.record.sheets if one.fitting.stands}
    assert {words.splitlines()[0] for words in squares} == standing
    text = subprocess.run(["pdftotext", sheet, "-"], check=True, capture_output=True, text=True).stdout
    printed = set(text.split())
    for words in squares:
        assert {word for word in words.replace(":", " ").split() if len(word) < 12} <= {
            *printed,
            *(word.rstrip(":") for word in printed),
        }
    rail = next(words for words in squares if words.startswith("D1 Rail"))
    for told in (
        "30 May 2026",
        "after D2",
        "2 people",
        "spanner 10 mm",
        "Undo the clamps from the right.",
        "Rail green",
    ):
        assert told in rail.replace("\u00a0", " ")


def test_sheet_of_labels_is_tagged_and_archival(handed_over: HandedOver) -> None:
    """As the record is."""
    with pikepdf.open(handed_over.folder / "data" / "labels.pdf") as pdf:
        assert pdf.Root.MarkInfo.Marked
        with pdf.open_metadata() as metadata:
            assert (metadata["pdfaid:part"], metadata["pdfaid:conformance"]) == ("3", "A")


def test_label_tells_how_far_it_may_be_moved_and_what_it_may_carry(surveyed: Surveyed) -> None:
    """Of what is made to be moved or to carry; of others nothing."""
    surveyed.looked()
    surveyed.fitting(moves_mm=300, mass_loaded_kg=4, mass_empty_kg=3)
    surveyed.fitting(mark="D2", x_mm=3000)
    moved, fixed = labels_of(gather(surveyed.book, surveyed.site), TODAY)
    assert dict(moved.lines)["Room to move"].replace("\u00a0", " ").startswith("left edge at 700 to 1300 mm")
    assert "Room to move" not in dict(fixed.lines)


def test_what_was_taken_down_has_no_label(surveyed: Surveyed) -> None:
    """Nor does an empty site have any."""
    assert labels_of(gather(surveyed.book, surveyed.site), TODAY) == []
    surveyed.fitting(state="taken down", taken_down_on="2026-05-01")
    assert labels_of(gather(surveyed.book, surveyed.site), TODAY) == []


@pytest.mark.parametrize("words", ["=cmd|' /C calc'!A0", "<svg onload=x>", "北の壁 дом", "a\nb", "é" * 500])
def test_square_is_made_of_any_words(words: str) -> None:
    """No word is markup in it, and the longest label still fits."""
    drawn = square(words)
    assert drawn.startswith("<svg")
    assert "onload" not in drawn

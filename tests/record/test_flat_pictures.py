"""The pictures of a face laid flat that the record prints."""

from __future__ import annotations

import re
from dataclasses import asdict
from pathlib import Path

import pytest
from PIL import Image

from fieldbook.book.photographs import keep
from fieldbook.record.compile import compile_record
from fieldbook.record.typesetting import Pages, typeset
from tests.sites import Surveyed, picture

CORNERS = (
    [100, 1000, 0, 0, None],
    [1500, 1000, 2800, 0, None],
    [1500, 100, 2800, 1800, None],
    [100, 100, 0, 1800, None],
)


@pytest.fixture
def measuring(surveyed: Surveyed) -> Surveyed:
    """A face photographed twice, a year apart, both times squarely and measured."""
    for height, day, purpose in ((1200, "2026-03-01", "as found"), (1201, "2027-03-01", "inspection")):
        kept = asdict(keep(surveyed.book, picture(1600, height)))
        of = {"site": surveyed.site, "subject": surveyed.face, "purpose": purpose, "taken_at": f"{day}T10:00:00Z"}
        plane = {"plane_face": surveyed.face, "plane_marks": [list(corner) for corner in CORNERS], "mark_px": 1}
        surveyed.book.write("photograph", of | kept | plane)
    return surveyed


def pages(site: Surveyed, folder: Path) -> Pages:
    """The record as it is set."""
    return typeset(compile_record(site.book, site.site), site.book, folder)


def test_wall_lies_faintly_where_the_drawing_has_it(measuring: Surveyed, tmp_path: Path) -> None:
    """It covers the drawn face at the drawing's own scale, paled, and in the face's proportions."""
    shown = pages(measuring, tmp_path)
    place = re.search(r'class="under"[^>]*width: ([\d.]+)mm; height: ([\d.]+)mm', shown.html)
    drawn = Path(shown.files[f"app:elevation/{measuring.face}"]["path"]).read_text(encoding="utf-8")
    scale = float(re.search(r'data-scale="([^"]+)"', drawn)[1])
    assert [float(part) * scale for part in place.groups()] == pytest.approx((5000, 3000), abs=2)
    with Image.open(shown.files[f"app:under/{measuring.face}"]["path"]) as flat:
        assert flat.size == (1000, 600)
        assert flat.getpixel((200, 480)) == pytest.approx((214, 206, 196), abs=5)


def test_wall_is_left_out_where_the_face_says_so(measuring: Surveyed, tmp_path: Path) -> None:
    """The drawing then stands alone."""
    measuring.book.write("face", {"picture_under": "left out"}, measuring.face)
    assert 'class="under"' not in pages(measuring, tmp_path).html


def test_first_and_last_stand_side_by_side_with_what_was_seen(measuring: Surveyed, tmp_path: Path) -> None:
    """Both at one stated scale, with the changes somebody entered, or that none was."""
    shown = pages(measuring, tmp_path)
    assert "none was entered, which does not say that there is none" in shown.html
    sizes = set()
    for name in ("before", "after"):
        with Image.open(shown.files[f"app:{name}/{measuring.face}"]["path"]) as flat:
            sizes.add(flat.size)
    assert len(sizes) == 1
    seen = {"room": measuring.room, "face": measuring.face, "what": "Limewash gone", "at": "2027-03-02T09:00:00Z"}
    measuring.book.write("observation", seen)
    assert "Limewash gone (2" in pages(measuring, tmp_path).html


def test_missing_file_leaves_word_of_it(measuring: Surveyed, tmp_path: Path) -> None:
    """What is missing is said in its place, and the drawing stands alone."""
    for path in (measuring.book.folder / "photographs").rglob("*"):
        if path.is_file():
            path.unlink()
    shown = pages(measuring, tmp_path)
    assert 'class="under"' not in shown.html
    assert shown.html.count("file is missing or damaged") == 4

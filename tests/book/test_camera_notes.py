"""When a photograph was taken, by what its camera noted; the notes' forms are those of Exif 2.32 (CIPA DC-008-2019)."""

from __future__ import annotations

from datetime import datetime
from typing import Any

import pytest

from fieldbook.book.camera_notes import taken_at
from tests.sites import noted, picture


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP"])
def test_moment_is_read_with_its_offset(form: str) -> None:
    """Whatever clock this machine goes by."""
    content = picture(form=form, exif=noted("2026:02:11 09:41:07", "+05:30"))
    assert taken_at(content) == "2026-02-11T09:41:07+05:30"


@pytest.mark.parametrize("offset", [None, "", "   :  ", "Z", 7])
def test_moment_without_an_offset_goes_by_this_machines_clock(offset: Any) -> None:
    """As a moment that is typed does."""
    found = taken_at(picture(exif=noted("2026:07:11 09:41:07", offset)))
    assert found
    assert datetime.fromisoformat(found) == datetime(2026, 7, 11, 9, 41, 7).astimezone()


@pytest.mark.parametrize(
    "moment", [None, "", "    :  :     :  :  ", "0000:00:00 00:00:00", "2026-02-11", "2026:02:30 09:41:07", 9]
)
def test_notes_that_make_no_sense_say_nothing(moment: Any) -> None:
    """Blanks stand for unknown in Exif; a clock that was never set writes noughts."""
    assert taken_at(picture(exif=noted(moment))) is None


@pytest.mark.parametrize("content", [b"", b"not a picture", picture(exif=noted("2026:02:11 09:41:07"))[:40]])
def test_what_is_no_picture_says_nothing(content: bytes) -> None:
    """That it is none is told where it is kept."""
    assert taken_at(content) is None

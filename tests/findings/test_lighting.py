"""Light, ultraviolet and fading of what hangs in a room."""

from __future__ import annotations

import pytest

from fieldbook.checks.verdict import Word
from tests.findings.climate import found, read
from tests.sites import Surveyed


def room(surveyed: Surveyed, **values: object) -> None:
    """Enter something about the room."""
    surveyed.book.write("room", values, item=surveyed.room)


def finish(surveyed: Surveyed, grade: str | None = "3", scale: str | None = "ISO Blue Wool 1 to 8") -> str:
    """A limewash with its lightfastness, on a fitting of the room."""
    values = {"site": surveyed.site, "name": "Limewash", "sort": "limewash"}
    made = surveyed.book.write("finish", values | {"lightfastness": grade, "lightfastness_scale": scale})
    surveyed.fitting(finishes=[made])
    return made


def test_light_is_held_against_what_its_category_bears(surveyed: Surveyed) -> None:
    """50 lx for 3,650 h is 182,500 lx·h, over the 150,000 of the medium category (CIE 157:2004, from memory)."""
    surveyed.fitting()
    room(surveyed, light_category="medium", light_hours=3650)
    read(surveyed, "illuminance", 40, "lx")
    read(surveyed, "illuminance", 50, "lx")
    (one,) = found(surveyed, "light")
    assert (one.word, one.verdict.figure, one.verdict.limit) == (Word.OVER, 182_500, 150_000)


def test_uncertainty_of_a_reading_counts_against_the_limit(surveyed: Surveyed) -> None:
    """48 lx ± 5 can be 53 lx, over a limit of 50; the limit is quoted as it was entered."""
    surveyed.fitting()
    room(surveyed, light_limit_lx=50)
    read(surveyed, "illuminance", 48, "lx", uncertainty=5)
    (one,) = found(surveyed, "light")
    assert (one.word, one.verdict.figure, one.verdict.limit) == (Word.OVER, 53, 50)


@pytest.mark.parametrize(
    ("values", "missing"),
    [({"light_category": "medium"}, "light_hours"), ({}, "light_limit_lx")],
)
def test_light_without_its_limit_or_hours_asks_for_them(
    surveyed: Surveyed, values: dict[str, object], missing: str
) -> None:
    """What the answer turns on is named."""
    surveyed.fitting()
    room(surveyed, **values)
    read(surveyed, "illuminance", 50, "lx")
    (one,) = found(surveyed, "light")
    assert (one.word, [blank.field for blank in one.missing]) == (Word.NOT_KNOWN, [missing])


def test_room_in_which_nothing_hangs_is_not_asked_about(surveyed: Surveyed) -> None:
    """Light does no harm to nothing, and the reason is said."""
    for question in ("light", "ultraviolet", "humidity"):
        (one,) = found(surveyed, question)
        assert (one.word, bool(one.verdict.sentence)) == (Word.DOES_NOT_APPLY, True)


def test_ultraviolet_is_held_against_the_limit_of_the_room(surveyed: Surveyed) -> None:
    """70 µW/lm ± 10 passes a limit of 75; without a limit the figure is given all the same."""
    surveyed.fitting()
    read(surveyed, "ultraviolet", 70, "µW/lm", uncertainty=10)
    (unlimited,) = found(surveyed, "ultraviolet")
    assert (unlimited.word, unlimited.verdict.figure) == (Word.NOT_KNOWN, 80)
    room(surveyed, uv_limit_uw_lm=75)
    (one,) = found(surveyed, "ultraviolet")
    assert (one.word, one.verdict.figure) == (Word.OVER, 80)


@pytest.mark.parametrize(("years", "word"), [(30, Word.OVER), (20, Word.CLOSE), (10, Word.WITHIN)])
def test_finish_is_held_against_the_years_the_display_stands(surveyed: Surveyed, years: int, word: Word) -> None:
    """3 Mlx·h of blue wool 3 behind a filter at 50 lx x 2,400 h a year: 25 years (CIE 157 doses, from memory)."""
    made = finish(surveyed)
    room(surveyed, light_hours=2400, uv_filtered=1)
    read(surveyed, "illuminance", 50, "lx")
    (unknown,) = found(surveyed, "fading")
    assert (unknown.word, unknown.verdict.figure) == (Word.NOT_KNOWN, 25)
    surveyed.book.write("site", {"stands_years": years}, item=surveyed.site)
    (one,) = found(surveyed, "fading")
    assert (one.subject.id, one.word, one.verdict.figure) == (made, word, 25)


@pytest.mark.parametrize(("grade", "scale"), [("II", "ASTM D4303 I to V"), (None, None), ("9", "ISO Blue Wool 1 to 8")])
def test_finish_without_a_blue_wool_grade_is_not_known(
    surveyed: Surveyed, grade: str | None, scale: str | None
) -> None:
    """No dose is published for another scale, nor for no grade."""
    finish(surveyed, grade, scale)
    room(surveyed, light_hours=2400, uv_filtered=1)
    read(surveyed, "illuminance", 50, "lx")
    assert [one.word for one in found(surveyed, "fading")] == [Word.NOT_KNOWN]


def test_light_that_changes_nothing_need_not_be_read(surveyed: Surveyed) -> None:
    """CIE 157 sets no limit for its category “none”: no reading is asked for, unless somebody set a limit."""
    surveyed.fitting()
    room(surveyed, light_category="none")
    assert {found(surveyed, question)[0].word for question in ("light", "ultraviolet")} == {Word.DOES_NOT_APPLY}
    room(surveyed, light_limit_lx=50, uv_limit_uw_lm=10)
    assert {found(surveyed, question)[0].word for question in ("light", "ultraviolet")} == {Word.NOT_KNOWN}


def test_uncertainty_of_light_that_alone_makes_it_over_is_asked_for(surveyed: Surveyed) -> None:
    """48 lx keep to 50, and with the tenth taken for a light meter are 52.8: how unsure it is decides."""
    surveyed.fitting()
    room(surveyed, light_limit_lx=50)
    read(surveyed, "illuminance", 48, "lx", uncertainty=None)
    (one,) = found(surveyed, "light")
    assert (one.word, one.missing[0].field) == (Word.NOT_KNOWN, "uncertainty")
    assert one.verdict.figure == pytest.approx(52.8)

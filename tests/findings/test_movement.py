"""Whether a part that damp or warmth moves has the room for it, by what its room has shown."""

from __future__ import annotations

import pytest

from fieldbook.checks.verdict import Word
from tests.findings.climate import JANUARY, JULY, found, log_file, read, two_halves
from tests.sites import Surveyed

BOARD = {"moving_part": "white oak", "grain": "tangential", "moving_mm": 300}


def test_board_is_held_against_what_its_gap_allows(surveyed: Surveyed) -> None:
    """300 mm of flat-sawn white oak from 65 to 45 % at 20 °C moves 3.84 mm (Wood Handbook, Eq. 4-5, Table 13-5)."""
    two_halves(surveyed)
    surveyed.fitting(mark="D1", movement_allowed_mm=8, **BOARD)
    surveyed.fitting(mark="D2", movement_allowed_mm=3, **BOARD)
    over, within = found(surveyed, "movement")
    assert (over.word, within.word) == (Word.OVER, Word.WITHIN)
    assert within.verdict.figure == pytest.approx(3.9, abs=0.06)


def test_metal_is_held_against_warmth_not_damp(surveyed: Surveyed) -> None:
    """2 m of an alloy of 24e-6 between 5 and 25 °C grow 2000 x 24e-6 x 20 = 0.96 mm."""
    two_halves(surveyed, warm=(5, 25))
    own = {"site": surveyed.site, "name": "test alloy", "group": "metal", "thermal_per_c": 24e-6, "source": "bench"}
    surveyed.book.write("material", own)
    surveyed.fitting(moving_part="test alloy", moving_mm=2000, movement_allowed_mm=5)
    (one,) = found(surveyed, "movement")
    assert one.verdict.figure == pytest.approx(1.0, abs=0.05)


@pytest.mark.parametrize("missing", ["moving_mm", "movement_allowed_mm"])
def test_movement_with_something_not_entered_asks_for_it(surveyed: Surveyed, missing: str) -> None:
    """What the movement turns on and nobody entered is named."""
    two_halves(surveyed)
    surveyed.fitting(**BOARD | {"movement_allowed_mm": 8} | {missing: None})
    assert [[blank.field for blank in one.missing] for one in found(surveyed, "movement")] == [[missing]]


def test_part_of_no_known_material_is_not_known(surveyed: Surveyed) -> None:
    """A name that the table does not have is told at its field."""
    two_halves(surveyed)
    surveyed.fitting(**BOARD | {"movement_allowed_mm": 8, "moving_part": "moonwood"})
    (one,) = found(surveyed, "movement")
    assert one.word is Word.NOT_KNOWN
    assert "moonwood" in one.verdict.sentence


def test_fitting_of_which_nobody_said_whether_it_moves_is_asked_about(surveyed: Surveyed) -> None:
    """A blank is no “no”: what moves is asked for, and where nothing does the question does not apply."""
    two_halves(surveyed)
    fitting = surveyed.fitting()
    (one,) = found(surveyed, "movement")
    assert one.word is Word.NOT_KNOWN
    surveyed.book.write("fitting", {"moves": 0}, item=fitting)
    (one,) = found(surveyed, "movement")
    assert one.word is Word.DOES_NOT_APPLY


def test_movement_in_a_room_read_in_summer_alone_is_not_known(surveyed: Surveyed) -> None:
    """Without the winter the driest is not known; three days of a logger in July do not help."""
    read(surveyed, "air temperature", 20, "°C")
    read(surveyed, "relative humidity", 60, "%")
    log_file(surveyed, [f"2026-07-{day:02}T12:00:00;55;20" for day in (1, 2, 3)])
    surveyed.fitting(movement_allowed_mm=8, **BOARD)
    (one,) = found(surveyed, "movement")
    assert one.word is Word.NOT_KNOWN
    assert "October to March" in one.missing[0].words


def test_movement_takes_logger_and_readings_together(surveyed: Surveyed) -> None:
    """The logger saw 45 to 55 %, a reading 65 %: from 45 to 65 % at 20 °C, 3.84 mm as above."""
    for at in (JANUARY, JULY):
        read(surveyed, "air temperature", 20, "°C", at)
    read(surveyed, "relative humidity", 65, "%", JULY)
    log_file(surveyed, ["2026-01-15T12:00:00;45;20", "2026-07-15T12:00:00;55;20"])
    surveyed.fitting(movement_allowed_mm=8, **BOARD)
    (one,) = found(surveyed, "movement")
    assert one.verdict.figure == pytest.approx(3.9, abs=0.06)


def test_room_too_damp_for_the_coefficients_is_not_known_unless_it_is_over_within_them(surveyed: Surveyed) -> None:
    """At 85 % and 20 °C wood comes to 18.0 % (Wood Handbook, Eq. 4-5); the coefficients end at 14 %, where 300 mm
    have moved 300 x 0.00365 x (14 - 8.5) = 6.0 mm already: over for a gap of 4 mm, not known for one of 20 mm."""
    two_halves(surveyed, high=85)
    surveyed.fitting(mark="D1", movement_allowed_mm=20, **BOARD)
    surveyed.fitting(mark="D2", movement_allowed_mm=4, **BOARD)
    over, unknown = found(surveyed, "movement")
    assert (over.word, unknown.word) == (Word.OVER, Word.NOT_KNOWN)
    assert over.verdict.figure == pytest.approx(6.1, abs=0.2)
    assert "18.0 %" in unknown.verdict.sentence

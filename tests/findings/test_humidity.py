"""Whether a room's air keeps to its limits and to its past, and what record is enough to say so."""

from __future__ import annotations

import pytest

from fieldbook.book.evidence import path_of
from fieldbook.book.gathering import gather
from fieldbook.checks.seasonal_level import LEAST_S
from fieldbook.checks.verdict import Word
from fieldbook.errors import Missing
from fieldbook.findings import appraise, logs
from tests.findings.climate import JANUARY, found, hours, log_file, read, two_halves
from tests.findings.generated import changed
from tests.sites import Surveyed


def limits(surveyed: Surveyed, low: float | None, high: float | None) -> None:
    """Enter the humidity limits of the room, with something that hangs in it."""
    surveyed.fitting()
    surveyed.book.write("room", {"humidity_low_pct": low, "humidity_high_pct": high}, item=surveyed.room)


def test_range_seen_in_both_halves_of_the_year_is_held_against_the_limits(surveyed: Surveyed) -> None:
    """44 % in January and 61 % in July, each ± 3 %: from 41 to 64 %, over a limit of 63 %."""
    limits(surveyed, 35, 63)
    read(surveyed, "relative humidity", 44, "%", JANUARY, 3)
    read(surveyed, "relative humidity", 61, "%", uncertainty=3)
    (one,) = found(surveyed, "humidity")
    assert (one.word, one.verdict.figure, one.verdict.limit) == (Word.OVER, 64, 63)


def test_readings_from_one_half_of_the_year_are_not_enough(surveyed: Surveyed) -> None:
    """July alone says nothing of January, and that is what is asked for."""
    limits(surveyed, 35, 65)
    read(surveyed, "relative humidity", 50, "%")
    (one,) = found(surveyed, "humidity")
    assert one.word is Word.NOT_KNOWN
    assert "October to March" in one.missing[0].words


def test_three_days_of_a_logger_never_replace_a_year(surveyed: Surveyed) -> None:
    """72 readings in July leave the winter unknown."""
    limits(surveyed, 35, 65)
    log_file(surveyed, hours("2025-07-01T00:00:00", 72))
    (one,) = found(surveyed, "humidity")
    assert one.word is Word.NOT_KNOWN


def test_logger_and_readings_together_give_the_widest(surveyed: Surveyed) -> None:
    """A logger that saw 51 to 59 % and a reading of 70 % make 51 to 70 %."""
    limits(surveyed, 40, 65)
    log_file(surveyed, hours("2025-01-01T00:00:00", 10_000))
    read(surveyed, "relative humidity", 70, "%")
    (one,) = found(surveyed, "humidity")
    assert (one.word, one.verdict.figure, one.verdict.limit) == (Word.OVER, 70, 65)


def test_band_judges_the_time_after_it(surveyed: Surveyed) -> None:
    """Thirteen months swing by 4 %; of some 20 days after them 5 lie 20 % higher: over 14 %."""
    surveyed.fitting()
    first = hours("2025-01-01T00:00:00", 396 * 24)
    calm, wild = hours("2026-02-01T00:00:00", 15 * 24), hours("2026-02-16T00:00:00", 5 * 24, 75)
    log_file(surveyed, first + calm + wild)
    (one,) = found(surveyed, "humidity")
    assert (one.word, one.verdict.limit) == (Word.OVER, 14)
    assert one.verdict.figure == pytest.approx(23.5, abs=1.5)
    assert "longest" in one.verdict.sentence


def test_band_with_nothing_after_it_is_not_known(surveyed: Surveyed) -> None:
    """A band cannot judge the record it was made of."""
    surveyed.fitting()
    log_file(surveyed, hours("2025-01-01T00:00:00", int(LEAST_S // 3600) + 1))
    assert [one.word for one in found(surveyed, "humidity")] == [Word.NOT_KNOWN]


@pytest.mark.parametrize("columns", [{"humidity_column": "moisture"}, {"time_column": "when"}])
def test_logger_with_a_heading_its_file_lacks_is_not_known(surveyed: Surveyed, columns: dict[str, str]) -> None:
    """The heading that is not there is named."""
    surveyed.fitting()
    log_file(surveyed, hours("2025-01-01T00:00:00", 30), **columns)
    (one,) = found(surveyed, "humidity")
    assert one.word is Word.NOT_KNOWN
    assert next(iter(columns.values())) in one.verdict.sentence


def test_logger_whose_file_is_lost_is_not_known(surveyed: Surveyed) -> None:
    """A file that is not in the book is said to be missing."""
    surveyed.fitting()
    log = log_file(surveyed, hours("2025-01-01T00:00:00", 30))
    path_of(surveyed.book.folder, "log", surveyed.book.item(log)[1]["sha256"]).unlink()
    assert [one.verdict.missing for one in found(surveyed, "humidity")] == [("sha256",)]


def test_room_without_limits_and_without_a_year_asks_for_limits_with_the_figure(surveyed: Surveyed) -> None:
    """What was seen is told even where nobody has set a limit."""
    surveyed.fitting()
    two_halves(surveyed)
    (one,) = found(surveyed, "humidity")
    assert (one.word, one.verdict.figure) == (Word.NOT_KNOWN, 65)
    assert [blank.field for blank in one.missing] == ["humidity_high_pct"]


def test_surface_nearest_to_the_dew_point_is_shown(surveyed: Surveyed) -> None:
    """20 °C and 65 % give a dew point of 13.22 °C (Magnus, Sonntag 1990); of two surfaces the colder one counts."""
    read(surveyed, "air temperature", 20, "°C")
    read(surveyed, "relative humidity", 65, "%", "2026-07-15T12:30:00+00:00")
    read(surveyed, "surface temperature", 16, "°C")
    read(surveyed, "surface temperature", 13, "°C", "2026-07-15T12:10:00+00:00")
    (one,) = found(surveyed, "condensing")
    assert (one.word, one.verdict.limit) == (Word.OVER, 13)
    assert one.verdict.figure == pytest.approx(13.3)


def test_surface_read_without_the_air_says_nothing(surveyed: Surveyed) -> None:
    """A surface read hours apart from the air is not put together with it."""
    read(surveyed, "air temperature", 20, "°C")
    read(surveyed, "relative humidity", 65, "%")
    read(surveyed, "surface temperature", 13, "°C", "2026-07-15T15:00:00+00:00")
    assert [one.word for one in found(surveyed, "condensing")] == [Word.DOES_NOT_APPLY]


def test_limit_on_one_side_says_nothing_of_the_other(surveyed: Surveyed) -> None:
    """45 to 65 %: past a lower limit of 50 it is over; above one of 40 the upper limit is asked for."""
    two_halves(surveyed)
    limits(surveyed, 50, None)
    assert found(surveyed, "humidity")[0].word is Word.OVER
    surveyed.book.write("room", {"humidity_low_pct": 40}, item=surveyed.room)
    (one,) = found(surveyed, "humidity")
    assert (one.word, one.missing[0].field, one.verdict.figure) == (Word.NOT_KNOWN, "humidity_high_pct", 65)
    surveyed.book.write("room", {"humidity_high_pct": 100}, item=surveyed.room)
    assert found(surveyed, "humidity")[0].word is Word.CLOSE


def test_surface_near_the_dew_point_counts_what_its_readings_may_be_off(surveyed: Surveyed) -> None:
    """20 °C at 60 % has its dew point at 12.0 °C (Magnus): 12.5 ± 2 °C may be wet, 12.5 ± 0 °C is not."""
    two_halves(surveyed, high=60)
    for unsure, word in ((2, Word.OVER), (0, Word.CLOSE)):
        read(surveyed, "surface temperature", 12.5, "°C", uncertainty=unsure)
        (one,) = found(surveyed, "condensing")
        assert one.word is word
        (surface,) = [item for item in surveyed.book.items("reading") if item["quantity"] == "surface temperature"]
        surveyed.book.withdraw(surface["id"])


def test_reading_of_an_older_book_in_another_unit_is_not_reckoned_with(surveyed: Surveyed) -> None:
    """65 °C of humidity, as could once be entered, is no humidity of 65 %."""
    limits(surveyed, 35, 75)
    two_halves(surveyed)
    site = gather(surveyed.book, surveyed.site)
    wrong = next(one for one in site.all("reading") if one.quantity == "relative humidity")
    (one,) = [it for it in appraise(changed(site, wrong, unit="°C")) if it.question == "humidity"]
    assert one.word is Word.NOT_KNOWN
    assert "Enter it in %" in one.verdict.sentence


def test_loggers_file_that_changed_on_the_disk_is_not_reckoned_with(surveyed: Surveyed) -> None:
    """A figure that has become another looks like any other: the file is held against its digest as it is read."""
    log = log_file(surveyed, hours("2026-01-01T00:00:00+00:00", 48))
    site = gather(surveyed.book, surveyed.site)
    path = path_of(surveyed.book.folder, "log", site[log].sha256)
    path.write_bytes(path.read_bytes().replace(b"55.0", b"65.0"))
    with pytest.raises(Missing, match="not as it came"):
        logs.read(site, site[log])


def test_uncertainty_that_alone_makes_it_over_is_asked_for(surveyed: Surveyed) -> None:
    """64 % is inside 65 % as it was read, and with the ± 5 % taken for it is not; with ± 0.5 % it is close."""
    limits(surveyed, 20, 65)
    read(surveyed, "relative humidity", 45, "%", JANUARY, 1)
    july = read(surveyed, "relative humidity", 64, "%", uncertainty=None)
    (one,) = found(surveyed, "humidity")
    assert (one.word, one.missing[0].item.id, one.missing[0].field) == (Word.NOT_KNOWN, july, "uncertainty")
    assert one.verdict.figure == 69
    surveyed.book.write("reading", {"uncertainty": 0.5}, item=july)
    (one,) = found(surveyed, "humidity")
    assert (one.word, one.verdict.figure) == (Word.CLOSE, 64.5)


def test_uncertainty_of_a_logger_is_entered_with_it(surveyed: Surveyed) -> None:
    """51 to 59 % over a year, ± 5 % taken, pass 62 %: asked for; ± 2 % as its maker says do not."""
    limits(surveyed, 40, 62)
    log = log_file(surveyed, hours("2025-01-01T00:00:00", 9_000))
    (one,) = found(surveyed, "humidity")
    assert (one.word, one.missing[0].item.id, one.missing[0].field) == (Word.NOT_KNOWN, log, "uncertainty_pct")
    surveyed.book.write("log", {"uncertainty_pct": 2}, item=log)
    assert "uncertainty_pct" not in {blank.field for one in found(surveyed, "humidity") for blank in one.missing}


def test_air_that_nothing_minds_need_not_be_read(surveyed: Surveyed) -> None:
    """Limits of 0 and 100 % say that nothing here minds: no reading is asked for."""
    limits(surveyed, 0, 100)
    assert found(surveyed, "humidity")[0].word is Word.DOES_NOT_APPLY
    surveyed.book.write("room", {"humidity_high_pct": 99}, item=surveyed.room)
    assert found(surveyed, "humidity")[0].word is Word.NOT_KNOWN

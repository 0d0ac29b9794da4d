"""Light, dew and movement of a room's things, from its readings."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from fieldbook.book.evidence import keep, path_of
from fieldbook.book.site import gather
from fieldbook.checks.verdict import Word
from fieldbook.findings import Finding, appraise
from tests.sites import Surveyed


def found(surveyed: Surveyed, check: str) -> list[Finding]:
    """The findings of one check."""
    return [one for one in appraise(gather(surveyed.book, surveyed.site)) if one.verdict.check == check]


def read(surveyed: Surveyed, quantity: str, value: float, unit: str, at: str = "2026-05-31T12:00:00+01:00") -> None:
    """Enter one reading."""
    values = {"room": surveyed.room, "quantity": quantity, "value": value, "unit": unit, "at": at}
    surveyed.book.write("reading", values)


def climate(surveyed: Surveyed) -> None:
    """A year from 45 to 65 % RH at 20 °C."""
    for month, humidity in (("01", 45), ("07", 65)):
        read(surveyed, "relative humidity", humidity, "%", f"2026-{month}-15T12:00:00+00:00")
        read(surveyed, "air temperature", 20, "°C", f"2026-{month}-15T12:00:00+00:00")


def test_light_of_a_room_is_held_against_its_category(surveyed: Surveyed) -> None:
    """50 lx for 3,650 h is 182,500 lx·h, over the 150,000 of the medium category (CIE 157, from memory)."""
    surveyed.book.write("room", {"light_category": "medium", "light_hours": 3650}, item=surveyed.room)
    read(surveyed, "illuminance", 40, "lx")
    read(surveyed, "illuminance", 50, "lx")
    (one,) = found(surveyed, "light")
    assert (one.verdict.word, one.verdict.figure, one.verdict.limit) == (Word.OVER, 182_500, 150_000)


def test_light_without_hours_is_not_known(surveyed: Surveyed) -> None:
    """Without the hours of light nothing is said."""
    surveyed.book.write("room", {"light_category": "medium"}, item=surveyed.room)
    read(surveyed, "illuminance", 50, "lx")
    assert [(one.verdict.word, one.verdict.missing) for one in found(surveyed, "light")] == [
        (Word.NOT_KNOWN, ("light_hours",))
    ]


def test_finish_in_a_room_lasts_as_long_as_its_grade_says(surveyed: Surveyed) -> None:
    """3 Mlx·h of blue wool 3 behind a filter at 120,000 lx·h a year: 25 years (CIE 157 doses, from memory)."""
    surveyed.book.write("room", {"light_hours": 2400, "uv_filtered": 1}, item=surveyed.room)
    read(surveyed, "illuminance", 50, "lx")
    values = {"site": surveyed.site, "name": "Limewash", "sort": "limewash", "lightfastness": "3"}
    finish = surveyed.book.write("finish", values | {"lightfastness_scale": "ISO Blue Wool 1 to 8"})
    surveyed.fitting(finishes=[finish])
    (one,) = found(surveyed, "light")
    assert (one.subject.id, one.verdict.figure, one.verdict.unit) == (finish, 25, "years")


def test_finish_without_a_grade_is_not_known(surveyed: Surveyed) -> None:
    """A finish rated on another scale, or not at all, is named."""
    surveyed.book.write("room", {"light_hours": 2400}, item=surveyed.room)
    read(surveyed, "illuminance", 50, "lx")
    finish = surveyed.book.write("finish", {"site": surveyed.site, "name": "Wax", "sort": "wax", "lightfastness": "II"})
    surveyed.fitting(finishes=[finish])
    assert [one.verdict.missing for one in found(surveyed, "light")] == [("lightfastness",)]


def test_surface_nearest_to_the_dew_point_is_shown(surveyed: Surveyed) -> None:
    """20 °C and 65 % give a dew point of 13.22 °C (Magnus, Sonntag 1990); of two surfaces the colder one counts."""
    read(surveyed, "air temperature", 20, "°C")
    read(surveyed, "relative humidity", 65, "%", "2026-05-31T12:30:00+01:00")
    read(surveyed, "surface temperature", 16, "°C")
    read(surveyed, "surface temperature", 13, "°C", "2026-05-31T12:10:00+01:00")
    (one,) = found(surveyed, "air")
    assert (one.verdict.word, one.verdict.limit) == (Word.OVER, 13)
    assert one.verdict.figure == pytest.approx(13.3)


def test_surface_read_without_the_air_says_nothing(surveyed: Surveyed) -> None:
    """A surface read hours apart from the air is not put together with it."""
    read(surveyed, "air temperature", 20, "°C")
    read(surveyed, "relative humidity", 65, "%")
    read(surveyed, "surface temperature", 13, "°C", "2026-05-31T15:00:00+01:00")
    assert found(surveyed, "air") == []


def test_board_is_held_against_what_its_gap_allows(surveyed: Surveyed) -> None:
    """300 mm of flat-sawn white oak from 65 to 45 % at 20 °C moves 3.84 mm (handbook equation and Table 13-5)."""
    climate(surveyed)
    part = {"moving_part": "white oak", "grain": "tangential", "moving_mm": 300}
    surveyed.fitting(mark="D1", movement_allowed_mm=8, **part)
    surveyed.fitting(mark="D2", movement_allowed_mm=3, **part)
    over, within = found(surveyed, "movement")
    assert (over.verdict.word, within.verdict.word) == (Word.OVER, Word.WITHIN)
    assert within.verdict.figure == pytest.approx(3.9)  # 3.8446 rounded up to a tenth


def test_metal_is_held_against_warmth_not_damp(surveyed: Surveyed) -> None:
    """2 m of aluminium between 5 and 25 °C, with a coefficient of 24e-6 entered by the site, grow 0.96 mm."""
    for at, warm in (("2026-01-15T12:00:00+00:00", 5), ("2026-07-15T12:00:00+00:00", 25)):
        read(surveyed, "air temperature", warm, "°C", at)
    own = {"site": surveyed.site, "name": "test alloy", "group": "metal", "thermal_per_c": 24e-6, "source": "bench"}
    surveyed.book.write("material", own)
    surveyed.fitting(moving_part="test alloy", moving_mm=2000, movement_allowed_mm=5)
    (one,) = found(surveyed, "movement")
    assert one.verdict.figure == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("values", "missing"),
    [
        ({"moving_mm": None}, "moving_mm"),
        ({"movement_allowed_mm": None}, "movement_allowed_mm"),
        ({"moving_part": "moonwood"}, "moving_part"),
    ],
)
def test_movement_with_something_unknown_is_not_known_and_named(
    surveyed: Surveyed, values: dict[str, object], missing: str
) -> None:
    """What the movement needs and nobody entered is named."""
    climate(surveyed)
    part = {"moving_part": "white oak", "moving_mm": 300, "movement_allowed_mm": 8}
    surveyed.fitting(**part | values)
    assert [one.verdict.missing for one in found(surveyed, "movement")] == [(missing,)]


def test_movement_in_a_room_without_readings_is_not_known(surveyed: Surveyed) -> None:
    """Without a year's readings the room's driest and dampest are not known."""
    surveyed.fitting(moving_part="white oak", moving_mm=300, movement_allowed_mm=8)
    (one,) = found(surveyed, "movement")
    assert (one.verdict.word, one.verdict.missing) == (Word.NOT_KNOWN, ("air temperature",))


def log_file(surveyed: Surveyed, lines: list[str], **more: str) -> str:
    """Keep a logger's file and enter it for the room."""
    content = "\n".join(["time;RH;T", *lines]).encode()
    columns = {"time_column": "time", "humidity_column": "RH", "temperature_column": "T"}
    values = {"room": surveyed.room, "name": "by the door", "size_bytes": len(content)} | columns | more
    return surveyed.book.write("log", values | {"sha256": keep(surveyed.book.folder, "log", content)})


def year(swing: float) -> list[str]:
    """Thirteen and a half months, one reading a day at noon, 55 % with one day `swing` off, at 20 °C."""
    first = date(2025, 1, 1)
    days = [first + timedelta(days=number) for number in range(410)]
    return [f"{day}T12:00:00;{55 + (swing if number == 200 else 0):.1f};20" for number, day in enumerate(days)]


def test_logger_that_leaves_its_band_is_over_and_one_that_keeps_it_within(surveyed: Surveyed) -> None:
    """A day 25 % off a level year leaves the ± 10 % about its own level (EN 15757); 5 % does not."""
    wild = log_file(surveyed, year(25))
    calm = log_file(surveyed, year(5))
    words = {one.against and one.against.id: one.verdict.word for one in found(surveyed, "humidity-band")}
    assert words == {wild: Word.OVER, calm: Word.WITHIN}


@pytest.mark.parametrize(
    ("lines", "columns", "missing"),
    [(["2025-01-01T12:00:00;55;20"], {}, "time"), (year(0), {"humidity_column": "moisture"}, "columns")],
)
def test_logger_that_cannot_be_judged_is_not_known(
    surveyed: Surveyed, lines: list[str], columns: dict[str, str], missing: str
) -> None:
    """Too short a record, or a heading the file does not have, is named."""
    log_file(surveyed, lines, **columns)
    (one,) = found(surveyed, "humidity-band")
    assert one.verdict.word is Word.NOT_KNOWN
    assert one.verdict.missing == (missing,)


def test_logger_whose_file_is_lost_is_not_known(surveyed: Surveyed) -> None:
    """A file that is not in the book is said to be missing."""
    log = log_file(surveyed, year(0))
    path_of(surveyed.book.folder, "log", surveyed.book.item(log)[1]["sha256"]).unlink()
    assert [one.verdict.missing for one in found(surveyed, "humidity-band")] == [("sha256",)]


def test_movement_goes_by_the_logger_where_there_is_one(surveyed: Surveyed) -> None:
    """From 45 to 65 % at 20 °C, as the logger wrote, 300 mm of flat-sawn white oak move 3.84 mm."""
    read(surveyed, "air temperature", 20, "°C", "2026-01-15T12:00:00+00:00")
    read(surveyed, "air temperature", 20, "°C", "2026-07-15T12:00:00+00:00")
    log_file(surveyed, ["2026-01-15T12:00:00;45;20", "2026-07-15T12:00:00;65;20"])
    surveyed.fitting(moving_part="white oak", moving_mm=300, movement_allowed_mm=8)
    (one,) = found(surveyed, "movement")
    assert one.verdict.figure == pytest.approx(3.9)


def test_movement_in_a_room_too_damp_for_the_coefficients_is_not_known(surveyed: Surveyed) -> None:
    """At 85 % and 20 °C wood comes to 18.0 % (Wood Handbook, Eq. 4-5); the coefficients end at 14 %."""
    for at, humidity in (("2026-01-15T12:00:00+00:00", 45), ("2026-07-15T12:00:00+00:00", 85)):
        read(surveyed, "relative humidity", humidity, "%", at)
        read(surveyed, "air temperature", 20, "°C", at)
    surveyed.fitting(moving_part="white oak", moving_mm=300, movement_allowed_mm=8)
    (one,) = found(surveyed, "movement")
    assert (one.verdict.word, one.verdict.missing) == (Word.NOT_KNOWN, ("moisture content",))
    assert "18.0 %" in one.verdict.sentence

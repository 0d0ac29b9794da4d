"""Diagrams made from what a site holds."""

from __future__ import annotations

import math
import re
from datetime import UTC, date, datetime, timedelta

from fieldbook.book import evidence
from fieldbook.book.gathering import gather
from fieldbook.book.site import Item, Site
from fieldbook.drawing.diagrams import humidity_of, light_of, load_path_of
from fieldbook.findings import appraise
from tests.drawing.drawn import SVG, read, words_of
from tests.sites import Surveyed

DAY = date(2026, 5, 30)
AT = "2026-05-{day:02}T10:00:00+01:00"


def gathered(surveyed: Surveyed) -> Site:
    """The site as it stands."""
    return gather(surveyed.book, surveyed.site)


def room_of(site: Site, surveyed: Surveyed) -> Item:
    """Its room."""
    return site[surveyed.room]


def test_load_path_shows_the_shares_that_add_up_to_the_weight(surveyed: Surveyed) -> None:
    """10 kg is 98.1 N; two fixings level with each other and even about the middle carry 49.05 N each, shown as 50."""
    fitting = surveyed.fitting(mass_loaded_kg=10, centre_out_mm=0)
    for mark, x in (("D1.1", 1100), ("D1.2", 1900)):
        surveyed.fixing(fitting, mark=mark, x_mm=x, into="dado board, 22 mm")
    site = gathered(surveyed)
    drawing = load_path_of(site, site[fitting], appraise(site, DAY), DAY)
    assert drawing is not None
    said = " ".join(words_of(drawing)).replace("\u00a0", " ")
    assert "99 N down" in said
    assert "D1.1, D1.2 clamp 50 N shear" in said
    assert said.count("old fabric: dado board, 22 mm") == 1


def test_load_path_of_what_is_not_weighed_is_not_drawn(surveyed: Surveyed) -> None:
    """Without a mass there is nothing to carry; the verdict says so elsewhere."""
    fitting = surveyed.fitting()
    surveyed.fixing(fitting)
    site = gathered(surveyed)
    assert load_path_of(site, site[fitting], appraise(site, DAY), DAY) is None


def test_humidity_is_plotted_with_the_limits_of_the_room(surveyed: Surveyed) -> None:
    """Readings, and the words of both limits."""
    surveyed.book.write("room", {"humidity_low_pct": 45, "humidity_high_pct": 70}, surveyed.room)
    for day in range(1, 20):
        reading = {"room": surveyed.room, "quantity": "relative humidity", "value": 50 + day, "unit": "%"}
        surveyed.book.write("reading", reading | {"at": AT.format(day=day)})
    site = gathered(surveyed)
    plot = humidity_of(site, room_of(site, surveyed))
    assert plot is not None
    assert {"readings", "not above 70 %", "not below 45 %"} <= set(words_of(plot))


def test_logger_is_plotted_and_one_that_cannot_be_read_is_left_out(surveyed: Surveyed) -> None:
    """A file that is here gives a line; one that is not yet here gives none, and no failure."""
    text = "time,rh\n" + "".join(f"2026-05-{day:02} 10:00,{50 + day}\n" for day in range(1, 20))
    digest = evidence.keep(surveyed.book.folder, "log", text.encode())
    columns = {"room": surveyed.room, "time_column": "time", "humidity_column": "rh", "size_bytes": len(text)}
    surveyed.book.write("log", columns | {"name": "Logger by the door", "sha256": digest})
    surveyed.book.write("log", columns | {"name": "Lost logger", "sha256": "0" * 64})
    site = gathered(surveyed)
    plot = humidity_of(site, room_of(site, surveyed))
    assert plot is not None
    assert "daily mean" in words_of(plot)
    surveyed.book.write("log", columns | {"name": "Another logger, by the window", "sha256": digest})
    site = gathered(surveyed)
    words = " ".join(words_of(humidity_of(site, room_of(site, surveyed)) or ""))
    assert [name in words for name in ("Logger by the door", "Another logger, b…", "Lost")] == [True, True, False]


def test_room_without_readings_has_no_plots(surveyed: Surveyed) -> None:
    """Nothing is drawn rather than an empty frame."""
    site = gathered(surveyed)
    assert (humidity_of(site, room_of(site, surveyed)), light_of(site, room_of(site, surveyed))) == (None, None)


def test_light_is_plotted_with_its_limit(surveyed: Surveyed) -> None:
    """The limit's figure can be read from the axis or stands beside its words."""
    surveyed.book.write("room", {"light_limit_lx": 200}, surveyed.room)
    for day, value in ((1, 90), (9, 260)):
        reading = {"room": surveyed.room, "quantity": "illuminance", "value": value, "unit": "lx"}
        surveyed.book.write("reading", reading | {"at": AT.format(day=day)})
    site = gathered(surveyed)
    plot = light_of(site, room_of(site, surveyed))
    assert plot is not None
    assert re.search(r"\b200\b", " ".join(words_of(plot)))


def test_load_path_names_what_hangs_on_the_fitting_and_the_hold_it_hangs_on(surveyed: Surveyed) -> None:
    """Each mass by itself, the sum, and what is agreed for the hold."""
    hold = {"face": surveyed.face, "mark": "H1", "sort": "hook", "x_mm": 1100, "z_mm": 1540, "may_be_used": "yes"}
    hook = surveyed.book.write("hold", hold | {"load_limit_n": 150})
    rail = surveyed.fitting(mass_loaded_kg=10, centre_out_mm=20)
    surveyed.fitting(mark="D2", name="Panel", mass_loaded_kg=4, centre_out_mm=40, hangs_on=rail)
    surveyed.fixing(rail, hold=hook)
    surveyed.fixing(rail, mark="D1.2", x_mm=1900)
    site = gathered(surveyed)
    words = " ".join(words_of(load_path_of(site, site[rail], appraise(site, DAY), DAY) or "")).replace("\u00a0", " ")
    for part in ("D1 Rail", "10 kg", "D2 Panel", "4 kg", "14 kg in all", "hold H1, for D1.1", "150 N agreed"):
        assert part in words, part


def test_load_path_of_hundreds_of_fixings_shows_those_that_carry_most(surveyed: Surveyed) -> None:
    """The diagram stays a diagram; it says how many it leaves out."""
    rail = surveyed.fitting(mass_loaded_kg=10, centre_out_mm=20, pull_n=50)
    for number in range(60):
        surveyed.fixing(rail, mark=f"D1.{number + 1}", x_mm=1000 + 15 * number)
    site = gathered(surveyed)
    words = words_of(load_path_of(site, site[rail], appraise(site, DAY), DAY) or "")
    shears, pulls = re.fullmatch(r".* clamp ([\d, \u00a0N]*) shear, ([\d, \u00a0N]*) pull .*", " ".join(words)).groups()
    assert len(shears.split(",")) == len(pulls.split(",")) == 24
    assert any(word.startswith("and 36 more") for word in words)


def test_year_of_a_logger_is_plotted_by_days_with_its_band(surveyed: Surveyed) -> None:
    """Thirteen months an hour apart become days: their mean, their range, the level and the band about it."""
    start = datetime(2024, 1, 1, tzinfo=UTC)
    hours = [hour for hour in range(24 * 400) if not 3000 <= hour < 3000 + 24 * 5]
    lines = [f"{start + timedelta(hours=hour):%Y-%m-%d %H:%M},{50 + 6 * math.sin(hour / 4):.1f}" for hour in hours]
    text = "\n".join(["time,rh", *lines])
    digest = evidence.keep(surveyed.book.folder, "log", text.encode())
    columns = {"room": surveyed.room, "time_column": "time", "humidity_column": "rh", "size_bytes": len(text)}
    surveyed.book.write("log", columns | {"name": "Logger", "sha256": digest})
    site = gathered(surveyed)
    plot = humidity_of(site, room_of(site, surveyed)) or ""
    assert {"daily mean", "seasonal level", "band", "daily range"} <= set(words_of(plot))
    assert len(plot) < 100_000  # the days, not the hours


def test_light_at_several_places_at_once_is_not_joined(surveyed: Surveyed) -> None:
    """Three places read in one visit are three points, not a line."""
    for value in (90, 140, 120):
        reading = {"room": surveyed.room, "quantity": "illuminance", "value": value, "unit": "lx"}
        surveyed.book.write("reading", reading | {"at": AT.format(day=6)})
    site = gathered(surveyed)
    plot = light_of(site, room_of(site, surveyed)) or ""
    lines = [path.get("d", "") for path in read(plot).iter(f"{SVG}path") if path.get("stroke-width") == "0.35"]
    assert lines
    assert not any("L" in line for line in lines)

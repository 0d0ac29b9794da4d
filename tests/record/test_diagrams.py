"""Diagrams made from what a site holds."""

from __future__ import annotations

import re

from fieldbook import evidence
from fieldbook.gather import Item, Site, gather
from fieldbook.record.diagrams import humidity_of, light_of, load_path_of
from fieldbook.verdicts import appraise
from tests.record.drawn import words_of
from tests.sites import Surveyed

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
    drawing = load_path_of(site, site[fitting], appraise(site))
    assert drawing is not None
    said = " ".join(words_of(drawing)).replace("\u00a0", " ")
    assert "99 N down" in said
    assert said.count("50 N shear") == 2
    assert said.count("old fabric: dado board, 22 mm") == 1


def test_load_path_of_what_is_not_weighed_is_not_drawn(surveyed: Surveyed) -> None:
    """Without a mass there is nothing to carry; the verdict says so elsewhere."""
    fitting = surveyed.fitting()
    surveyed.fixing(fitting)
    site = gathered(surveyed)
    assert load_path_of(site, site[fitting], appraise(site)) is None


def test_humidity_is_plotted_with_the_limits_of_the_room(surveyed: Surveyed) -> None:
    """Readings, and the words of both limits."""
    surveyed.book.write("room", {"humidity_low_pct": 45, "humidity_high_pct": 70}, surveyed.room)
    for day in range(1, 20):
        reading = {"room": surveyed.room, "quantity": "relative humidity", "value": 50 + day, "unit": "%"}
        surveyed.book.write("reading", reading | {"at": AT.format(day=day)})
    site = gathered(surveyed)
    plot = humidity_of(site, room_of(site, surveyed))
    assert plot is not None
    assert {"readings", "not above", "not below"} <= set(words_of(plot))


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
    words = " ".join(words_of(plot))
    assert ("Logger by the door" in words, "Lost logger" in words) == (True, False)


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

"""Plots over time: values where they belong, limits told in words, nothing smoothed away."""

from __future__ import annotations

import re
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.drawing import drafting as d
from fieldbook.drawing.climate_plot import FEW, GREY, Area, Bound, Series, climate_plot, even_ticks
from tests.drawing.drawn import SVG, points_of, read, text_boxes, words_of

START = datetime(2026, 1, 1, tzinfo=UTC)
HOURLY = [(START + timedelta(hours=hour), 50.0) for hour in range(24 * 365)]


def lines_of(drawing: str) -> list[list[tuple[float, float]]]:
    """The lines of the series: black, without a fill, of two points or more and one stroke."""
    paths = [
        path for path in read(drawing).iter(f"{SVG}path") if path.get("stroke") == d.BLACK and not path.get("fill")
    ]
    return [points_of(path) for path in paths if path.get("d", "").count("M") == 1 and "h" not in path.get("d", "")]


def test_values_stand_between_the_figures_of_the_axis() -> None:
    """A value half-way between two figures is drawn half-way between them."""
    values = [(START + timedelta(days=days), value) for days, value in ((0, 40.0), (90, 60.0), (180, 50.0))]
    drawing = climate_plot("Humidity", "%", [Series("logger", values)])
    (line,) = lines_of(drawing)
    rooms = {words: room.centroid.y for words, room in text_boxes(drawing)}
    assert [y for _, y in line] == pytest.approx([rooms["40"], rooms["60"], rooms["50"]], abs=0.1)
    assert line[1][0] - line[0][0] == pytest.approx(line[2][0] - line[1][0], abs=0.02)


def test_single_spike_among_a_year_of_values_is_shown() -> None:
    """Columns of paper keep their extremes: one hour at 90 % stays to be seen."""
    values = list(HOURLY)
    values[4000] = (values[4000][0], 90.0)
    drawing = climate_plot("Humidity", "%", [Series("logger", values)])
    (line,) = lines_of(drawing)
    rooms = {words: room.centroid.y for words, room in text_boxes(drawing)}
    assert min(y for _, y in line) == pytest.approx(rooms["90"], abs=0.1)
    assert len(line) < 4 * 350


def test_limits_are_told_in_words_and_by_strokes_on_the_forbidden_side() -> None:
    """Above the upper limit and below the lower one."""
    bounds = [Bound(40, above=False), Bound(65, above=True)]
    drawing = climate_plot("Humidity", "%", [Series("logger", HOURLY[:100])], bounds)
    assert {"not below 40 %", "not above 65 %"} <= set(words_of(drawing))
    strokes = [path for path in read(drawing).iter(f"{SVG}path") if path.get("stroke") == d.VERMILION]
    low, low_strokes, high, high_strokes = [points_of(path) for path in strokes]
    assert all(y >= low[0][1] - 0.01 for _, y in low_strokes)
    assert all(y <= high[0][1] + 0.01 for _, y in high_strokes)


def test_series_differ_by_line_and_point_in_black_and_white() -> None:
    """Two series of few values have two line types and two shapes of point."""
    days = [START + timedelta(days=30 * month) for month in range(6)]
    series = [Series(name, [(day, value) for day in days]) for name, value in (("chart", 60.0), ("dado", 40.0))]
    paths = list(read(climate_plot("Light", "lx", series)).iter(f"{SVG}path"))
    assert {path.get("stroke-dasharray") for path in paths if path.get("stroke-width") == "0.35"} == {None, "4.2 1.05"}
    points = [path.get("d", "") for path in paths if path.get("fill") == d.PAPER and path.get("stroke")]
    assert ["a" in path for path in points] == [True, False]


def test_values_in_any_order_are_drawn_in_the_order_of_time() -> None:
    """A logger read out twice makes no knot."""
    values = [(START + timedelta(days=day), 50.0 + day) for day in (3, 1, 2, 0)]
    (line,) = lines_of(climate_plot("Humidity", "%", [Series("hand", values)]))
    assert line == sorted(line)


@pytest.mark.parametrize("series", [[], [Series("logger", [])]])
def test_nothing_to_plot_is_said(series: list[Series]) -> None:
    """No empty axes."""
    assert words_of(climate_plot("Humidity", "%", series)) == ["Humidity: no values are entered."]


@pytest.mark.parametrize("count", [1, 2, FEW, FEW + 1, 5000])
def test_any_number_of_values_is_drawn(count: int) -> None:
    """One value, or many."""
    assert read(climate_plot("Humidity", "%", [Series("logger", HOURLY[:count])]))[0].text == "Humidity, %"


@pytest.mark.parametrize("days", [0.5, 1.5, 20, 59, 61, 400, 2000, 12_000])
def test_dates_of_the_axis_do_not_overlap(days: float) -> None:
    """Whether it spans hours or decades, there are some dates and each can be read."""
    values = [(START, 50.0), (START + timedelta(days=days), 51.0)]
    boxes = text_boxes(climate_plot("Humidity", "%", [Series("logger", values)]))
    dates = [room for words, room in boxes if re.search(r"[a-z] \d{4}$|^\d{4}$|^[A-Z][a-z]+$|^\d+\xa0[A-Z]|:", words)]
    assert len(dates) >= 2
    assert all(one.distance(other) > 0 for index, one in enumerate(dates) for other in dates[:index])


@given(st.floats(-1000, 1000), st.floats(0, 1000))
def test_figures_of_the_axis_enclose_the_values(low: float, span: float) -> None:
    """Evenly spaced, not too many, the outermost beyond the values."""
    ticks = even_ticks(low, low + span)
    tolerance = 1e-9 * max(1.0, abs(low), abs(low + span))
    assert ticks[0] <= low + tolerance
    assert ticks[-1] >= low + span - tolerance
    assert 2 <= len(ticks) <= 8


def daily(days: range, value: float = 50.0) -> list[tuple[datetime, float]]:
    """A value at each of some days."""
    return [(START + timedelta(days=day), value) for day in days]


def test_line_is_broken_where_nothing_was_measured() -> None:
    """Days that are missing are not bridged by a line that would look like a measurement."""
    values = [*daily(range(100)), *daily(range(130, 230))]
    joined = climate_plot("Humidity", "%", [Series("logger", values)])
    broken = climate_plot("Humidity", "%", [Series("logger", values, timedelta(days=1.5))])
    lines = [
        [path.get("d", "").count("M") for path in read(one).iter(f"{SVG}path") if path.get("stroke-width") == "0.25"]
        for one in (joined, broken)
    ]
    assert sum(lines[1]) == sum(lines[0]) + 1


def test_value_that_stands_alone_between_gaps_is_seen() -> None:
    """One day between two gaps has a stroke of its own."""
    values = [*daily(range(100)), *daily(range(120, 121), 90.0), *daily(range(150, 230))]
    drawing = climate_plot("Humidity", "%", [Series("logger", values, timedelta(days=1.5))])
    rooms = {words: room.centroid.y for words, room in text_boxes(drawing)}
    parted = [path for path in read(drawing).iter(f"{SVG}path") if path.get("d", "").count("M") == 3]
    assert any(min(y for _, y in points_of(path)) == pytest.approx(rooms["90"], abs=0.1) for path in parted)


def test_range_of_many_values_is_an_area_behind_the_lines() -> None:
    """It is drawn first, reaches from the least to the greatest, and breaks where the line does."""
    spans = [(at, 40.0, 60.0) for at, _ in [*daily(range(100)), *daily(range(130, 131)), *daily(range(160, 230))]]
    area = Area("least to greatest", spans, timedelta(days=1.5))
    drawing = climate_plot("Humidity", "%", [Series("logger", daily(range(230)))], areas=[area])
    paths = list(read(drawing).iter(f"{SVG}path"))
    assert paths[0].get("fill") == GREY
    assert paths[0].get("d", "").count("M") == 3
    rooms = {words: room.centroid.y for words, room in text_boxes(drawing)}
    heights = {y for _, y in points_of(paths[0])}
    assert sorted(heights) == pytest.approx(sorted({rooms["40"], rooms["60"]}), abs=0.1)
    assert "least to greatest" in words_of(drawing)


def test_values_of_an_area_lie_within_the_axis() -> None:
    """A day's extremes are not cut off by an axis made for means."""
    area = Area("range", [(START, 20.0, 95.0), (START + timedelta(days=9), 20.0, 95.0)], timedelta(days=20))
    figures = [
        float(word)
        for word in words_of(climate_plot("H", "%", [Series("x", daily(range(9)))], areas=[area]))
        if word.isdecimal()
    ]
    assert min(figures) <= 20
    assert max(figures) >= 95

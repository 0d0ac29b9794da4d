"""Scales, scale bars and figures side by side."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.drawing.dimensions import (
    SCALES,
    SPACE_MM,
    fitting_places,
    overall,
    said,
    scale_bar,
    scale_part_mm,
    spread,
)
from fieldbook.drawing.drafting import drawing
from tests.drawing.drawn import points_of, read, text_boxes

PLACES = st.lists(st.floats(0, 200), min_size=1, max_size=30).map(sorted)


def test_scales_are_the_recommended_ones() -> None:
    """Those of ISO 5455 (from memory, not seen in a readable copy), and 1:25: common practice, no source."""
    assert SCALES[:8] == (1, 2, 5, 10, 20, 25, 50, 100)
    assert {int(str(scale).rstrip("0")) for scale in SCALES} == {1, 2, 5, 25}


@pytest.mark.parametrize("scale", SCALES)
def test_scale_bar_is_as_long_as_it_says(scale: int) -> None:
    """The length drawn times the scale is the figure at its end."""
    drawn, length = scale_bar((10, 5), scale)
    figure, unit = read(drawn[-1]).text.split()
    assert float(figure) * {"m": 1000, "mm": 1}[unit] == pytest.approx(length * scale)
    assert float(read(drawn[0]).get("d").split("h")[1].split("v")[0]) == pytest.approx(length, abs=0.005)
    assert 20 <= length <= 50


@pytest.mark.parametrize("scale", SCALES)
def test_part_of_a_scale_bar_is_a_round_figure(scale: int) -> None:
    """1, 2.5 or 5 times a power of ten."""
    digits = f"{scale_part_mm(scale):e}".split("e")[0].rstrip("0").rstrip(".")
    assert digits in {"1", "2.5", "5"}


@given(PLACES)
def test_figures_moved_apart_keep_their_space_and_their_order(places: list[float]) -> None:
    """Neighbours never come closer than the space, as long as the side has room for all."""
    moved = spread(places, -50, 250)
    assert len(moved) == len(places)
    assert all(after - before >= SPACE_MM - 1e-6 for before, after in zip(moved, moved[1:], strict=False))
    assert all(-50 - 1e-6 <= place <= 250 + 1e-6 for place in moved)


@given(PLACES)
def test_figures_with_room_enough_stay_where_they_are(places: list[float]) -> None:
    """Nothing is moved that need not be."""
    roomy = [place + index * SPACE_MM for index, place in enumerate(places)]
    assert spread(roomy, -50, 350) == pytest.approx(roomy)


@given(PLACES, st.floats(0, 60))
def test_crowded_figures_are_thinned_until_they_fit(places: list[float], room: float) -> None:
    """What is kept fits the room, and the first is always kept."""
    kept = fitting_places(places, room)
    assert kept[0] == places[0]
    assert len(kept) <= max(2, room / SPACE_MM + 1)
    assert set(kept) <= set(places)


def test_overall_dimension_reads_from_the_bottom_or_the_right() -> None:
    """A level figure stands above its line, an upright one is turned to read from the right (ISO 129-1)."""
    _, _, level = overall((0, 10), (100, 10), "5000")
    _, _, upright = overall((10, 100), (10, 0), "3000")
    assert float(read(level).get("y")) < 10
    assert read(upright).get("transform", "").startswith("rotate(-90 ")
    assert float(read(upright).get("x")) < 10


def test_oblique_strokes_stand_on_the_ends_of_the_line() -> None:
    """Each stroke's middle is an end of the dimension line."""
    _, strokes, _ = overall((0, 10), (100, 10), "5000")
    points = points_of(read(strokes))
    middles = [((x0 + x1) / 2, (y0 + y1) / 2) for (x0, y0), (x1, y1) in zip(points[::2], points[1::2], strict=True)]
    assert middles == [(0, 10), (100, 10)]


@pytest.mark.parametrize(
    ("value", "words"), [(0.0, "0"), (-0.04, "0"), (12.25, "12.2"), (1000, "1000"), (-75.0, "-75")]
)
def test_figures_are_said_no_finer_than_a_tenth(value: float, words: str) -> None:
    """No trailing nought, no minus before nothing."""
    assert said(value) == words


@given(st.sampled_from(SCALES), st.floats(5, 60))
def test_figures_of_a_scale_bar_never_run_together(scale: int, longest: float) -> None:
    """However short it is: it ends with its length, and the other figures stand where there is room between them."""
    bar, _ = scale_bar((100, 10), scale, longest)
    boxes = text_boxes(drawing("bar", (200, 20), *bar))
    assert boxes[-1][0].endswith("m")
    assert all(one.distance(other) > 1 for index, (_, one) in enumerate(boxes) for _, other in boxes[:index])

"""A panel in front of an outer wall, held against the temperature factor of EN ISO 13788."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.checks.air import surface_humidity
from fieldbook.checks.covered_wall import (
    cover_resistance,
    covered_wall_verdict,
    factor_behind,
    least_factor,
    temperature_factor,
)
from fieldbook.checks.verdict import Word
from tests.checks.refusals import check_limits, refused

ORDER = list(Word)


# Arithmetic on Sonntag's constants: lowest surface temperature that keeps 80 %, and the factor with 0 °C outside.
@pytest.mark.parametrize(
    ("inside", "humidity", "surface"), [(20, 50, 12.6172), (20, 60, 15.4314), (20, 70, 17.8595), (18, 65, 14.7364)]
)
def test_least_factor_keeps_the_surface_at_eighty_percent(inside, humidity, surface):
    """At the factor asked for, the air at the surface is at 80 %."""
    factor = least_factor(inside, humidity, 0)
    assert factor * inside == pytest.approx(surface, abs=0.001)
    assert surface_humidity(inside, humidity, factor * inside) == pytest.approx(80)


def test_factor_of_a_published_resistance():
    """1 - R_si/R_total: 0.13 and 2.50 make 0.948 (EN ISO 13788, second hand); and 20 °C, 60 %, 0 °C need 0.772."""
    assert temperature_factor(0.948 * 20, 20, 0) == pytest.approx(1 - 0.13 / 2.5)
    assert least_factor(20, 60, 0) == pytest.approx(0.7716, abs=0.0001)


def test_cover_makes_the_wall_colder():
    """A solid wall of factor 0.75 behind 0.18 m²K/W of air and 0.10 of board: worked by hand.

    R_total = 0.25/0.25 = 1.00; behind, 1 - (0.25 + 0.28)/(1.00 + 0.28) = 0.5859.
    At 18 °C, 60 % and 2 °C outside the wall is at 11.375 °C, and the room's 12.38 hPa make 92.1 % there.
    """
    assert factor_behind(0.75, 0.28) == pytest.approx(0.5859, abs=0.0001)
    assert factor_behind(0.75, 0) == pytest.approx(0.75)
    found = covered_wall_verdict(0.75, 0.28, 18, 60, 2)
    assert found.word is Word.OVER
    assert found.figure == pytest.approx(92.1, abs=0.3)
    assert dict(found.working)["Surface, covered"] == "11.4 °C"


@given(st.floats(0.3, 0.95), st.floats(0, 3), st.floats(5, 25), st.floats(30, 95), st.floats(-15, 4), st.floats(0, 1))
def test_more_cover_damp_or_cold_never_gives_a_better_word(factor, cover, inside, humidity, outside, more):
    """Each makes the surface damper, and so does a colder wall to begin with."""
    now = covered_wall_verdict(factor, cover, inside, humidity, outside)
    for worse in (
        (factor, cover + more, inside, humidity, outside),
        (factor, cover, inside, humidity + 5 * more, outside),
        (factor, cover, inside, humidity, outside - more),
        (factor - 0.1 * more, cover, inside, humidity, outside),
    ):
        then = covered_wall_verdict(*worse)
        assert then.figure >= now.figure - 1e-6
        assert ORDER.index(then.word) <= ORDER.index(now.word)


# ISO 6946, closed air with heat going sideways: 0.11 at 5 mm, 0.15 at 10 mm, 0.18 from 25 mm: from memory.
@pytest.mark.parametrize(
    ("panel", "group", "air", "expected"),
    [
        (0, "metal", 5, 0.11),
        (0, "metal", 10, 0.15),
        (0, "metal", 20, 0.175),
        (0, "metal", 200, 0.18),
        (0, "metal", None, 0.18),
        (0, "metal", 0, 0),
        (10, "sheet", 0, 0.10),
        (12, "species", 0, 0.10),
        (6, "glass", 25, 0.186),
    ],
)
def test_cover_is_panel_and_air(panel, group, air, expected):
    """Thickness over conductivity, and the closed air behind; unknown air is the most there can be."""
    assert cover_resistance(panel, group, air) == pytest.approx(expected)


def test_cover_of_another_group_is_refused():
    """A wall is no panel."""
    with refused("not-a-choice", "group"):
        cover_resistance(10, "substrate", 5)
    check_limits(cover_resistance, {"panel_mm": 10.0, "group": "sheet", "air_mm": 5.0}, "panel_mm", 0, 1000)


def test_reading_on_a_mild_day_says_nothing():
    """With less than 5 K between inside and outside there is no factor."""
    with refused("out-of-range", "inside_c"):
        temperature_factor(14, 15, 11)
    with refused("out-of-range", "outside_c"):
        covered_wall_verdict(0.8, 0.1, 15, 60, 16)


def test_limits_of_the_inputs():
    """Factors of walls there are, resistances up to a very thick cover."""
    good = {"factor": 0.8, "cover_m2k_w": 0.2}
    check_limits(factor_behind, good, "factor", 0.05, 0.99)
    check_limits(factor_behind, good, "cover_m2k_w", 0, 20)
    whole = good | {"inside_c": 18.0, "humidity_pct": 60.0, "outside_c": 2.0}
    check_limits(covered_wall_verdict, whole, "humidity_pct", 1, 100)
    check_limits(covered_wall_verdict, whole, "outside_c", -30, 18)

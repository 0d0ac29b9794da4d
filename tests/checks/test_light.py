"""Light through a year, held against the categories and doses of CIE 157:2004."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.calculations.catalogue import calculate
from fieldbook.checks import light
from fieldbook.checks.verdict import Word
from tests.checks import published
from tests.checks.refusals import check_limits, check_refusals, refused

DOSES = published.rows("light_blue_wool.csv")

# CIE 157:2004, section 3.1: illuminance and exposure each category bears; from memory, not seen in a readable copy.
LIMITS = {"none": (None, None), "low": (200, 600_000), "medium": (50, 150_000), "high": (50, 15_000)}


def test_categories_are_the_four_of_the_report():
    """Nothing is added to the report's four categories and nothing is missing."""
    assert {name: (bears.lux, bears.lux_h) for name, bears in light.CATEGORIES.items()} == LIMITS


# arithmetic: illuminance x hours a day x days
@pytest.mark.parametrize(
    ("lux", "hours", "expected"), [(50, 8 * 300, 120_000), (200, 8 * 300, 480_000), (50, 10 * 365, 182_500)]
)
def test_exposure_is_illuminance_times_hours(lux, hours, expected):
    """Doses add up over the year."""
    assert light.exposure(lux, hours) == expected


@pytest.mark.parametrize("row", DOSES, ids=lambda row: f"grade {row['blue_wool']:g}")
def test_years_follow_from_the_dose(row):
    """One million lx·h in a year makes the years the dose in millions."""
    grade = int(row["blue_wool"])
    assert light.years_to_noticeable_fade(1e6, grade, False) == pytest.approx(row["unfiltered_mlx_h"])
    assert light.years_to_noticeable_fade(1e6, grade, True) == pytest.approx(row["filtered_mlx_h"])


def test_years_divide_the_dose_by_the_exposure():
    """3 million lx·h at 120 000 in a year last 25 years."""
    # arithmetic on the filtered dose of grade 3
    assert light.years_to_noticeable_fade(120_000, 3, True) == 25


def test_finish_in_the_dark_has_no_end_this_method_knows():
    """Without light the years are not a number, and no division by nothing."""
    assert light.years_to_noticeable_fade(0, 1, False) is None


@given(st.integers(1, 7), st.booleans(), st.floats(1, 1e9))
def test_faster_finish_and_more_light_never_last_longer(grade, filtered, exposure):
    """A better grade, less light or no ultraviolet never shortens the time."""
    years = light.years_to_noticeable_fade(exposure, grade, filtered)
    assert light.years_to_noticeable_fade(exposure, grade + 1, filtered) > years
    assert light.years_to_noticeable_fade(exposure / 2, grade, filtered) > years
    assert light.years_to_noticeable_fade(exposure, grade, True) >= years


def test_limits_of_the_inputs():
    """Illuminance up to twice the sun's, hours of a leap year at most, grades 1 to 8."""
    good = {"lux": 50.0, "hours_per_year": 2000.0}
    check_limits(light.exposure, good, "lux", 0, 200_000)
    check_limits(light.exposure, good, "hours_per_year", 0, 8784)
    good = {"exposure_lux_h": 1e6, "blue_wool": 3, "uv_filtered": True}
    check_limits(light.years_to_noticeable_fade, good, "exposure_lux_h", 0, 200_000 * 8784)
    check_limits(light.years_to_noticeable_fade, good, "blue_wool", 1, 8)
    with refused("not-a-choice", "blue_wool"):
        light.years_to_noticeable_fade(1e6, 3.5, True)


@pytest.mark.parametrize(
    ("lux", "hours", "category", "word"),
    [
        (50, 2400, "medium", Word.WITHIN),  # exactly a fifth of the limit is left
        (50, 2401, "medium", Word.CLOSE),
        (50, 3000, "medium", Word.CLOSE),
        (50, 3001, "medium", Word.OVER),
        (200, 3000, "low", Word.CLOSE),
        (200, 3001, "low", Word.OVER),
        (50, 300, "high", Word.CLOSE),
        (50, 301, "high", Word.OVER),
    ],
)
def test_exposure_is_held_against_the_category(lux, hours, category, word):
    """300 h at 50 lx spend the year's 15 000 lx·h of the highest responsivity, and so on."""
    found = light.light_verdict(lux, hours, category)
    limit = LIMITS[category][1]
    assert found.word == word
    assert (found.figure, found.limit, found.margin, found.unit) == (lux * hours, limit, limit - lux * hours, "lx·h")
    assert (found.check, found.source) == ("light", light.SOURCE)
    assert "from memory" in found.source
    assert [figure for _, figure in found.working] == [f"{lux} lx", f"{hours} h", category]
    assert all(label for label, _ in found.working)


def test_exposure_is_rounded_up_to_whole_lux_hours():
    """Half a lux-hour counts as one."""
    assert light.light_verdict(50, 100.01, "medium").figure == 5001


@pytest.mark.parametrize(("category", "limit"), [("low", 200), ("medium", 50), ("high", 50)])
def test_illuminance_above_the_category_is_over_however_short(category, limit):
    """Too bright is over even for a minute."""
    found = light.light_verdict(limit + 0.04, 1 / 60, category)
    assert found.word == Word.OVER
    # rounded up, to the side of safety
    assert (found.figure, found.limit, found.unit) == (limit + 0.1, limit, "lx")
    assert found.margin == pytest.approx(-0.1)
    assert f"{limit + 0.1:g} lx, 0.1 lx above the {limit} lx" in found.sentence
    assert (found.check, found.source) == ("light", light.SOURCE)
    assert len(found.working) == 3
    assert light.light_verdict(limit, 1 / 60, category).word == Word.WITHIN


def test_dose_is_told_where_it_passes_its_limit_further_than_the_illuminance():
    """52.8 lx are 6 % above 50; in 2,000 h they are 105,600 lx·h, seven times the 15,000 of this category."""
    found = light.light_verdict(52.8, 2000, "high")
    assert (found.word, found.figure, found.limit, found.unit) == (Word.OVER, 105_600, 15_000, "lx·h")


def test_category_without_a_limit_bears_any_light():
    """Stone and metal have no limit, so no margin either."""
    found = light.light_verdict(10_001, 4000.1, "none")
    assert (found.word, found.figure, found.limit, found.margin) == (Word.WITHIN, 40_005_001, None, None)
    assert (found.check, found.unit, found.source) == ("light", "lx·h", light.SOURCE)
    assert "no limit" in found.sentence
    assert len(found.working) == 3


def test_unknown_category_is_refused():
    """Only the report's four words are known."""
    with refused("not-a-choice", "category"):
        light.light_verdict(50, 100, "extreme")
    with refused("not-a-choice", "category"):
        calculate("light", {"lux": 50, "hours_per_year": 100, "category": "extreme"})
    with refused("not-a-choice", "category"):
        calculate("light", {"lux": 50, "hours_per_year": 100, "category": 3})


def test_calculation_gives_exposure_and_limits():
    """Without a grade there are no years."""
    answer = calculate("light", {"lux": 50, "hours_per_year": 3650, "category": "medium"})
    assert (answer["exposure_lux_h"], answer["limit_lux_h"], answer["limit_lux"]) == (182_500, 150_000, 50)
    assert answer["verdict"]["word"] == "over"
    assert "years_to_noticeable_fade" not in answer
    answer = calculate("light", {"lux": 5000, "hours_per_year": 3650, "category": "none"})
    assert (answer["limit_lux_h"], answer["limit_lux"], answer["verdict"]["word"]) == (None, None, "within")


@pytest.mark.parametrize(
    ("given_filtered", "filtered", "years"), [({"uv_filtered": True}, True, 25), ({}, False, 12.5)]
)
def test_calculation_with_a_grade_gives_years(given_filtered, filtered, years):
    """Where nothing is said of ultraviolet it is taken to be there, and the answer says so."""
    payload = {"lux": 50, "hours_per_year": 2400, "category": "medium", "blue_wool": 3}
    answer = calculate("light", payload | given_filtered)
    assert (answer["years_to_noticeable_fade"], answer["uv_filtered"]) == (years, filtered)
    assert (answer["exposure_lux_h"], answer["verdict"]["word"]) == (120_000, "within")
    assert len(answer["source"]) == 2


def test_calculation_in_the_dark_gives_null_years():
    """Null stands where the method knows no end."""
    answer = calculate("light", {"lux": 0, "hours_per_year": 2400, "category": "high", "blue_wool": 1})
    assert answer["years_to_noticeable_fade"] is None


def test_bad_input_is_refused():
    """Anything but a number within the limits is refused, naming its key."""
    good = {"lux": 50, "hours_per_year": 2400, "category": "medium"}
    check_refusals("light", good, ("lux", "hours_per_year"))
    with refused("missing", "category"):
        calculate("light", {"lux": 50, "hours_per_year": 2400})
    for value, code in ((3.5, "not-a-number"), (0, "out-of-range"), (9, "out-of-range"), ("3", "not-a-number")):
        with refused(code, "blue_wool"):
            calculate("light", good | {"blue_wool": value})
    for value in ("yes", 1):
        with refused("not-a-choice", "uv_filtered"):
            calculate("light", good | {"blue_wool": 3, "uv_filtered": value})
    with refused("wrong-use", "uv_filtered"):
        calculate("light", good | {"uv_filtered": True})

"""Lifting, held against the published filter and its reductions."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.calculations.catalogue import calculate
from fieldbook.checks import lifting
from fieldbook.checks.verdict import Word
from tests.checks import published
from tests.checks.refusals import check_limits, check_refusals, refused

FILTER = published.rows("lifting_filter.csv")
PART = {"mass_kg": 12.0, "zone": "elbow to knuckle", "reach": "close", "lifters": "women"}
LIFT = {"horizontal_cm": 40, "vertical_cm": 75, "distance_cm": 60}


@pytest.mark.parametrize("row", FILTER, ids=lambda row: row["zone"])
@pytest.mark.parametrize("lifters", lifting.LIFTERS)
@pytest.mark.parametrize("reach", lifting.REACHES)
def test_guideline_agrees_with_the_published_filter(row, lifters, reach):
    """Each box of the filter holds the printed mass."""
    assert lifting.guideline_kg(row["zone"], reach, lifters) == row[f"{lifters}_{reach}_kg"]


def test_filter_has_no_other_zones():
    """The zones are those of the filter."""
    assert list(lifting.ZONES) == [row["zone"] for row in FILTER]


# HSE INDG143 (rev4): 30 % less at 1 to 2 lifts a minute, 50 % at 5 to 8, 80 % above 12; the guideline itself is for
# up to about 30 an hour. Between them the harder reduction is taken.
@pytest.mark.parametrize(
    ("lifts_per_minute", "expected_kg"),
    [(0, 25), (0.5, 25), (0.51, 17.5), (2, 17.5), (2.1, 12.5), (5, 12.5), (8, 12.5), (8.1, 5), (13, 5), (20, 5)],
)
def test_guideline_is_reduced_for_repeated_lifts(lifts_per_minute, expected_kg):
    """More lifts a minute leave less of the guideline."""
    found = lifting.guideline_kg("elbow to knuckle", "close", "men", lifts_per_minute)
    assert found == pytest.approx(expected_kg)


# HSE INDG143 (rev4): 10 % less for a twist beyond 45°, 20 % beyond 90°.
@pytest.mark.parametrize(("twist_deg", "expected_kg"), [(0, 25), (45, 25), (46, 22.5), (90, 22.5), (91, 20), (135, 20)])
def test_guideline_is_reduced_for_a_twist(twist_deg, expected_kg):
    """A twist of the trunk leaves less of the guideline."""
    assert lifting.guideline_kg("elbow to knuckle", "close", "men", 0.5, twist_deg) == pytest.approx(expected_kg)


# Worked apart: 25 kg, six lifts a minute (50 %), twist of 60° (10 %): 11.25 kg; multiplying the two is an assumption.
def test_guideline_with_both_reductions_multiplies_them():
    """Repeated lifts with a twist take both reductions."""
    assert lifting.guideline_kg("elbow to knuckle", "close", "men", 6, 60) == pytest.approx(11.25)


# HSE L23 as printed by a railway's safety pages: 20 kg for one makes about 26.6 kg for two; half of the sum for three.
@pytest.mark.parametrize(("people", "expected_kg"), [(1, 20), (2, 26.6), (3, 30)])
def test_team_agrees_with_the_printed_share(people, expected_kg):
    """A team lifts less than the sum of its people."""
    assert lifting.team_kg(20, people) == pytest.approx(expected_kg, abs=0.1)  # printed as "around 26.6"


@pytest.mark.parametrize(
    ("mass_kg", "expected"), [(0, 1), (20, 1), (20.1, 2), (26.6, 2), (26.7, 3), (30, 3), (30.1, None), (500, None)]
)
def test_people_are_as_few_as_the_guideline_lets(mass_kg, expected):
    """The fewest people are named, and none where three do not suffice."""
    assert lifting.people(mass_kg, 20) == expected


@given(st.floats(0, 100), st.floats(0, 100))
def test_people_named_suffice(mass_kg, guideline_kg):
    """Whoever is named may lift it, and one fewer may not."""
    count = lifting.people(mass_kg, guideline_kg)
    if count is None:
        assert mass_kg > lifting.team_kg(guideline_kg, 3)
    else:
        assert mass_kg <= lifting.team_kg(guideline_kg, count)
        assert count == 1 or mass_kg > lifting.team_kg(guideline_kg, count - 1)


# Heights of the zones: common practice, no source. Through several, the least mass counts: HSE INDG143 (rev4).
@pytest.mark.parametrize(
    ("low_mm", "high_mm", "expected"),
    [
        (0, 0, "below mid lower leg"),
        (300, 300, "below mid lower leg"),
        (700, 700, "knuckle to mid lower leg"),
        (1000, 1000, "elbow to knuckle"),
        (1001, 1001, "shoulder to elbow"),
        (1350, 1350, "shoulder to elbow"),
        (1351, 1351, "above shoulder"),
        (301, 700, "knuckle to mid lower leg"),
        (701, 1000, "elbow to knuckle"),
        (1001, 1350, "shoulder to elbow"),
        (1351, 2000, "above shoulder"),
        (800, 1200, "shoulder to elbow"),
        (600, 900, "knuckle to mid lower leg"),
        (900, 1400, "above shoulder"),
        (200, 900, "below mid lower leg"),
    ],
)
def test_zone_is_the_hardest_the_hands_pass(low_mm, high_mm, expected):
    """The hardest zone between both ends counts, whichever end comes first."""
    assert lifting.worst_zone(low_mm, high_mm) == expected
    assert lifting.worst_zone(high_mm, low_mm) == expected


# 16 kg for one woman between elbow and knuckle; 21.3 kg for two.
@pytest.mark.parametrize(
    ("mass_kg", "team", "word", "limit_kg", "takes"),
    [
        (12.8, 1, Word.WITHIN, 16, "It takes 1."),
        (12.9, 1, Word.CLOSE, 16, "It takes 1."),
        (16.1, 1, Word.OVER, 16, "It takes 2."),
        (16.1, 2, Word.WITHIN, 21.3, "It takes 2."),
        (30, 3, Word.OVER, 24, "Too much for three"),
    ],
)
def test_mass_is_held_against_the_guideline(mass_kg, team, word, limit_kg, takes):
    """The verdict names the people it takes and the caution on lifting."""
    verdict = lifting.verdict(mass_kg, 16, team)
    assert (verdict.word, verdict.limit) == (word, limit_kg)
    assert takes in verdict.sentence
    assert "no safe limit" in verdict.sentence
    assert verdict.working == (("guideline for one", "16 kg"), ("people", str(team)))


def test_part_is_lifted_by_one_unless_told():
    """The verdict is on one person where no team is named."""
    assert lifting.verdict(16.1, 16).limit == 16


def test_lifting_outside_its_range_is_refused():
    """Masses, lifts, twists and heights that cannot be are refused by name."""
    good = {"zone": "elbow to knuckle", "reach": "far", "lifters": "men", "lifts_per_minute": 1.0, "twist_deg": 1.0}
    check_limits(lifting.guideline_kg, good, "lifts_per_minute", 0, 20)
    check_limits(lifting.guideline_kg, good, "twist_deg", 0, 135)
    for key in ("zone", "reach", "lifters"):
        with refused("not-a-choice", key):
            lifting.guideline_kg(**{**good, key: "children"})
    one = {"mass_kg": 1.0, "guideline_kg": 1.0}
    for method in (lifting.people, lifting.verdict):
        check_limits(method, one, "mass_kg", 0, 10_000)
        check_limits(method, one, "guideline_kg", 0, 100)
    check_limits(lifting.team_kg, {"guideline_kg": 1.0, "people": 1}, "guideline_kg", 0, 100)
    for people in (0, 4):
        with refused("out-of-range", "people"):
            lifting.team_kg(1, people)
    hands = {"hands_from_mm": 1.0, "hands_to_mm": 1.0}
    for key in hands:
        check_limits(lifting.worst_zone, hands, key, 0, 10_000)


def test_lifting_from_the_command_line_gives_guideline_and_people():
    """The answer holds the guideline where the hands are, the people and a verdict."""
    answer = calculate("lifting", {**PART, "mass_kg": 18, "team": 2})
    assert (answer["guideline_kg"], answer["people"], answer["verdict"]["word"]) == (16, 2, "close")
    assert calculate("lifting", {**PART, "mass_kg": 0})["people"] == 1
    for team in (None, 1):
        assert calculate("lifting", {**PART, "mass_kg": 18, "team": team})["verdict"]["limit"] == 16
    by_height = calculate("lifting", {**PART, "zone": None, "hands_mm": [800, 1500]})
    assert (by_height["zone"], by_height["guideline_kg"]) == ("above shoulder", 7)
    repeated = calculate("lifting", {**PART, "lifters": "men", "lifts_per_minute": 6, "twist_deg": 60})
    assert repeated["guideline_kg"] == pytest.approx(11.25)
    assert "recommended_kg" not in answer


# 12.8656 kg: lifting equation, worked apart with good handles; 0.9 of it without any.
def test_lifting_with_measurements_also_uses_the_equation():
    """With measurements the answer holds the equation's mass and index too, without handles unless told."""
    answer = calculate("lifting", {**PART, "equation": LIFT})
    assert answer["recommended_kg"] == pytest.approx(12.8656 * 0.9, abs=0.001)
    assert answer["lifting_index"] == pytest.approx(12 / (12.8656 * 0.9), abs=0.001)
    assert answer["multipliers"]["horizontal"] == 0.625
    told = {**LIFT, "coupling": "good", "asymmetry_deg": 45, "frequency_multiplier": 0.84}
    answer = calculate("lifting", {**PART, "equation": told})
    assert answer["recommended_kg"] == pytest.approx(12.8656 * 0.856 * 0.84, abs=0.001)
    beyond = calculate("lifting", {**PART, "equation": {**LIFT, "horizontal_cm": 64}})
    assert (beyond["recommended_kg"], beyond["lifting_index"]) == (0, None)


def test_lifting_with_bad_input_is_refused():
    """Each number spoilt, missing or unknown is refused by name."""
    check_refusals("lifting", PART, ("mass_kg",))
    for key in ("zone", "reach", "lifters"):
        with refused("not-a-choice", key):
            calculate("lifting", {**PART, key: ["men"]})
        with refused("missing", key):
            calculate("lifting", {**PART, key: None})
    for key, value in (("lifts_per_minute", -1), ("twist_deg", -1), ("team", 4)):
        with refused("out-of-range", key):
            calculate("lifting", {**PART, key: value})
    with refused("missing", "equation.distance_cm"):
        calculate("lifting", {**PART, "equation": {"horizontal_cm": 1, "vertical_cm": 1}})
    with refused("unsuitable-shape", "equation"):
        calculate("lifting", {**PART, "equation": 3})

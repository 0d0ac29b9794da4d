"""Which cautions a piece of work calls for."""

import pytest

from fieldbook.checks import cautions
from fieldbook.model.choices import HAZARDS
from tests.checks.refusals import check_limits

HARMLESS = {
    "mass_kg": 3,
    "underside_mm": 1799,
    "within_reach": False,
    "makes_holes": False,
    "disturbs_old_paint": False,
    "powered": False,
    "on_a_route": False,
    "uses_solvents": False,
}


def keys(**facts):
    return [caution.key for caution in cautions.applying(**facts)]


def test_cautions_nothing_known_shows_all():
    """Where nothing is known about the work, every caution is shown."""
    assert keys() == list(cautions.CAUTIONS)


def test_cautions_everything_ruled_out_leaves_loads():
    """The caution about loads is never left out."""
    assert keys(**HARMLESS) == ["loads"]


@pytest.mark.parametrize(
    ("fact", "value", "expected"),
    [
        ("mass_kg", 3.1, ["lifting"]),
        ("mass_kg", None, ["lifting"]),
        ("underside_mm", 1800, ["overhead work"]),
        ("underside_mm", None, ["overhead work"]),
        ("within_reach", True, ["leaning or climbing"]),
        ("within_reach", None, ["leaning or climbing"]),
        ("makes_holes", True, ["dust", "asbestos", "hidden services"]),
        ("makes_holes", None, ["dust", "asbestos", "hidden services"]),
        ("disturbs_old_paint", True, ["old lead paint"]),
        ("powered", True, ["electricity"]),
        ("on_a_route", True, ["escape route"]),
        ("uses_solvents", True, ["solvents and fumes"]),
        ("uses_solvents", None, ["solvents and fumes"]),
    ],
)
def test_cautions_one_fact_adds_its_own(fact, value, expected):
    """Each fact, and each gap in what is known, brings its own cautions and no other."""
    assert keys(**HARMLESS | {fact: value}) == ["loads", *expected]


@pytest.mark.parametrize("field", ["mass_kg", "underside_mm"])
def test_cautions_impossible_fact_is_refused(field):
    """A mass or height that cannot be is refused by name."""
    check_limits(cautions.applying, {field: 1.0}, field, 0, 100_000)


@pytest.mark.parametrize(
    ("facts", "expected"),
    [
        ((20, 1799, False), False),
        ((20.1, 1799, False), True),
        ((20, 1800, False), True),
        ((20, 1799, True), True),
        ((None, 1799, False), True),
        ((20, None, False), True),
        ((20, 1799, None), True),
    ],
)
def test_engineer_heavy_high_or_reachable_is_called(facts, expected):
    """Weight, height and reach each call for an engineer, and so does not knowing."""
    assert cautions.needs_engineer(*facts) is expected


def test_cautions_each_one_says_who_decides():
    """Every caution has words of its own and names who decides in the end."""
    for key, caution in cautions.CAUTIONS.items():
        assert caution.key == key
        assert caution.text.endswith(".")
        assert caution.left_to.endswith(".")


def test_cautions_load_words_state_what_is_left_out():
    """The caution on loads names fatigue, impact, the unopened substrate and the old fabric's strength."""
    text = cautions.CAUTIONS["loads"].text
    assert all(word in text for word in ("fatigue", "impact", "substrate", "old fabric"))


def test_cautions_every_hazard_a_room_can_have_is_covered():
    """Whatever hazard a room is marked with has a caution of the same name."""
    assert set(HAZARDS) <= set(cautions.CAUTIONS)

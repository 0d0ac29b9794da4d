"""Clamps, props and nuts: slip, pressure, tension, and who looks."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest

from fieldbook.checks.verdict import Word
from tests.findings.hung import BLOCK, CLAMP, HUNG, found
from tests.sites import Surveyed


def clamped(surveyed: Surveyed, **more: Any) -> str:
    """20 kg on one clamp, whose fabric was crushed on the bench."""
    surveyed.book.write("material", BLOCK | {"site": surveyed.site})
    return surveyed.fixing(surveyed.fitting(**HUNG), x_mm=1200, z_mm=1250, **CLAMP | more)


def test_clamp_is_held_against_slip_proof_and_pressure(surveyed: Surveyed) -> None:
    """5 N·m on M8 with K 0.2 is 3 125 N: slips at 2 · 0.4 · 3 125 = 2 500, of which half; presses 1.25 N/mm².

    The load along its jaws is that of shear and pull: √(196.2² + 53.5²) = 203.4 N.
    """
    clamped(surveyed)
    slip, pressure, proof = (found(surveyed, name)[0].verdict for name in ("slip", "pressure", "tightening"))
    assert (slip.figure, slip.limit) == (pytest.approx(203.4, abs=0.1), 1250)
    assert (pressure.figure, pressure.limit) == (pytest.approx(1.625), 2)  # 30 % above the nominal pressure
    assert proof.limit == 21_200  # EN ISO 898-1, M8, class 8.8


@pytest.mark.parametrize(
    ("missing", "question"),
    [
        ("torque_nm", "slip"),
        ("nut_factor", "slip"),
        ("friction", "slip"),
        ("bears_on", "pressure"),
        ("jaw_mm2", "pressure"),
        ("torque_nm", "tightening"),
    ],
)
def test_whatever_a_clamp_needs_is_named(surveyed: Surveyed, missing: str, question: str) -> None:
    """What nobody entered is asked for where it is entered."""
    clamped(surveyed, **{missing: None})
    (one,) = found(surveyed, question)
    assert (one.word, one.missing[0].field) == (Word.NOT_KNOWN, missing)


def test_friction_may_come_from_the_lining_by_its_name(surveyed: Surveyed) -> None:
    """Leather on metal has 0.4 in the table of materials: slips at the same 2 500 N."""
    clamped(surveyed, friction=None, lining="leather on steel")
    assert found(surveyed, "slip")[0].verdict.limit == 1250


def test_stainless_bolt_is_held_to_its_own_yield(surveyed: Surveyed) -> None:
    """M8 A2-70 begins to stretch at 36.6 · 450 = 16 470 N; 1.3 · 3 125 = 4 063 N."""
    clamped(surveyed, grade="A2-70")
    (one,) = found(surveyed, "tightening")
    assert (one.verdict.figure, one.verdict.limit) == (4063, 16_470)


def test_prop_is_pressed_with_all_the_weight(surveyed: Surveyed) -> None:
    """196.2 N on 400 mm² are 0.491 N/mm², against a third of 6, however little it is jammed; 900 N are 2.25.

    How hard is asked for where it is jammed, as between two walls: where nothing holds the thing but such props.
    """
    surveyed.book.write("material", BLOCK | {"site": surveyed.site})
    prop = surveyed.fixing(surveyed.fitting(**HUNG), sort="prop", jaw_mm2=400, bears_on="test block")
    (one,) = found(surveyed, "pressure")
    assert (one.verdict.figure, one.missing[0].field) == (pytest.approx(196.2), "stated_load_n")
    for stated, figure, word in ((100, 0.491, Word.WITHIN), (900, 2.25, Word.OVER)):
        surveyed.book.write("fixing", {"stated_load_n": stated}, item=prop)
        (one,) = found(surveyed, "pressure")
        assert (one.word, one.verdict.figure, one.verdict.limit) == (word, figure, 2)
    surveyed.book.write("fixing", {"stated_load_n": None}, item=prop)
    surveyed.fixing(one.subject.fitting, mark="D1.2", sort="hook", x_mm=1200, z_mm=1150)
    (one,) = found(surveyed, "pressure", "D1.1")
    assert (one.word, one.verdict.figure) == (Word.WITHIN, 0.491)


@pytest.mark.parametrize(
    ("locking", "days", "word"),
    [
        ("lock nut", 200, Word.WITHIN),
        ("lock nut", 10, Word.CLOSE),
        ("lock nut", -1, Word.OVER),
        ("none", 200, Word.OVER),
        (None, 200, Word.NOT_KNOWN),
        ("lock nut", None, Word.NOT_KNOWN),
    ],
)
def test_nut_that_must_stay_tight_is_locked_and_looked_at(
    surveyed: Surveyed, locking: str | None, days: int | None, word: Word
) -> None:
    """A clamp lives by its nut: what keeps it, and the day somebody looks next."""
    looked = None if days is None else (date.today() + timedelta(days)).isoformat()
    clamped(surveyed, locking=locking, looked_at_on=looked)
    assert found(surveyed, "locking")[0].word is word


def test_bolt_without_a_torque_holds_by_its_shape(surveyed: Surveyed) -> None:
    """Its tension is not counted on, and its pull and shear have findings all the same."""
    rail = surveyed.fitting(**HUNG)
    surveyed.fixing(rail, sort="bolt", x_mm=1200, z_mm=1250)
    assert [found(surveyed, name)[0].word for name in ("tightening", "locking")] == [Word.DOES_NOT_APPLY] * 2
    assert found(surveyed, "shear")[0].word is Word.NOT_KNOWN


def test_weight_presses_with_what_it_is_said_to_weigh(surveyed: Surveyed) -> None:
    """A bag of 12 kg is 117.7 N, on a board of 200 × 100 mm 0.006 N/mm²; a third of 6 N/mm² is 2."""
    surveyed.book.write("material", BLOCK | {"site": surveyed.site})
    bag = {"sort": "weight", "x_mm": 1200, "z_mm": 1250, "jaw_mm2": 20_000, "bears_on": "test block"}
    rail = surveyed.fitting(**HUNG)
    surveyed.fixing(rail, stated_load_n=117.7, **bag)
    surveyed.fixing(rail, mark="D1.2", **bag)
    said, blank = (found(surveyed, "pressure", mark)[0] for mark in ("D1.1", "D1.2"))
    assert (said.word, said.verdict.figure, said.verdict.limit) == (Word.WITHIN, 0.006, 2)
    assert [each.field for each in blank.missing] == ["stated_load_n"]


def test_prop_is_pressed_by_people_as_well(surveyed: Surveyed) -> None:
    """(196.2 + 300) / 2500 mm² = 0.199 N/mm² under a prop below something people lean on with 300 N."""
    surveyed.book.write("material", {"site": surveyed.site} | BLOCK)
    shelf = surveyed.fitting(**HUNG | {"climbable": 1, "pull_n": 300})
    surveyed.fixing(shelf, sort="prop", jaw_mm2=2500, bears_on="test block", stated_load_n=100)
    (one,) = found(surveyed, "pressure")
    assert (one.word, one.verdict.figure) == (Word.WITHIN, pytest.approx(0.199, abs=0.001))

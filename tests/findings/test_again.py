"""The figures of loads can be done again by hand, with what the finding hands over."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.calculations.catalogue import calculate
from fieldbook.checks.limits import rounded_up
from fieldbook.findings import Finding
from tests.findings.hung import HUNG, SCREW, STATED, ceiling, found, joist
from tests.findings.test_pulls import screwed
from tests.findings.test_standing import CASE
from tests.sites import Surveyed


def done_again(finding: Finding) -> dict[str, Any]:
    """What the calculation says that a finding names."""
    assert finding.again is not None
    return calculate(finding.again.name, dict(finding.again.payload))


@pytest.mark.parametrize("more", [{}, {"packers_mm": 20}, {"diameter_mm": 5}])
@pytest.mark.parametrize("question", ["pull", "shear", "together", "spacing"])
def test_screw_in_wood_is_done_again(surveyed: Surveyed, question: str, more: dict[str, Any]) -> None:
    """Pull, sideways load, both at once and distances, also over packers, and of a screw too thin for the rule."""
    screwed(surveyed, None, **more)
    surveyed.book.write("fitting", {"centre_out_mm": 60}, item=found(surveyed, "load")[0].subject.id)
    one = found(surveyed, question, "D1.1")[0]
    verdict = done_again(one)["verdict"]
    assert (verdict["figure"], verdict["limit"]) == (one.verdict.figure, one.verdict.limit)


def test_weight_over_four_screws_is_done_again(surveyed: Surveyed) -> None:
    """20 kg in the middle of four: 49.05 N each."""
    rail = surveyed.fitting(**HUNG)
    for number, (x, z) in enumerate(((1050, 1050), (1350, 1050), (1050, 1250), (1350, 1250)), 1):
        surveyed.fixing(rail, mark=f"D1.{number}", x_mm=x, z_mm=z, **SCREW)
    one = found(surveyed, "load")[0]
    again = done_again(one)
    assert again["shear_n"] == pytest.approx([49.05] * 4)
    assert f"{rounded_up(max(again['pull_n']), 0.1):g} N out of it" in one.verdict.sentence


def test_what_tips_is_done_again(surveyed: Surveyed) -> None:
    """The case of 30 kg that people pull at with 60 N."""
    surveyed.fitting(**CASE)
    one = found(surveyed, "tipping")[0]
    assert done_again(one)["verdict"]["figure"] == one.verdict.figure


def test_bolt_between_fittings_is_done_again(surveyed: Surveyed) -> None:
    """Pull and shear together on an M6 of class 8.8."""
    carrier = surveyed.fitting(mark="D2", x_mm=900, z_mm=900, width_mm=600, height_mm=500, climbable=0)
    hung = surveyed.fitting(**HUNG)
    bolt = {"sort": "bolt", "fabric": "another fitting", "other_fitting": carrier, "diameter_mm": 6, "grade": "8.8"}
    bolt |= {"into": "steel strap"}
    for number, x in enumerate((1100, 1300), 1):
        surveyed.fixing(hung, mark=f"D1.{number}", x_mm=x, z_mm=1150, **bolt)
    one = found(surveyed, "together", "D1.1")[0]
    assert done_again(one)["verdict"]["figure"] == one.verdict.figure


@pytest.mark.parametrize("question", ["sliding", "floor"])
def test_what_stands_on_the_floor_is_done_again(surveyed: Surveyed, question: str) -> None:
    """Whether it slides, and what the floor bears."""
    surveyed.book.write("room", {"floor_limit_kn_m2": 3}, item=surveyed.room)
    surveyed.fitting(**CASE | {"floor_friction": 0.3})
    one = found(surveyed, question)[0]
    again = done_again(one)
    told = [(verdict["figure"], verdict["limit"]) for verdict in (*again.get("verdicts", ()), again["verdict"])]
    assert (one.verdict.figure, one.verdict.limit) in told


def test_all_that_uses_a_hold_is_done_again(surveyed: Surveyed) -> None:
    """Two hooks in one hold."""
    hold = {"face": surveyed.face, "mark": "H1", "sort": "frame", "x_mm": 1200, "z_mm": 1250, "may_be_used": "yes"}
    used = surveyed.book.write("hold", hold | {"load_limit_n": 400, "load_said_by": "the keeper"})
    rail = surveyed.fitting(**HUNG)
    for number, x in enumerate((1150, 1250), 1):
        at = {"x_mm": x, "z_mm": 1250, "hold": used, "stated_load_n": 900}
        surveyed.fixing(rail, mark=f"D1.{number}", sort="hook", **at, **STATED)
    one = found(surveyed, "carrier", "D1.1")[0]
    verdict = done_again(one)["verdict"]
    assert (verdict["figure"], verdict["limit"], verdict["word"]) == (one.verdict.figure, 400, str(one.word))


def test_side_of_a_hole_in_masonry_is_done_again(surveyed: Surveyed) -> None:
    """30 mm of a 6 mm hole in limestone of 2 N/mm² bear 6 · 30 · 2 / 3 = 120 N."""
    layers = [["lime plaster", 20, "old"], ["limestone", 400, "old"]]
    surveyed.book.write("face", {"layers": layers}, item=surveyed.face)
    hole = {"hole": "existing", "sort": "machine screw", "penetration_mm": 50, "diameter_mm": 6}
    surveyed.fixing(surveyed.fitting(**HUNG), x_mm=1200, z_mm=1250, **hole)
    one = found(surveyed, "carrier")[0]
    verdict = done_again(one)["verdict"]
    assert (verdict["figure"], verdict["limit"]) == (one.verdict.figure, 120)


def test_distances_overhead_are_done_again(surveyed: Surveyed) -> None:
    """Nothing pushes a screw in a joist of a ceiling: of the edges and ends the unloaded ones hold."""
    face = ceiling(surveyed)
    beam = joist(surveyed, face)
    lamp = surveyed.fitting(**HUNG | {"face": face, "z_mm": 900, "height_mm": 80})
    surveyed.fixing(lamp, face=face, x_mm=1200, z_mm=940, member=beam, **SCREW)
    one = found(surveyed, "spacing")[0]
    again = done_again(one)
    assert again["loaded_edge_mm"] == again["unloaded_edge_mm"]
    assert (again["verdict"]["figure"], again["verdict"]["limit"]) == (one.verdict.figure, one.verdict.limit)

"""How far a fitting stands out at worst: the wall, packers, layers with tolerances, and what it hangs on."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.checks.verdict import Word
from tests.findings.asked import one
from tests.sites import Surveyed


@pytest.fixture
def proud(surveyed: Surveyed) -> Surveyed:
    """A wall that stands 2 mm proud at its left end and 8 at its right, the same at every height."""
    surveyed.looked()
    surface = [[x, z, out] for z in (0, 3000) for x, out in ((0, 2), (1000, 6), (2000, 8), (5000, 8))]
    surveyed.book.write("face", {"surface": surface}, item=surveyed.face)
    return surveyed


def rail(surveyed: Surveyed, *packers: float | None, **more: Any) -> str:
    """A rail of 22 ± 1 mm from x = 1,000 to 2,000, with fixings at its ends and these packers behind them."""
    fitting = surveyed.fitting(**more)
    for number, (x, packer) in enumerate(zip((1000, 2000), packers, strict=False)):
        surveyed.fixing(fitting, mark=f"D1.{number + 1}", x_mm=x, packers_mm=packer)
    return fitting


def test_projection_is_the_wall_the_packers_and_the_layers_at_worst(proud: Surveyed) -> None:
    """At the right end 8 mm of wall and 1 of packers, then 22 + 1: 32 mm. It leaves 8 of the 40 that are clear."""
    proud.limit(sort="flat", projection_mm=40)
    found = one(proud, "projection", rail(proud, 1, 1))
    assert (found.word, found.verdict.figure, found.verdict.limit, found.verdict.margin) == (Word.WITHIN, 32, 40, 8)


def test_wall_between_two_readings_is_as_proud_as_the_prouder(proud: Surveyed) -> None:
    """From x = 200 to 900 it may stand 6 mm proud, as at 1,000: 6 + 22 + 1 = 29 mm, without a fixing on the face."""
    short = proud.fitting(x_mm=200, width_mm=700)
    assert one(proud, "projection", short).verdict.figure == 29


def test_what_it_hangs_on_counts_unless_it_is_among_its_layers(proud: Surveyed) -> None:
    """A panel of 18 mm on the rail at 32 stands at 50; one whose layers name D1 counts it once: 8 + 23 + 18 = 49."""
    carrier = rail(proud, 1, 1)
    panel = proud.fitting(mark="D2", hangs_on=carrier, build_up=[["panel", 18, 0]])
    named = proud.fitting(mark="D3", hangs_on=carrier, build_up=[["rail D1", 23, 0], ["panel", 18, 0]])
    assert one(proud, "projection", panel).verdict.figure == 50
    assert one(proud, "projection", named).verdict.figure == 49


def test_planned_packers_that_are_not_those_the_wall_calls_for_are_told_apart(proud: Surveyed) -> None:
    """From 6 to 8 mm a plumb rail may turn: none are called for. 5 mm behind one end alone would twist it."""
    found = one(proud, "projection", rail(proud, 5, 0))
    assert found.word is Word.OVER
    assert "D1.1 has packers of 5 mm, and the wall calls for 0 mm" in found.verdict.sentence


def test_packers_thicker_by_the_same_agree(proud: Surveyed) -> None:
    """4 mm behind both ends leaves it as plumb, and 4 mm farther out: 8 + 4 + 23 = 35."""
    found = one(proud, "projection", rail(proud, 4, 4))
    assert (found.word, found.verdict.figure) == (Word.WITHIN, 35)


def test_layer_that_stands_for_packers_is_held_to_them(proud: Surveyed) -> None:
    """A layer of 3 ± 1 mm covers packers of 4 and counts once: 8 + 4 + 23 = 35; it does not cover 6."""
    layers = [["packers", 3, 1], ["rail", 22, 1]]
    agreeing = rail(proud, 4, 4, build_up=layers)
    assert one(proud, "projection", agreeing).verdict.figure == 35
    found = one(proud, "projection", rail(proud, 6, 6, build_up=layers, mark="D2"))
    assert found.word is Word.OVER
    assert "3 ± 1 mm" in found.verdict.sentence


def test_packers_nobody_entered_are_asked_for_only_where_they_matter(proud: Surveyed) -> None:
    """31 mm without, up to 31 + 20 = 51 with the packers that are ordinary: 55 mm are enough for both, 35 are not."""
    wide = proud.limit(sort="flat", projection_mm=55)
    fitting = rail(proud, None, None)
    assert one(proud, "projection", fitting).word is Word.CLOSE
    proud.book.write("limit", {"projection_mm": 35}, item=wide)
    found = one(proud, "projection", fitting)
    assert (found.word, found.verdict.figure) == (Word.NOT_KNOWN, 31)
    assert {blank.field for blank in found.missing} == {"packers_mm"}


def test_layers_nobody_entered_are_not_known(proud: Surveyed) -> None:
    """Without a build-up there is no figure to hold against anything."""
    found = one(proud, "projection", proud.fitting(build_up=None))
    assert (found.word, [blank.field for blank in found.missing]) == (Word.NOT_KNOWN, ["build_up"])
    assert found.verdict.figure is None


def test_wall_measured_on_one_side_says_nothing_of_the_other(surveyed: Surveyed) -> None:
    """Readings at the datum, 3,000 mm along and 2,500 up: their triangle ends 900 mm short of the rail's far corner.

    The corner at x 2,900, z 2,380 lies beside x / 3,000 + z / 2,500 = 1, which it passes at 1.92.
    """
    surveyed.book.write("face", {"surface": [[0, 0, 0], [3000, 0, 2], [0, 2500, 1]]}, item=surveyed.face)
    far = surveyed.fitting(x_mm=1900, z_mm=2300, build_up=[["rail", 22, 1]])
    (step, *_) = one(surveyed, "projection", far).verdict.working
    assert step[0] == "wall, not measured"
    near = surveyed.fitting(mark="D2", x_mm=200, z_mm=400, build_up=[["rail", 22, 1]])
    (step, *_) = one(surveyed, "projection", near).verdict.working
    assert step == ("wall, proud at worst", "2 mm")


@pytest.mark.parametrize(("z_mm", "out_mm"), [(900, 158), (500, 559)])
def test_what_stands_on_a_plinth_is_not_in_front_of_it(proud: Surveyed, z_mm: float, out_mm: float) -> None:
    """A case of 150 mm from the wall, 8 proud, on a plinth of 400 ± 1; one that begins below its top is before it."""
    proud.limit(sort="flat", projection_mm=600, hinge_x_mm=None, boxes=None)
    plinth = proud.fitting(x_mm=2000, z_mm=0, width_mm=800, height_mm=900, build_up=[["plinth", 400, 1]])
    case = proud.fitting(
        mark="D2", x_mm=2100, z_mm=z_mm, width_mm=400, height_mm=800, build_up=[["case", 150, 0]], hangs_on=plinth
    )
    assert one(proud, "projection", case).verdict.figure == pytest.approx(out_mm)

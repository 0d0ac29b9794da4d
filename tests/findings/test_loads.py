"""From weight to fixing: where it pulls, what it turns about, and what people add."""

from __future__ import annotations

import pytest

from fieldbook.checks.verdict import Word
from tests.findings.hung import CLAMP, HUNG, SCREW, STATED, ceiling, found, joist
from tests.sites import Surveyed


def test_sixty_kilograms_on_two_screws_overhead_pull_straight(surveyed: Surveyed) -> None:
    """60 kg on two screws overhead is 294.3 N of straight pull each, and no shear.

    60 · 9.81 / 2 = 294.3; raised by 1.35 it is 397.31. Thread 55 in the joist (80 deep, 25 of plaster) counts 49:
    0.52 · 6^-0.5 · 49^-0.1 · 350^0.8 · 0.75 = 11.70; · 6 · 49 = 3439.9; 0.6/1.3 · 3439.9 · 2^0.9/2 = 1481.4.
    """
    face = ceiling(surveyed)
    beam = joist(surveyed, face)
    lamp = surveyed.fitting(**HUNG | {"face": face, "z_mm": 900, "height_mm": 80, "mass_loaded_kg": 60})
    for number, x in enumerate((1100, 1300), 1):
        surveyed.fixing(lamp, face=face, mark=f"D1.{number}", x_mm=x, z_mm=940, member=beam, **SCREW)
    for one in found(surveyed, "pull"):
        assert one.verdict.figure == pytest.approx(397.4, abs=0.05)
        assert one.verdict.limit == pytest.approx(1481.4, abs=0.05)
        assert one.word is Word.WITHIN
    assert {one.word for one in found(surveyed, "shear")} == {Word.DOES_NOT_APPLY}
    assert "294.3 N out of it" in found(surveyed, "load")[0].verdict.sentence


def test_raking_soffit_shares_weight_between_pull_and_shear(surveyed: Surveyed) -> None:
    """Under a face that leans over by 30° half of 20 kg (98.1 N) pulls out and 169.9 N go along it."""
    surveyed.book.write("face", {"slope_deg": 30}, item=surveyed.face)
    rail = surveyed.fitting(**HUNG | {"centre_out_mm": 0})
    surveyed.fixing(rail, x_mm=1200, z_mm=1150, **CLAMP)
    (slip,) = found(surveyed, "slip")
    assert slip.verdict.figure == pytest.approx(196.2, abs=0.1)  # √(98.1² + 169.9²)
    assert "170 N along the face and 98.1 N out of it" in found(surveyed, "load")[0].verdict.sentence


def test_what_bears_on_its_fixings_alone_turns_about_them(surveyed: Surveyed) -> None:
    """20 kg 60 mm out on fixings 160 mm apart pull the upper with 11 772 / 160 = 73.6 N."""
    rail = surveyed.fitting(**HUNG | {"touches_face": 0})
    for number, z in enumerate((1070, 1230), 1):
        surveyed.fixing(rail, mark=f"D1.{number}", sort="hook", x_mm=1200, z_mm=z, stated_load_n=500, **STATED)
    upper = found(surveyed, "pull", "D1.2")[0]
    assert upper.verdict.figure == pytest.approx(73.6, abs=0.05)


def test_nothing_said_of_what_it_bears_on_is_the_worse_case(surveyed: Surveyed) -> None:
    """A blank is no better than bearing on the fixings alone."""
    rail = surveyed.fitting(**HUNG | {"touches_face": None})
    for number, z in enumerate((1070, 1230), 1):
        surveyed.fixing(rail, mark=f"D1.{number}", sort="hook", x_mm=1200, z_mm=z, stated_load_n=500, **STATED)
    assert found(surveyed, "pull", "D1.2")[0].verdict.figure >= 73.5


def test_people_pull_at_the_worst_corner_of_the_outline(surveyed: Surveyed) -> None:
    """100 N at a corner of a rail on two hooks at its ends is all on the nearer, not half.

    Without weight (0.001 kg) hooks at both ends, 400 mm apart, each with 100 N out at the corner beside it.
    """
    light = HUNG | {"mass_loaded_kg": 0.001, "pull_n": 100, "touches_face": 0, "height_mm": 0, "z_mm": 1000}
    rail = surveyed.fitting(**light)
    for number, x in enumerate((1000, 1400), 1):
        surveyed.fixing(rail, mark=f"D1.{number}", sort="hook", x_mm=x, z_mm=1000, stated_load_n=900, **STATED)
    pulls = [one.verdict.figure for one in found(surveyed, "pull")]
    assert pulls == [pytest.approx(pulls[0]), pytest.approx(pulls[0])]
    assert min(pulls) >= 100
    assert min(one.verdict.figure for one in found(surveyed, "shear")) >= 100  # and down on the front edge


def test_climbable_without_a_figure_is_not_known(surveyed: Surveyed) -> None:
    """Where people can climb and nobody says how hard they pull, the pull is asked for."""
    rail = surveyed.fitting(**HUNG | {"climbable": 1})
    surveyed.fixing(rail, x_mm=1200, z_mm=1150, **CLAMP)
    (load,) = found(surveyed, "load")
    assert (load.word, load.missing[0].field) == (Word.NOT_KNOWN, "pull_n")
    (slip,) = found(surveyed, "slip")
    assert slip.word is Word.NOT_KNOWN


@pytest.mark.parametrize(("field", "asked"), [("mass_loaded_kg", "mass_loaded_kg"), ("climbable", "climbable")])
def test_what_nobody_entered_of_a_load_is_asked_for(surveyed: Surveyed, field: str, asked: str) -> None:
    """Without a loaded mass, or without knowing whether people lean on it, nothing is said to hold."""
    rail = surveyed.fitting(**HUNG | {"mass_empty_kg": 3, field: None})
    surveyed.fixing(rail, x_mm=1200, z_mm=1150, **CLAMP)
    for question in ("load", "slip"):
        (one,) = found(surveyed, question)
        assert one.word is Word.NOT_KNOWN
        assert asked in {blank.field for blank in one.missing}


def test_centre_of_mass_lies_no_further_out_than_the_front(surveyed: Surveyed) -> None:
    """With layers of 23 mm in all and no centre entered, 23 mm are taken: 196.2 · 23 / 160 = 28.2 N."""
    rail = surveyed.fitting(**HUNG | {"centre_out_mm": None, "touches_face": 0})
    for number, z in enumerate((1070, 1230), 1):
        surveyed.fixing(rail, mark=f"D1.{number}", sort="hook", x_mm=1200, z_mm=z, stated_load_n=500, **STATED)
    assert found(surveyed, "pull", "D1.2")[0].verdict.figure == pytest.approx(28.3, abs=0.1)


def test_weight_goes_through_what_a_fitting_is_fixed_to(surveyed: Surveyed) -> None:
    """A panel of 10 kg fixed to the rail, though it “hangs on” nothing, weighs on the rail: 30 kg, 294.3 N.

    M = 294.3 · 60; soft ground: ½ · 400 · x² = 10 000 · (150 − x), x = 65.1; T = M / (150 − x/3) = 137.6;
    √(294.3² + 137.6²) = 324.9 N on the clamp.
    """
    rail = surveyed.fitting(**HUNG)
    surveyed.fixing(rail, x_mm=1200, z_mm=1150, **CLAMP)
    panel = surveyed.fitting(**HUNG | {"mark": "D2", "name": "Panel", "mass_loaded_kg": 10})
    joined = {"fabric": "another fitting", "other_fitting": rail, "sort": "bolt"}
    surveyed.fixing(panel, mark="D2.1", x_mm=1200, z_mm=1200, **joined)
    assert found(surveyed, "load", "D1")[0].verdict.figure == pytest.approx(294.3)
    assert found(surveyed, "slip", "D1.1")[0].verdict.figure == pytest.approx(324.9, abs=0.1)
    (order,) = found(surveyed, "order")
    assert "2 stages" in order.verdict.sentence  # the panel comes off first


def test_weights_across_a_corner_keep_their_own_places(surveyed: Surveyed) -> None:
    """What hangs on the next wall pulls where it is, brought into the axes of the wall that carries it.

    The west wall begins at the corner (0, 0) and runs north; x on it is out of the south wall. 10 kg at x = 500 on it,
    50 mm out of it, are 500 mm out of the south wall at x = 50.
    """
    plan = {"start_x_mm": 0, "start_y_mm": 0}
    surveyed.book.write("face", plan | {"bearing_deg": 180}, item=surveyed.face)  # its x runs west, out is north
    size = {"width_mm": 4000, "height_mm": 3000, "sort": "wall", "room": surveyed.room, "name": "Next wall"}
    beside = surveyed.book.write("face", plan | size | {"bearing_deg": 90})  # its x runs north, out is east
    rail = surveyed.fitting(**HUNG | {"mass_loaded_kg": 0.001, "touches_face": 0})
    for number, z in enumerate((1070, 1230), 1):
        surveyed.fixing(rail, mark=f"D1.{number}", sort="hook", x_mm=1200, z_mm=z, stated_load_n=9000, **STATED)
    part = HUNG | {"mark": "D2", "mass_loaded_kg": 10, "centre_out_mm": 50, "x_mm": 300, "face": beside}
    surveyed.fitting(**part | {"hangs_on": rail})
    # 98.1 N · 500 mm / 160 mm = 306.6 N for the upper hook; its arm along x only turns the rail in its plane
    assert found(surveyed, "pull", "D1.2")[0].verdict.figure == pytest.approx(306.6, abs=0.5)
    surveyed.book.write("face", {"bearing_deg": None}, item=beside)
    assert found(surveyed, "pull", "D1.2")[0].word is Word.NOT_KNOWN


def test_weight_that_goes_round_in_a_circle_is_not_known(surveyed: Surveyed) -> None:
    """Two fittings that carry each other carry nothing."""
    rail = surveyed.fitting(**HUNG)
    panel = surveyed.fitting(**HUNG | {"mark": "D2", "hangs_on": rail})
    surveyed.book.write("fitting", {"covers": [panel]}, item=rail)
    joined = {"fabric": "another fitting", "sort": "bolt"}
    surveyed.fixing(panel, mark="D2.1", x_mm=1200, z_mm=1200, other_fitting=rail, **joined)
    (order,) = found(surveyed, "order")
    assert order.word is Word.OVER


def test_fixing_of_which_nothing_is_said_carries_its_share_and_that_is_told(surveyed: Surveyed) -> None:
    """Of two, each takes half of 196.2 N; the load's finding says of which it is assumed."""
    rail = surveyed.fitting(**HUNG | {"centre_out_mm": 0})
    surveyed.fixing(rail, x_mm=1200, z_mm=1150, carries_load=1, sort="hook", stated_load_n=900, **STATED)
    surveyed.fixing(rail, mark="D1.2", x_mm=1200, z_mm=1250, sort="hook", stated_load_n=900, **STATED)
    first, second = (one.verdict.figure for one in found(surveyed, "shear"))
    assert (first, second) == (pytest.approx(98.1), pytest.approx(98.1))
    assert "D1.2" in found(surveyed, "load")[0].assumed[-1]


def test_what_creeps_makes_nobody_elses_share_smaller(surveyed: Surveyed) -> None:
    """Of 196.2 N two screws beside two pads come to carry 98.1 each as the pads creep; a pad 49.05 until then."""
    rail = surveyed.fitting(**HUNG | {"centre_out_mm": 0, "touches_face": 0})
    for number, (x, z) in enumerate(((1100, 1050), (1300, 1050), (1100, 1250), (1300, 1250)), 1):
        sort = "adhesive pad" if z == 1050 else "wood screw"
        surveyed.fixing(rail, mark=f"D1.{number}", x_mm=x, z_mm=z, sort=sort)
    forces = [one.verdict.figure for one in found(surveyed, "shear")]
    assert forces == pytest.approx([49.05, 49.05, 98.1, 98.1], abs=0.1)


def test_what_stands_for_what_is_not_entered_is_said(surveyed: Surveyed) -> None:
    """A wall nobody measured the lean of, a centre of mass nobody entered, and nobody who can lean on it."""
    rail = surveyed.fitting(**HUNG)
    surveyed.fixing(rail, x_mm=1200, z_mm=1150)
    taken = (
        "stands upright; the centre of mass is in the middle of its front view; nobody pulls at what nobody can lean"
    )
    assert any(taken in one for one in found(surveyed, "load")[0].assumed)
    surveyed.book.write("face", {"slope_deg": 0}, item=surveyed.face)
    surveyed.book.write("fitting", {"pull_n": 0, "centre_x_mm": 1200, "centre_z_mm": 1150}, item=rail)
    assert not any("Where nothing else is entered" in one for one in found(surveyed, "load")[0].assumed)


def stacked(surveyed: Surveyed, *sizes: float | None) -> None:
    """A rail of 20 kg, 196.2 N, on bolts good for 100 N, one above the other."""
    rail = surveyed.fitting(**HUNG | {"centre_out_mm": 0})
    for number, size in enumerate(sizes, 1):
        bolt = {"sort": "bolt", "hole": "existing", "stated_load_n": 100, "diameter_mm": size, **STATED}
        surveyed.fixing(rail, mark=f"D1.{number}", x_mm=1200, z_mm=1000 + 90 * number, **bolt)


@pytest.mark.parametrize(("sizes", "newtons"), [((6, 12), (98.1, 130.8)), ((8, 8), (98.1, 98.1))])
def test_thicker_of_two_fixings_takes_more_of_the_load(
    surveyed: Surveyed, sizes: tuple[float, float], newtons: tuple[float, float]
) -> None:
    """Half of 196.2 N each, or by their diameters, 65.4 and 130.8 N: of each fixing the worse counts."""
    stacked(surveyed, *sizes)
    assert [one.verdict.figure for one in found(surveyed, "shear")] == [pytest.approx(force) for force in newtons]


def test_thickness_of_another_fixing_is_asked_for_where_it_leaves_too_much(surveyed: Surveyed) -> None:
    """Beside one of 3 mm, 12 mm take 12 / 15 of 196.2, 157 N; what is no thicker than the other takes half at most."""
    stacked(surveyed, 12, None)
    thick, other = found(surveyed, "shear")
    assert [(blank.item.mark, blank.field) for blank in thick.missing] == [("D1.2", "diameter_mm")]
    assert (other.word, other.verdict.figure) == (Word.CLOSE, pytest.approx(98.1))

"""What fixings hold: in wood, by their own metal, as stated or tested; and both ways at once."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.checks.verdict import Word
from tests.findings.hung import HUNG, SCREW, STATED, ceiling, found, joist
from tests.sites import Surveyed

WALL_BOARD = {"sort": "board", "z_mm": 1100, "height_mm": 100, "behind_mm": 0, "thickness_mm": 60}


def screwed(surveyed: Surveyed, board: dict[str, Any] | None = None, **more: Any) -> str:
    """20 kg hung on two screws in a board of the wall, in a dry room; the centre of mass at the face."""
    surveyed.book.write("room", {"damp": "dry"}, item=surveyed.room)
    beam = joist(surveyed, surveyed.face, **WALL_BOARD | (board or {}))
    rail = surveyed.fitting(**HUNG | {"centre_out_mm": 0})
    for number, x in enumerate((1100, 1300), 1):
        surveyed.fixing(rail, mark=f"D1.{number}", x_mm=x, z_mm=1150, member=beam, **SCREW | more)
    return rail


def test_screw_pushed_sideways_in_a_board_is_held_to_its_rule(surveyed: Surveyed) -> None:
    """98.1 N a screw, 132.4 N with its factor, against the bending of a screw of 6 mm in C24, drilled.

    d_ef 1.1 · 3.6 = 3.96; f = 0.082 · (1 − 0.0396) · 350 = 27.56; M = 0.3 · 400 · 3.96^2.6 = 4 298; length 60 in the
    board: tilting 0.4 · 27.56 · 3.96 · 60 = 2619, bending 1.15 · √(2 · 4298 · 27.56 · 3.96) = 1113.9;
    0.6/1.3 · 1113.9 = 514.1 N.
    """
    screwed(surveyed)
    one = found(surveyed, "shear", "D1.1")[0]
    assert one.verdict.figure == pytest.approx(132.5, abs=0.05)
    assert one.verdict.limit == pytest.approx(514.1, abs=0.3)
    assert one.word is Word.WITHIN


def test_screw_through_packers_bends_over_them(surveyed: Surveyed) -> None:
    """With 20 mm of packers the screw stands out by them and half the 10 mm left in front: 25 mm.

    q = 27.56 · 3.96 = 109.1; P = q (√(25² + 2 · 4298 / q) − 25) = 166.6; 0.6/1.3 · 166.6 = 76.9 N, less than 132.4.
    """
    screwed(surveyed, packers_mm=20)
    one = found(surveyed, "shear", "D1.1")[0]
    assert one.verdict.limit == pytest.approx(76.9, abs=0.3)
    assert one.word is Word.OVER


def test_thread_counts_in_the_wood_that_holds(surveyed: Surveyed) -> None:
    """30 mm from the surface are 5 mm in oak behind 25 mm of plaster, less than six diameters: no hold."""
    surveyed.book.write("room", {"damp": "dry"}, item=surveyed.room)
    layers = [["lime plaster", 25, "old"], ["oak", 60, "old"]]
    surveyed.book.write("face", {"layers": layers}, item=surveyed.face)
    rail = surveyed.fitting(**HUNG)
    surveyed.fixing(rail, x_mm=1200, z_mm=1250, **SCREW | {"penetration_mm": 30})
    (one,) = found(surveyed, "pull")
    assert (one.word, one.verdict.limit) == (Word.OVER, 0)
    assert "5 mm of thread stand in the wood" in one.verdict.sentence


def test_smooth_nail_holds_no_lasting_pull(surveyed: Surveyed) -> None:
    """Whatever its length."""
    surveyed.book.write("room", {"damp": "dry"}, item=surveyed.room)
    beam = joist(surveyed, surveyed.face, **WALL_BOARD)
    rail = surveyed.fitting(**HUNG)
    nail = SCREW | {"sort": "nail", "diameter_mm": 4, "head_mm": 8, "thread_mm": None}
    surveyed.fixing(rail, x_mm=1200, z_mm=1150, member=beam, **nail)
    (one,) = found(surveyed, "pull")
    assert (one.word, one.verdict.limit) == (Word.OVER, 0)


@pytest.mark.parametrize(("grain", "word"), [("out of the face", Word.NOT_KNOWN), (None, Word.NOT_KNOWN)])
def test_end_grain_and_grain_nobody_looked_at_are_not_known(surveyed: Surveyed, grain: str | None, word: Word) -> None:
    """End grain holds no lasting pull by any rule; a board whose grain is not entered may show it."""
    face = ceiling(surveyed)
    beam = joist(surveyed, face, grain=grain)
    lamp = surveyed.fitting(**HUNG | {"face": face, "z_mm": 900})
    surveyed.fixing(lamp, face=face, x_mm=1200, z_mm=950, member=beam, **SCREW)
    assert found(surveyed, "pull")[0].word is word


def test_pull_and_shear_together_are_a_finding_of_their_own(surveyed: Surveyed) -> None:
    """20 kg 60 mm out on one screw: squares of the shares of pull and shear are added."""
    screwed(surveyed)
    surveyed.book.write("fitting", {"centre_out_mm": 60}, item=found(surveyed, "load")[0].subject.id)
    pull, shear, both = (found(surveyed, name, "D1.1")[0].verdict for name in ("pull", "shear", "together"))
    assert (pull.unit, shear.unit, both.unit) == ("N", "N", "%")
    shares = (pull.figure / pull.limit) ** 2 + (shear.figure / shear.limit) ** 2
    assert both.figure == pytest.approx(100 * shares, abs=0.3)


def test_damp_that_nobody_entered_is_asked_for_only_where_the_word_would_change(surveyed: Surveyed) -> None:
    """With a wide margin the damp is not asked for; it is named as taken."""
    screwed(surveyed)
    surveyed.book.write("room", {"damp": None}, item=surveyed.room)
    one = found(surveyed, "shear", "D1.1")[0]
    assert one.word is Word.WITHIN
    assert any("amp" in sentence for sentence in one.assumed)


def test_distances_in_wood_fall_short_at_the_edge(surveyed: Surveyed) -> None:
    """10 mm above the lower edge of a level board, 7 · 6 = 42 mm are asked for of a drilled screw pushed down.

    Table 8.2, drilled, 5 mm and more, force across the grain: (3 + 4 sin 90°) d.
    """
    screwed(surveyed, {"z_mm": 1140})
    one = found(surveyed, "spacing", "D1.1")[0]
    assert (one.word, one.verdict.figure, one.verdict.limit) == (Word.OVER, 10, 42)


def test_distances_need_the_board_to_be_named(surveyed: Surveyed) -> None:
    """How far it is from the edge of a board nobody entered is not known."""
    surveyed.book.write("face", {"layers": [["oak", 60, "old"]]}, item=surveyed.face)
    surveyed.fixing(surveyed.fitting(**HUNG), x_mm=1200, z_mm=1250, **SCREW)
    (one,) = found(surveyed, "spacing")
    assert (one.word, one.missing[0].field) == (Word.NOT_KNOWN, "member")


def test_bolt_that_gave_way_stays_over_whatever_else_is_not_entered(surveyed: Surveyed) -> None:
    """20 kg pull at it already: how thick the other is, and how hard people pull, makes that no better."""
    rail = surveyed.fitting(**HUNG | {"climbable": 1})
    gave_way = {"tested_n": 60, "tested_on": "2026-05-05", "tested_by": "fitter", "tested_held": 0}
    for number, x in enumerate((1100, 1300), 1):
        surveyed.fixing(rail, mark=f"D1.{number}", sort="bolt", hole="existing", x_mm=x, z_mm=1250, **gave_way)
    for one in found(surveyed, "pull"):
        assert (one.word, one.verdict.limit) == (Word.OVER, 0)
        assert "“pull by people” of D1 is not entered; it is so even with 0 N." in one.assumed


@pytest.mark.parametrize(("stated_n", "word"), [(150, Word.OVER), (1500, Word.NOT_KNOWN)])
def test_pull_of_nobody_on_what_people_can_climb_is_asked_for_unless_the_weight_alone_is_too_much(
    surveyed: Surveyed, stated_n: float, word: Word
) -> None:
    """20 kg are 196.2 N sideways, more than 150 already; 0 N of people who can climb on it is no figure."""
    rail = surveyed.fitting(**HUNG | {"centre_out_mm": 0, "climbable": 1, "pull_n": 0})
    surveyed.fixing(rail, sort="hook", x_mm=1200, z_mm=1150, hole="existing", stated_load_n=stated_n, **STATED)
    (one,) = found(surveyed, "shear")
    assert one.word is word
    if word is Word.NOT_KNOWN:
        assert one.missing[0].field == "pull_n"


@pytest.mark.parametrize("sort", ["hook", "strap", "magnet", "adhesive pad", "machine screw"])
def test_every_sort_that_carries_has_a_finding(surveyed: Surveyed, sort: str) -> None:
    """With nothing stated it is not known, with the figure; a load stated by an engineer gives the limit."""
    surveyed.book.write("face", {"layers": [["limestone", 400, "old"]]}, item=surveyed.face)
    rail = surveyed.fitting(**HUNG | {"centre_out_mm": 0})
    fixing = surveyed.fixing(rail, sort=sort, x_mm=1200, z_mm=1150, hole="existing")
    (one,) = found(surveyed, "shear")
    assert (one.word, one.verdict.figure) == (Word.NOT_KNOWN, pytest.approx(196.2))
    assert one.missing[0].field == "stated_load_n"
    surveyed.book.write("fixing", {"stated_load_n": 300} | STATED | {"stated_by": "structural engineer"}, item=fixing)
    (one,) = found(surveyed, "shear")
    assert (one.word, one.verdict.figure, one.verdict.limit) == (Word.WITHIN, pytest.approx(196.2), 300)
    assert "Stated by the structural engineer on 3\u00a0February 2026 (data sheet 4)" in one.verdict.sentence


def test_load_stated_by_nobody_entitled_gives_no_limit(surveyed: Surveyed) -> None:
    """What somebody says who may not state it settles nothing."""
    rail = surveyed.fitting(**HUNG)
    said = STATED | {"stated_by": "other"}
    surveyed.fixing(rail, sort="hook", x_mm=1200, z_mm=1150, stated_load_n=900, **said)
    assert found(surveyed, "shear")[0].word is Word.NOT_KNOWN


def test_pull_on_the_spot_does_not_settle_what_hangs_for_good_in_wood(surveyed: Surveyed) -> None:
    """A plug in stone pulled with 600 N carries 196.2 of 400 N; the same in wood is reckoned all the same."""
    surveyed.book.write("face", {"layers": [["limestone", 400, "old"]]}, item=surveyed.face)
    rail = surveyed.fitting(**HUNG | {"centre_out_mm": 0})
    pulled = {"tested_n": 600, "tested_on": "2026-05-04", "tested_by": "fitter", "tested_held": 1, "adhesive": 0}
    plug = surveyed.fixing(rail, sort="machine screw", x_mm=1200, z_mm=1150, hole="new", trace=None or HOLE, **pulled)
    (one,) = found(surveyed, "shear")
    assert (one.word, one.verdict.limit) == (Word.WITHIN, 400)
    surveyed.book.write("face", {"layers": [["dado", 400, "old"]]}, item=surveyed.face)  # of wood, for all that says
    assert found(surveyed, "shear")[0].word is Word.NOT_KNOWN
    beam = joist(surveyed, surveyed.face, **WALL_BOARD)
    surveyed.book.write("fixing", SCREW | {"member": beam, "diameter_mm": 6}, item=plug)
    surveyed.book.write("room", {"damp": "dry"}, item=surveyed.room)
    (one,) = found(surveyed, "shear")
    assert one.verdict.limit == pytest.approx(514.1, abs=0.3)


HOLE = "a new hole in old fabric"


@pytest.mark.parametrize("sort", ["wedge", "prop", "weight"])
def test_what_only_presses_makes_nobody_elses_share_smaller(surveyed: Surveyed, sort: str) -> None:
    """Two hooks share 196.2 N, whatever presses beside them."""
    rail = surveyed.fitting(**HUNG)
    for number, x in enumerate((1100, 1300), 1):
        at = {"x_mm": x, "z_mm": 1250, "stated_load_n": 300}
        surveyed.fixing(rail, mark=f"D1.{number}", sort="hook", **at, **STATED)
    alone = [found(surveyed, name, "D1.1")[0].verdict.figure for name in ("pull", "shear")]
    surveyed.fixing(rail, mark="D1.3", sort=sort, x_mm=1200, z_mm=1290)
    assert [found(surveyed, name, "D1.1")[0].verdict.figure for name in ("pull", "shear")] == alone
    assert found(surveyed, "pull", "D1.3")[0].word is Word.DOES_NOT_APPLY


def test_bolt_between_two_fittings_is_held_by_its_metal(surveyed: Surveyed) -> None:
    """An M6 of class 4.6 carries 0.6 · 400 · 20.1 / 1.25 = 3 859 N of shear; 196.2 · 1.35 = 264.9 N."""
    rail = surveyed.fitting(**HUNG)
    panel = surveyed.fitting(**HUNG | {"mark": "D2", "centre_out_mm": 0})
    joined = {"fabric": "another fitting", "other_fitting": rail, "hole": "existing", "into": "steel rail"}
    surveyed.fixing(panel, mark="D2.1", sort="bolt", x_mm=1200, z_mm=1150, diameter_mm=6, grade="4.6", **joined)
    one = found(surveyed, "shear", "D2.1")[0]
    assert (one.verdict.figure, one.verdict.limit) == (pytest.approx(264.9, abs=0.05), pytest.approx(3859.2))


@pytest.mark.parametrize(
    ("layer", "more", "asked"),
    [
        ("birch plywood", {"sort": "machine screw"}, "stated_load_n"),  # a threaded insert, its strength its maker's
        ("birch plywood", {"sort": "bolt"}, "grips"),
        ("panel", {"sort": "bolt"}, "into"),
        ("panel", {"sort": "bolt", "into": "oak"}, "grips"),
    ],
)
def test_bolt_is_held_by_its_metal_in_metal_alone(
    surveyed: Surveyed, layer: str, more: dict[str, Any], asked: str
) -> None:
    """The 8 104 N an M6 of class 8.8 bears are none in plywood of 18 mm, and none in what nobody named."""
    rail = surveyed.fitting(**HUNG | {"build_up": [[layer, 18, 0.5]]})
    panel = surveyed.fitting(**HUNG | {"mark": "D2"})
    joined = {"fabric": "another fitting", "other_fitting": rail, "hole": "existing", "penetration_mm": 12}
    surveyed.fixing(panel, mark="D2.1", x_mm=1200, z_mm=1150, diameter_mm=6, grade="8.8", **joined, **more)
    one = found(surveyed, "pull", "D2.1")[0]
    assert (one.word, one.missing[0].field) == (Word.NOT_KNOWN, asked)
    surveyed.book.write("fixing", {"into": "steel strap"}, item=one.subject.id)
    assert found(surveyed, "pull", "D2.1")[0].word is Word.WITHIN


def test_thread_counts_in_the_board_of_a_fitting_no_further_than_that_is_thick(surveyed: Surveyed) -> None:
    """Of 60 mm of thread, 80 mm deep in oak of 36 mm, 16 stand in it, less than six diameters: no hold.

    The thread runs from 20 to 80 mm deep; 36 − 20 = 16.
    """
    surveyed.book.write("room", {"damp": "dry"}, item=surveyed.room)
    rail = surveyed.fitting(**HUNG | {"build_up": [["foam", 4, 1], ["oak board", 36, 0.5]]})
    panel = surveyed.fitting(**HUNG | {"mark": "D2"})
    joined = {"fabric": "another fitting", "other_fitting": rail, "grips": "Oak, European"}
    surveyed.fixing(panel, mark="D2.1", x_mm=1200, z_mm=1150, **SCREW | joined)
    one = found(surveyed, "pull", "D2.1")[0]
    assert (one.word, one.verdict.limit) == (Word.OVER, 0)
    assert "16 mm of thread stand in the wood" in one.verdict.sentence


@pytest.mark.parametrize("deep", [0, 10])
def test_screw_that_ends_before_the_wood_holds_nothing(surveyed: Surveyed, deep: float) -> None:
    """Law 2: 10 mm into 25 of plaster is no better than 5 mm in the oak behind it."""
    surveyed.book.write("room", {"damp": "dry"}, item=surveyed.room)
    layers = [["lime plaster", 25, "old"], ["oak", 60, "old"]]
    surveyed.book.write("face", {"layers": layers}, item=surveyed.face)
    rail = surveyed.fitting(**HUNG)
    surveyed.fixing(rail, x_mm=1200, z_mm=1250, **SCREW | {"penetration_mm": deep})
    for question in ("pull", "shear", "together"):
        assert found(surveyed, question)[0].word is Word.OVER
    assert "0 mm of thread stand in the wood" in found(surveyed, "pull")[0].verdict.sentence


@pytest.mark.parametrize(
    ("layer", "grips", "word"), [("pine boarding", "C24", Word.WITHIN), ("pine boarding", None, Word.NOT_KNOWN)]
)
def test_boards_that_the_layers_name_hold_by_the_species_of_the_fixing(
    surveyed: Surveyed, layer: str, grips: str | None, word: Word
) -> None:
    """Boarding is wood by its name; which species decides, and is asked for.

    60 of 80 mm in boards of 60: thread 40 of a 6 mm screw at 350 kg/m³ stands in them.
    """
    surveyed.book.write("room", {"damp": "dry"}, item=surveyed.room)
    surveyed.book.write("face", {"layers": [[layer, 60, "later"], ["brick", 230, "old"]]}, item=surveyed.face)
    rail = surveyed.fitting(**HUNG)
    for number, x in enumerate((1100, 1300), 1):
        surveyed.fixing(rail, mark=f"D1.{number}", x_mm=x, z_mm=1150, grips=grips, **SCREW | {"penetration_mm": 60})
    answered = found(surveyed, "pull", "D1.1")[0]
    assert answered.word is word
    if grips is None:
        assert [blank.field for blank in answered.missing] == ["grips"]


def test_what_is_over_by_weight_alone_stays_over_whoever_leans_on_it(surveyed: Surveyed) -> None:
    """20 kg on two hooks of 90 N, 98.1 N each: how hard people pull is not entered, and does not matter."""
    rail = surveyed.fitting(**HUNG | {"centre_out_mm": 0, "climbable": 1})
    for number, x in enumerate((1100, 1300), 1):
        hook = {"sort": "hook", "x_mm": x, "z_mm": 1150, "stated_load_n": 90}
        surveyed.fixing(rail, mark=f"D1.{number}", **hook, **STATED)
    one = found(surveyed, "shear", "D1.1")[0]
    assert (one.word, one.verdict.figure) == (Word.OVER, 98.1)
    assert any("Pull by people" in said or "pull by people" in said for said in one.assumed)


def test_load_agreed_for_a_hold_counts_once_somebody_stated_it(surveyed: Surveyed) -> None:
    """A hook on a hold with 400 N, of which nobody says who stated it, is not known with its 196.2 N; then within."""
    hold = {"face": surveyed.face, "mark": "H1", "sort": "hook", "x_mm": 1200, "z_mm": 1150, "may_be_used": "yes"}
    old = surveyed.book.write("hold", hold | {"load_limit_n": 400})
    rail = surveyed.fitting(**HUNG | {"centre_out_mm": 0})
    surveyed.fixing(rail, sort="hook", x_mm=1200, z_mm=1150, hold=old)
    (one,) = found(surveyed, "shear")
    assert (one.word, one.verdict.figure) == (Word.NOT_KNOWN, pytest.approx(196.2))
    assert one.missing[0].field == "load_said_by"
    surveyed.book.write("hold", {"load_said_by": "the keeper"}, item=old)
    (one,) = found(surveyed, "shear")
    assert (one.word, one.verdict.limit) == (Word.WITHIN, 400)


def test_what_gave_way_holds_nothing_whatever_is_stated_of_it(surveyed: Surveyed) -> None:
    """A hook for which 500 N are stated, and that moved at 60 N, is over with its 196.2 N."""
    rail = surveyed.fitting(**HUNG | {"centre_out_mm": 0})
    pulled = {"tested_n": 60, "tested_on": "2026-05-05", "tested_by": "fitter", "tested_held": 0}
    hook = surveyed.fixing(rail, sort="hook", x_mm=1200, z_mm=1150, stated_load_n=500, **STATED, **pulled)
    (one,) = found(surveyed, "shear")
    assert (one.word, one.verdict.limit) == (Word.OVER, 0)
    surveyed.book.write("fixing", {"tested_held": None}, item=hook)
    (one,) = found(surveyed, "shear")
    assert (one.word, one.missing[0].field) == (Word.NOT_KNOWN, "tested_held")


def test_magnet_holds_sideways_by_friction_with_what_its_maker_states(surveyed: Surveyed) -> None:
    """300 N of straight pull hold 0.4 · 300 = 120 N sideways, less than 196.2 N; without a friction it is not known."""
    rail = surveyed.fitting(**HUNG | {"centre_out_mm": 0})
    magnet = surveyed.fixing(rail, sort="magnet", x_mm=1200, z_mm=1150, stated_load_n=300, **STATED)
    (one,) = found(surveyed, "shear")
    assert (one.word, one.missing[0].field) == (Word.NOT_KNOWN, "friction")
    surveyed.book.write("fixing", {"friction": 0.4}, item=magnet)
    (one,) = found(surveyed, "shear")
    assert (one.word, one.verdict.figure, one.verdict.limit) == (Word.OVER, pytest.approx(196.2), pytest.approx(120))


def test_magnet_overhead_is_held_against_its_straight_pull(surveyed: Surveyed) -> None:
    """Overhead nothing pushes it sideways: 196.2 N against 300 N, and no friction is asked for."""
    face = ceiling(surveyed)
    lamp = surveyed.fitting(**HUNG | {"face": face, "z_mm": 900, "height_mm": 80})
    surveyed.fixing(lamp, face=face, sort="magnet", x_mm=1200, z_mm=940, stated_load_n=300, **STATED)
    (one,) = found(surveyed, "pull")
    assert (one.word, one.verdict.figure, one.verdict.limit) == (Word.WITHIN, pytest.approx(196.2), 300)


def test_figure_stands_for_its_own_question_while_the_limit_is_not_known(surveyed: Surveyed) -> None:
    """Of two hooks of which nothing is stated each carries 98.1 N along the face; the upper is pulled with 73.6 N."""
    rail = surveyed.fitting(**HUNG | {"touches_face": 0})
    for number, z in enumerate((1070, 1230), 1):
        surveyed.fixing(rail, mark=f"D1.{number}", sort="hook", x_mm=1200, z_mm=z)
    assert found(surveyed, "pull", "D1.2")[0].verdict.figure == pytest.approx(73.6, abs=0.05)
    assert found(surveyed, "shear", "D1.2")[0].verdict.figure == pytest.approx(98.1)


@pytest.mark.parametrize("packers", [275, 500])
def test_screw_far_out_of_its_board_is_over_however_far(surveyed: Surveyed, packers: float) -> None:
    """An arm of 275 mm or more tilts a screw under a few newtons: 98.1 N on it are over, and never not known."""
    screwed(surveyed, {"behind_mm": 15}, packers_mm=packers, length_mm=900)
    assert found(surveyed, "shear", "D1.1")[0].word is Word.OVER


def test_pull_on_what_may_be_glued_asks_whether_it_is(surveyed: Surveyed) -> None:
    """Glue lets go in time: a pull settles nothing until somebody says that there is none."""
    surveyed.book.write("face", {"layers": [["limestone", 400, "old"]]}, item=surveyed.face)
    pulled = {"tested_n": 600, "tested_on": "2026-05-04", "tested_by": "fitter", "tested_held": 1}
    rail = surveyed.fitting(**HUNG | {"centre_out_mm": 0})
    surveyed.fixing(rail, sort="machine screw", x_mm=1200, z_mm=1150, hole="new", trace=HOLE, **pulled)
    (one,) = found(surveyed, "shear")
    assert (one.word, [blank.field for blank in one.missing]) == (Word.NOT_KNOWN, ["adhesive"])


def test_both_ways_at_once_is_not_known_where_no_rule_says_what_one_of_them_holds(surveyed: Surveyed) -> None:
    """2 kg on two screws 40 mm out of the wood, more than ten times their 3.96 mm, however little that uses.

    The load is told all the same: 2 · 9.81 / 2 · 1.35 = 13.25 N sideways on each.
    """
    rail = screwed(surveyed, packers_mm=40)
    surveyed.book.write("fitting", {"mass_loaded_kg": 2, "centre_out_mm": 60}, item=rail)
    shear, both = (found(surveyed, name, "D1.1")[0] for name in ("shear", "together"))
    assert (shear.word, shear.verdict.figure) == (Word.NOT_KNOWN, pytest.approx(13.25, abs=0.06))
    assert (both.word, both.verdict.figure, both.again) == (Word.NOT_KNOWN, None, None)


def test_end_grain_is_not_known_both_ways_at_once_and_with_one_lost(surveyed: Surveyed) -> None:
    """30 kg on four screws into the end of a timber: no rule says what any three of them hold, nor all."""
    rail = screwed(surveyed, {"grain": "out of the face", "height_mm": 300, "z_mm": 1000})
    surveyed.book.write("fitting", {"mass_loaded_kg": 30, "centre_out_mm": 60}, item=rail)
    beam = found(surveyed, "carrier", "D1.1")[0].against
    for number, x in enumerate((1100, 1300), 3):
        surveyed.fixing(rail, mark=f"D1.{number}", x_mm=x, z_mm=1250, member=beam.id, **SCREW)
    assert {found(surveyed, name, "D1.1")[0].word for name in ("pull", "shear", "together")} == {Word.NOT_KNOWN}
    (lost,) = found(surveyed, "one-lost")
    assert (lost.word, lost.verdict.figure) == (Word.NOT_KNOWN, None)
    assert "end grain" in lost.verdict.sentence


def test_what_is_more_than_the_rules_take_is_over_all_the_same(surveyed: Surveyed) -> None:
    """10 t held 10 m out pull with more than 1,000,000 N, the most that is entered as a load, and are told in full."""
    rail = screwed(surveyed)
    surveyed.book.write("fitting", {"mass_loaded_kg": 10_000, "centre_out_mm": 10_000}, item=rail)
    assert {found(surveyed, name, "D1.1")[0].word for name in ("pull", "shear", "together")} == {Word.OVER}
    assert found(surveyed, "pull", "D1.1")[0].verdict.figure > 1.35e6
    assert found(surveyed, "one-lost")[0].word is Word.OVER


@pytest.mark.parametrize(
    ("screw", "why"),
    [
        ({"penetration_mm": 20}, "below 36 mm (six diameters) they count for nothing. Use a longer screw."),
        ({"sort": "nail"}, "A smooth nail holds no lasting pull"),
    ],
)
def test_pull_with_shear_says_what_holds_no_pull(surveyed: Surveyed, screw: dict[str, Any], why: str) -> None:
    """What holds no pull at all is used without end: that is said, with what to do, and no share of it is told."""
    surveyed.book.write("fitting", {"centre_out_mm": 60}, item=screwed(surveyed, **screw))
    one = found(surveyed, "together", "D1.1")[0]
    assert (one.word, one.verdict.figure, one.verdict.limit) == (Word.OVER, None, 100)
    assert one.verdict.sentence.startswith("The fastener is pushed sideways as well, and of the pull on it it holds")
    assert why in one.verdict.sentence

"""What stands on the floor, and what stays up when one fixing lets go."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.checks.verdict import Word
from tests.findings.hung import HUNG, SCREW, STATED, ceiling, found, joist
from tests.sites import Surveyed

CASE: dict[str, Any] = {
    "x_mm": 1000,
    "z_mm": 0,
    "width_mm": 800,
    "height_mm": 1500,
    "support": "the floor",
    "base_mm": 400,
    "base_width_mm": 800,
    "stands_on": "all of its base",
    "mass_empty_kg": 30,
    "mass_loaded_kg": 50,
    "mass_is": "weighed",
    "centre_out_mm": 200,
    "pull_n": 60,
    "climbable": 0,
    "build_up": [["case", 400, 0]],
}


def test_case_that_people_pull_at_tips(surveyed: Surveyed) -> None:
    """60 N at 1 500 mm tip with 1.5 · 60 · 1 500 = 135 000; 30 kg empty steady 0.9 · 294.3 · 200 less the fall.

    The floor's fall of 1 % moves the centre by 7.5 mm: 0.9 · 294.3 · 192.5 = 50 987 N·mm; 264.8 %.
    """
    surveyed.fitting(**CASE)
    (one,) = found(surveyed, "tipping")
    assert one.word is Word.OVER
    assert one.verdict.figure == pytest.approx(264.8, abs=0.2)
    assert any("is not entered; 10 mm on a metre" in sentence for sentence in one.assumed)


def test_standing_case_slides_by_the_lighter_of_its_masses(surveyed: Surveyed) -> None:
    """1.5 · 60 + 1.1 · 0.01 · 294.3 = 93.24 N against 0.2 · 0.9 · 294.3 = 52.97 N: 176 %."""
    surveyed.fitting(**CASE)
    (one,) = found(surveyed, "sliding")
    assert (one.word, one.verdict.figure) == (Word.OVER, pytest.approx(176.1, abs=0.2))


@pytest.mark.parametrize(("limit", "word"), [(2.0, Word.WITHIN), (1.0, Word.OVER), (None, Word.NOT_KNOWN)])
def test_floor_is_held_to_what_it_is_said_to_bear(surveyed: Surveyed, limit: float | None, word: Word) -> None:
    """50 kg over 0.8 · 0.4 m² are 490.5 / 0.32 = 1.533 kN/m²; the figure stands without a limit."""
    surveyed.book.write("room", {"floor_limit_kn_m2": limit}, item=surveyed.room)
    surveyed.fitting(**CASE)
    (one,) = found(surveyed, "floor")
    assert (one.word, one.verdict.figure) == (word, pytest.approx(1.54, abs=0.011))


def test_mass_known_only_as_at_most_steadies_nothing(surveyed: Surveyed) -> None:
    """What may be lighter may tip."""
    surveyed.fitting(**CASE | {"mass_is": "at most", "pull_n": 1})
    assert found(surveyed, "tipping")[0].word is Word.NOT_KNOWN


def test_what_ends_near_the_floor_says_what_holds_it_up(surveyed: Surveyed) -> None:
    """A blank is asked for there; what ends a metre up hangs."""
    surveyed.fitting(**CASE | {"support": None})
    (one,) = found(surveyed, "tipping")
    assert (one.word, one.missing[0].field) == (Word.NOT_KNOWN, "support")
    surveyed.book.write("fitting", {"z_mm": 1000}, item=one.subject.id)
    assert found(surveyed, "tipping")[0].word is Word.DOES_NOT_APPLY


def overhead(surveyed: Surveyed, *places: int, mass: float = 12) -> None:
    """A lamp of some mass on a joist of the ceiling, 400 mm from x = 1 000, with screws at these x."""
    face = ceiling(surveyed)
    beam = joist(surveyed, face)
    lamp = surveyed.fitting(**HUNG | {"face": face, "z_mm": 900, "height_mm": 100, "mass_loaded_kg": mass})
    for number, x in enumerate(places, 1):
        surveyed.fixing(lamp, face=face, mark=f"D1.{number}", x_mm=x, z_mm=950, member=beam, **SCREW)


FRONT_HEAVY: dict[str, Any] = {
    "support": "the floor and its fixings",
    "height_mm": 2000,
    "base_mm": 100,
    "centre_out_mm": 400,
    "mass_loaded_kg": 60,
    "pull_n": 0,
    "touches_face": 0,
    "build_up": [["case", 800, 0]],
}


def bracketed(surveyed: Surveyed, **more: Any) -> str:
    """A case that stands on the floor and is kept from tipping by one screw in a board 1,900 mm up."""
    surveyed.book.write("room", {"damp": "dry"}, item=surveyed.room)
    size = {"z_mm": 1800, "height_mm": 200, "behind_mm": 0, "thickness_mm": 60}
    board = joist(surveyed, surveyed.face, sort="board", **size)
    case = surveyed.fitting(**CASE | FRONT_HEAVY | more)
    surveyed.fixing(case, x_mm=1400, z_mm=1900, member=board, **SCREW)
    return case


def test_what_stands_out_beyond_its_base_pulls_at_its_fixings(surveyed: Surveyed) -> None:
    """60 kg 300 mm in front of the base, 10 more by the floor's fall, 1 900 mm up: 588.6 · 310 / 1 900 = 96.03 N."""
    bracketed(surveyed)
    (pull,), (board,) = found(surveyed, "pull"), found(surveyed, "carrier")
    assert pull.verdict.figure == pytest.approx(1.35 * 96.04, abs=0.1)
    assert board.verdict.figure == pytest.approx(96.04, abs=0.1)
    assert found(surveyed, "one-lost")[0].word is Word.OVER


def test_case_that_nothing_but_people_tips_hangs_on_no_fixing(surveyed: Surveyed) -> None:
    """Its centre, 400 mm out, is above its base of 800 mm: nothing pulls for good."""
    bracketed(surveyed, base_mm=800)
    assert found(surveyed, "pull")[0].word is Word.DOES_NOT_APPLY
    (lost,) = found(surveyed, "one-lost")
    assert (lost.word, "by its own weight" in lost.verdict.sentence) == (Word.DOES_NOT_APPLY, True)


def test_how_deep_a_base_is_is_asked_where_it_decides(surveyed: Surveyed) -> None:
    """900 kg on 10 mm of base pull 8 829 · 400 / 1 900 = 1 859 N, too much for the screw; on 800 mm nothing pulls."""
    bracketed(surveyed, base_mm=None, mass_loaded_kg=900)
    assert [blank.field for blank in found(surveyed, "pull")[0].missing] == ["base_mm"]


def test_base_that_decides_nothing_is_not_asked_for(surveyed: Surveyed) -> None:
    """On 10 mm of base 60 kg pull 588.6 · 400 / 1 900 = 123.9 N, which the screw holds."""
    bracketed(surveyed, base_mm=None)
    (pull,) = found(surveyed, "pull")
    assert (pull.word, pull.verdict.figure) == (Word.WITHIN, pytest.approx(1.35 * 123.92, abs=0.1))


def test_overhead_thing_on_one_screw_falls_when_it_lets_go(surveyed: Surveyed) -> None:
    """Nothing else holds, whatever the one may bear."""
    overhead(surveyed, 1200)
    (one,) = found(surveyed, "one-lost")
    assert one.word is Word.OVER
    assert "Nothing else holds" in one.verdict.sentence


def test_overhead_thing_on_many_screws_holds_without_any_one(surveyed: Surveyed) -> None:
    """12 kg on six screws; and at least two must be in before anyone lets go."""
    overhead(surveyed, 1010, 1090, 1170, 1230, 1310, 1390)
    (one,) = found(surveyed, "one-lost")
    assert one.word in {Word.WITHIN, Word.CLOSE}
    assert "must be in" in one.verdict.sentence


def test_light_thing_within_reach_need_not_hold_without_one(surveyed: Surveyed) -> None:
    """Up to 25 kg below 1 800 mm the question does not concern it; above 25 kg it does."""
    rail = surveyed.fitting(**HUNG)
    surveyed.fixing(rail, sort="hook", x_mm=1200, z_mm=1250, stated_load_n=900, **STATED)
    assert found(surveyed, "one-lost")[0].word is Word.DOES_NOT_APPLY
    surveyed.book.write("fitting", {"mass_loaded_kg": 26}, item=rail)
    assert found(surveyed, "one-lost")[0].word is Word.OVER


@pytest.mark.parametrize(("low", "word"), [(100, Word.WITHIN), (601, Word.NOT_KNOWN)])
def test_what_hangs_above_the_floor_does_not_stand_on_it(surveyed: Surveyed, low: float, word: Word) -> None:
    """Said to stand on the floor, with its lower edge 601 mm above it: a height or a word is wrong."""
    surveyed.fitting(**CASE | {"z_mm": low, "pull_n": 0, "climbable": 0})
    for question in ("tipping", "load"):
        assert found(surveyed, question)[0].word is word


def test_centre_of_mass_that_is_not_entered_is_asked_for_where_it_decides(surveyed: Surveyed) -> None:
    """Between a centre over its front edge, which tips by itself, and one at the wall nothing is said of tipping."""
    case = surveyed.fitting(**CASE | {"centre_out_mm": None, "pull_n": 20})
    (one,) = found(surveyed, "tipping")
    assert (one.word, [blank.field for blank in one.missing]) == (Word.NOT_KNOWN, ["centre_out_mm"])
    surveyed.book.write("fitting", {"centre_out_mm": CASE["centre_out_mm"]}, item=case)
    assert found(surveyed, "tipping")[0].word is not Word.NOT_KNOWN


FLAT: dict[str, Any] = {"floor": [[0, 0], [5000, 0]], "floor_falls_mm_m": 0}
PANEL: dict[str, Any] = HUNG | {"mark": "D2", "x_mm": 1100, "z_mm": 900, "mass_empty_kg": 5, "mass_loaded_kg": 5}
PANEL |= {"mass_is": "weighed", "build_up": [["panel", 20, 0]], "centre_out_mm": 400}


def test_people_who_pull_at_what_hangs_on_a_standing_case_tip_the_case(surveyed: Surveyed) -> None:
    """40 N at the panel's top, 1 200 mm: 1.5 · 40 · 1 200 = 72 000, and no more from its weight over the front edge.

    30 kg empty steady 0.9 · 294.3 · 200 = 52 974 N·mm: 135.9 %.
    """
    surveyed.book.write("face", FLAT, item=surveyed.face)
    case = surveyed.fitting(**CASE | {"pull_n": 0, "climbable": 0})
    panel = surveyed.fitting(**PANEL | {"hangs_on": case, "pull_n": 40})
    assert found(surveyed, "tipping", "D1")[0].verdict.figure == pytest.approx(135.9, abs=0.1)
    surveyed.book.write("fitting", {"pull_n": 0}, item=panel)
    assert found(surveyed, "tipping", "D1")[0].word is Word.WITHIN


def test_everyone_at_once_tips_a_case_more_than_one_of_them(surveyed: Surveyed) -> None:
    """20 N at 1 500 mm and 20 N at 1 200: 1.5 · (30 000 + 24 000) = 81 000 of 52 974 N·mm, 152.9 %."""
    surveyed.book.write("face", FLAT, item=surveyed.face)
    case = surveyed.fitting(**CASE | {"pull_n": 20})
    surveyed.fitting(**PANEL | {"hangs_on": case, "pull_n": 20})
    assert found(surveyed, "tipping", "D1")[0].verdict.figure == pytest.approx(152.9, abs=0.1)


def test_an_empty_case_is_tipped_by_what_hangs_loaded_beside_it(surveyed: Surveyed) -> None:
    """30 kg, its middle 160 mm beyond the end: 1.1 · 294.3 · 160 = 51 797; the case steadies empty.

    0.9 · 294.3 · 400 = 105 948 N·mm: 48.9 %, where all of it loaded gave 29.4.
    """
    surveyed.book.write("face", FLAT, item=surveyed.face)
    case = surveyed.fitting(**CASE | {"pull_n": 0, "climbable": 0})
    surveyed.fitting(
        **PANEL | {"hangs_on": case, "x_mm": 1760, "mass_loaded_kg": 30, "centre_out_mm": 200, "pull_n": 0}
    )
    assert found(surveyed, "tipping", "D1")[0].verdict.figure == pytest.approx(48.9, abs=0.1)


def test_what_hangs_on_a_case_steadies_it_only_while_it_is_there(surveyed: Surveyed) -> None:
    """A panel of 50 kg low on a case that is pulled at may be off: 135 000 of 52 974 N·mm, 254.9 %, with or without."""
    surveyed.book.write("face", FLAT, item=surveyed.face)
    case = surveyed.fitting(**CASE)
    alone = found(surveyed, "tipping", "D1")[0].verdict.figure
    surveyed.fitting(**PANEL | {"hangs_on": case, "mass_loaded_kg": 50, "mass_empty_kg": 50, "centre_out_mm": 200})
    hung = found(surveyed, "tipping", "D1")[0]
    assert alone == hung.verdict.figure == pytest.approx(254.9, abs=0.1)
    assert any("may be off" in sentence for sentence in hung.assumed)


def test_weight_on_the_front_of_what_hangs_on_a_case_acts_in_front_of_the_case(surveyed: Surveyed) -> None:
    """A shelf 100 mm deep on a bracket of 300: 200 N on its edge turn about the wall with 400 mm, not with 100.

    One screw row 250 mm above the foot it bears on: the pull of both is at least 200 · 400 / 290 N by hand.
    """
    bracket = surveyed.fitting(**HUNG | {"mass_loaded_kg": 0, "build_up": [["bracket", 300, 0]]})
    for number, x in enumerate((1100, 1300), 1):
        surveyed.fixing(bracket, mark=f"D1.{number}", x_mm=x, z_mm=1290, **SCREW)
    shelf = HUNG | {"mark": "D2", "hangs_on": bracket, "mass_loaded_kg": 0, "pull_n": 200, "climbable": 1}
    surveyed.fitting(**shelf | {"build_up": [["shelf", 100, 0]], "height_mm": 10, "z_mm": 1000})
    lines = [one.verdict.sentence for one in found(surveyed, "load", "D1")]
    pull = float(lines[0].split(" N along the face and ")[1].split(" N out")[0])
    assert 2 * pull >= 200 * 400 / 290


@pytest.mark.parametrize(
    ("foot", "figure"),
    [
        ({}, 264.8),  # 200 mm inside the front edge, as above
        ({"base_width_mm": 300}, 357.7),  # 150 mm inside its ends, less 7.5 of fall: 0.9 · 294.3 · 142.5 = 37 744 N·mm
        # One of three feet at the face: (800 - 600) / √2 = 141.4 mm inside the slanting edges, less 7.5 of fall:
        # 0.9 · 294.3 · 133.9 = 35 471 N·mm.
        ({"stands_on": "three feet"}, 380.6),
    ],
)
def test_case_tips_about_what_it_stands_on(surveyed: Surveyed, foot: dict[str, Any], figure: float) -> None:
    """60 N at 1 500 mm, half as much again, are 135 000 N·mm; what steadies turns about the nearest edge."""
    surveyed.fitting(**CASE | foot)
    assert found(surveyed, "tipping")[0].verdict.figure == pytest.approx(figure, abs=0.1)


ON_TOP: dict[str, Any] = {
    "mark": "D2",
    "z_mm": 905,
    "height_mm": 900,
    "base_mm": 150,
    "base_out_mm": 125,
    "support": None,
    "pull_n": 40,
}


@pytest.mark.parametrize(
    ("more", "figure"),
    [
        ({}, 291.0),
        ({"base_out_mm": None}, None),  # its base at the wall, its centre 200 mm out: nothing steadies it
        ({"z_mm": 880}, 282.0),  # 20 mm lower, as with a rim about it: 52 800 over 0.9 · 294.3 · (75 − 4.3)
    ],
)
def test_case_that_stands_loose_on_a_plinth_tips_off_it(
    surveyed: Surveyed, more: dict[str, Any], figure: float | None
) -> None:
    """40 N at 905 mm above the plinth tip with 1.5 · 40 · 905 = 54 300 about the front of its base, 75 mm from its
    centre: 0.9 · 294.3 · (75 − 455 / 100) = 18 660 N·mm; 291 %.
    """
    plinth = surveyed.fitting(**CASE | {"height_mm": 900, "carries_kg": 80})
    surveyed.fitting(**CASE | ON_TOP | {"hangs_on": plinth} | more)
    (one,) = found(surveyed, "tipping", "D2")
    assert one.word is Word.OVER
    if figure is not None:
        assert one.verdict.figure == pytest.approx(figure, abs=0.5)
    assert found(surveyed, "floor", "D2")[0].word is Word.DOES_NOT_APPLY


def test_what_hangs_beside_its_carrier_or_is_fastened_does_not_stand_on_it(surveyed: Surveyed) -> None:
    """One that begins 400 mm below the top hangs in front of it; one with a fixing is held by that."""
    plinth = surveyed.fitting(**CASE | {"height_mm": 900, "carries_kg": 80})
    hung = surveyed.fitting(**CASE | ON_TOP | {"hangs_on": plinth, "z_mm": 500})
    assert found(surveyed, "tipping", "D2")[0].word is Word.DOES_NOT_APPLY
    surveyed.book.write("fitting", {"z_mm": 900}, item=hung)
    assert found(surveyed, "tipping", "D2")[0].word is not Word.DOES_NOT_APPLY
    surveyed.fixing(hung, mark="D2.1", sort="hook", x_mm=1200, z_mm=1000)
    assert found(surveyed, "tipping", "D2")[0].word is Word.DOES_NOT_APPLY


def test_floor_that_falls_away_from_the_wall_tips_though_it_is_level_along_it(surveyed: Surveyed) -> None:
    """40 mm on a metre move a centre at 750 mm by 30: 0.9 · 294.3 · 170 = 45 028 N·mm, 299.8 %; a blank is 10 mm."""
    surveyed.book.write("face", {"floor": [[0, 0], [5000, 0]]}, item=surveyed.face)
    surveyed.fitting(**CASE)
    assert found(surveyed, "tipping")[0].verdict.figure == pytest.approx(264.8, abs=0.1)
    surveyed.book.write("face", {"floor_falls_mm_m": 40}, item=surveyed.face)
    assert found(surveyed, "tipping")[0].verdict.figure == pytest.approx(299.9, abs=0.1)


@pytest.mark.parametrize(
    ("width", "wide", "word"),
    [(400, None, Word.NOT_KNOWN), (400, 400, Word.CLOSE), (800, None, Word.CLOSE)],
)
def test_how_wide_the_foot_is_is_asked_where_it_decides(
    surveyed: Surveyed, width: float, wide: float | None, word: Word
) -> None:
    """20 N give 45 000 of 50 987 N·mm about the front, 88 %; a foot of 200 mm has 0.9 · 294.3 · 92.5 = 24 500."""
    surveyed.fitting(**CASE | {"width_mm": width, "base_width_mm": wide, "pull_n": 20})
    one = found(surveyed, "tipping")[0]
    assert (one.word, [blank.field for blank in one.missing]) == (word, ["base_width_mm"] * (word is Word.NOT_KNOWN))


def test_three_feet_bear_on_the_floor_between_them(surveyed: Surveyed) -> None:
    """50 kg over half of 0.8 · 0.4 m²: 490.5 / 0.16 = 3.066 kN/m²."""
    surveyed.book.write("room", {"floor_limit_kn_m2": 4}, item=surveyed.room)
    surveyed.fitting(**CASE | {"stands_on": "three feet"})
    one = found(surveyed, "floor")[0]
    assert (one.word, one.verdict.figure) == (Word.WITHIN, pytest.approx(3.07, abs=0.011))
    assert one.left_out

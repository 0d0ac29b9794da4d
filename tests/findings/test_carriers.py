"""What carries: holds, boards, fittings that carry others, masonry; each for all that uses it."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.checks.verdict import Word
from tests.findings.hung import HUNG, SCREW, STATED, ceiling, found, joist
from tests.sites import Surveyed

HOLD: dict[str, Any] = {"sort": "hook", "x_mm": 1200, "z_mm": 1250, "may_be_used": "yes", "mark": "H1"}
SAID = {"load_said_by": "harbour engineer, drawing of 1988"}


def test_loads_on_one_hold_are_added_up(surveyed: Surveyed) -> None:
    """Two fittings of 20 kg on one hook put 2 · √(196.2² + 53.5²) = 406.8 N on it, over the 300 N agreed."""
    hook = surveyed.book.write("hold", HOLD | SAID | {"face": surveyed.face, "load_limit_n": 300})
    for mark in ("D1", "D2"):
        rail = surveyed.fitting(**HUNG | {"mark": mark})
        surveyed.fixing(rail, mark=f"{mark}.1", sort="hook", x_mm=1200, z_mm=1250, hold=hook)
    for one in found(surveyed, "carrier"):
        assert (one.word, one.verdict.limit) == (Word.OVER, 300)
        assert one.verdict.figure == pytest.approx(406.8, abs=0.2)
        assert one.against is not None
        assert one.against.id == hook


@pytest.mark.parametrize("missing", ["load_limit_n", "load_said_by"])
def test_hold_without_a_load_or_without_who_said_it_is_not_known(surveyed: Surveyed, missing: str) -> None:
    """The figure stands all the same."""
    values = HOLD | SAID | {"face": surveyed.face, "load_limit_n": 300, missing: None}
    hook = surveyed.book.write("hold", values)
    surveyed.fixing(surveyed.fitting(**HUNG), sort="hook", x_mm=1200, z_mm=1250, hold=hook)
    (one,) = found(surveyed, "carrier")
    assert (one.word, one.missing[0].field) == (Word.NOT_KNOWN, missing)
    assert one.verdict.figure == pytest.approx(203.4, abs=0.1)
    assert "The figure is 204 N." in one.verdict.sentence  # to three figures, upwards


def test_hold_with_something_of_unknown_load_on_it_is_not_known(surveyed: Surveyed) -> None:
    """As long as the load of one fitting on a hold is not known, nothing is said of the hold."""
    hook = surveyed.book.write("hold", HOLD | SAID | {"face": surveyed.face, "load_limit_n": 900})
    for mark, mass in (("D1", 5), ("D2", None)):
        rail = surveyed.fitting(**HUNG | {"mark": mark, "mass_loaded_kg": mass})
        surveyed.fixing(rail, mark=f"{mark}.1", sort="hook", x_mm=1200, z_mm=1250, hold=hook)
    assert {one.word for one in found(surveyed, "carrier")} == {Word.NOT_KNOWN}


def test_loads_in_one_board_are_added_up(surveyed: Surveyed) -> None:
    """Four screws of two rails of 20 kg at the face put 4 · 98.1 = 392.4 N on the board, over 300."""
    beam = joist(surveyed, surveyed.face, sort="board", load_limit_n=300, behind_mm=0)
    for mark in ("D1", "D2"):
        rail = surveyed.fitting(**HUNG | {"mark": mark, "centre_out_mm": 0})
        for number, x in enumerate((1100, 1300), 1):
            surveyed.fixing(rail, mark=f"{mark}.{number}", x_mm=x, z_mm=1150, member=beam, **SCREW)
    verdict = found(surveyed, "carrier", "D1.1")[0].verdict
    assert (verdict.word, verdict.figure, verdict.limit) == (Word.OVER, pytest.approx(392.4, abs=0.1), 300)


@pytest.mark.parametrize("named", [True, False])
@pytest.mark.parametrize(("limit_n", "word"), [(700, Word.CLOSE), (600, Word.OVER), (None, Word.NOT_KNOWN)])
def test_what_presses_on_a_board_counts_with_what_hangs_on_it(
    surveyed: Surveyed, named: bool, limit_n: float | None, word: Word
) -> None:
    """A prop under 20 kg and a wedge driven with 250 N: 196.2 + 250 N, and 196.2 N of a rail in the same board."""
    board = joist(surveyed, surveyed.face, sort="board", load_limit_n=limit_n, behind_mm=0)
    on_it = {"member": board} if named else {}
    shelf = surveyed.fitting(**HUNG | {"mark": "D1", "centre_out_mm": 0})
    surveyed.fixing(shelf, mark="D1.1", sort="prop", x_mm=1100, z_mm=950, stated_load_n=50, **on_it)
    surveyed.fixing(shelf, mark="D1.2", sort="wedge", x_mm=1300, z_mm=995, stated_load_n=250, **STATED, **on_it)
    rail = surveyed.fitting(**HUNG | {"mark": "D2", "x_mm": 2000, "centre_out_mm": 0})
    for number, x in enumerate((2100, 2300), 1):
        surveyed.fixing(rail, mark=f"D2.{number}", x_mm=x, z_mm=1000, member=board, **SCREW)
    for one in found(surveyed, "carrier"):
        assert one.word is word
        assert one.verdict.figure == pytest.approx(642.4, abs=0.1)


def test_what_presses_on_no_board_has_no_carrier(surveyed: Surveyed) -> None:
    """One board beside it, and none under it."""
    joist(surveyed, surveyed.face, sort="board", x_mm=2000, behind_mm=0)
    surveyed.fixing(surveyed.fitting(**HUNG), sort="prop", x_mm=1100, z_mm=950)
    assert found(surveyed, "carrier")[0].word is Word.DOES_NOT_APPLY


def stud_of_two_rooms(surveyed: Surveyed, **more: Any) -> tuple[str, str]:
    """A stud that bears a rail of 20 kg in one room, and one on a face of the next that bears another."""
    studs = []
    other = surveyed.book.write("room", {"site": surveyed.site, "mark": "R2", "name": "Store"})
    wall = {"room": other, "mark": "R2-S", "name": "Partition", "sort": "wall", "width_mm": 5000, "height_mm": 3000}
    for number, face in enumerate((surveyed.face, surveyed.book.write("face", wall)), 1):
        stud = joist(surveyed, face, sort="stud", mark=f"S{number}", load_limit_n=300, behind_mm=0, **more)
        rail = surveyed.fitting(**HUNG | {"mark": f"D{number}", "face": face, "centre_out_mm": 0})
        for one, x in enumerate((1100, 1300), 1):
            surveyed.fixing(rail, mark=f"D{number}.{one}", face=face, x_mm=x, z_mm=1150, member=stud, **SCREW)
        studs.append(stud)
    return studs[0], studs[1]


def test_stud_that_two_faces_see_carries_what_hangs_on_both(surveyed: Surveyed) -> None:
    """2 · 98.1 = 196.2 N on either side are 392.4 N in one stud, over the 300 agreed; the least limit counts."""
    first, second = stud_of_two_rooms(surveyed)
    surveyed.book.write("member", {"same_as": first, "load_limit_n": 350}, item=second)
    for one in found(surveyed, "carrier"):
        assert (one.word, one.verdict.limit) == (Word.OVER, 300)
        assert one.verdict.figure == pytest.approx(392.4, abs=0.1)
        assert ", also entered as S" in one.verdict.sentence


def test_what_a_stated_load_stops_is_over_whoever_stated_a_lesser(surveyed: Surveyed) -> None:
    """392.4 N are over the 300 that somebody stated; 100, of which nobody knows who did, make that no better."""
    first, second = stud_of_two_rooms(surveyed)
    surveyed.book.write("member", {"same_as": first, "load_limit_n": 100, "load_said_by": None}, item=second)
    for one in found(surveyed, "carrier"):
        assert (one.word, one.verdict.limit) == (Word.OVER, 300)
    surveyed.book.write("member", {"load_limit_n": 500}, item=first)
    for one in found(surveyed, "carrier"):
        assert (one.word, one.missing[0].field) == (Word.NOT_KNOWN, "load_said_by")


def test_whether_a_stud_goes_through_is_asked_where_it_matters(surveyed: Surveyed) -> None:
    """Nobody said that they are two: either may carry both. One that shows on its face alone is another."""
    first, second = stud_of_two_rooms(surveyed)
    for one in found(surveyed, "carrier"):
        assert (one.word, one.missing[0].field) == (Word.NOT_KNOWN, "seen_from")
        assert "392.4 N" in one.verdict.sentence
    surveyed.book.write("member", {"seen_from": "another face too"}, item=first)
    assert found(surveyed, "carrier", "D1.1")[0].missing[0].field == "same_as"
    surveyed.book.write("member", {"seen_from": "this face alone"}, item=second)
    for one in found(surveyed, "carrier"):
        assert (one.word, one.verdict.figure) == (Word.WITHIN, pytest.approx(196.2, abs=0.1))


def test_stud_that_three_faces_may_see_is_asked_about(surveyed: Surveyed) -> None:
    """196.2 N on each of two are within 500 together; a beam over a third room with 196.2 N more is 588.6 N."""
    for stud in stud_of_two_rooms(surveyed):
        surveyed.book.write("member", {"load_limit_n": 500}, item=stud)
    (third,) = (face["id"] for face in surveyed.book.items("face") if face["mark"] == "R2-S")
    wall = {name: surveyed.book.item(third)[1][name] for name in ("room", "name", "sort", "width_mm", "height_mm")}
    face = surveyed.book.write("face", wall | {"mark": "R2-N"})
    stud = joist(surveyed, face, sort="stud", mark="S3", load_limit_n=500, behind_mm=0)
    rail = surveyed.fitting(**HUNG | {"mark": "D3", "face": face, "centre_out_mm": 0})
    for one, x in enumerate((1100, 1300), 1):
        surveyed.fixing(rail, mark=f"D3.{one}", face=face, x_mm=x, z_mm=1150, member=stud, **SCREW)
    for asked in found(surveyed, "carrier"):
        assert (asked.word, asked.missing[0].field) == (Word.NOT_KNOWN, "seen_from")
        assert "588.6 N" in asked.verdict.sentence


@pytest.mark.parametrize("more", [{"sort": "board"}, {"load_limit_n": 900}])
def test_where_it_changes_nothing_it_is_not_asked(surveyed: Surveyed, more: dict[str, Any]) -> None:
    """A board shows one side; 392.4 N are within 900."""
    for stud in stud_of_two_rooms(surveyed):
        surveyed.book.write("member", more, item=stud)
    assert {one.word for one in found(surveyed, "carrier")} == {Word.WITHIN}


@pytest.mark.parametrize(("carries", "word"), [(25, Word.WITHIN), (15, Word.OVER), (None, Word.NOT_KNOWN)])
def test_fitting_carries_what_it_is_made_to_carry(surveyed: Surveyed, carries: float | None, word: Word) -> None:
    """Two panels of 9 kg on a rail are 18 kg, against what it is made to carry besides itself."""
    rail = surveyed.fitting(**HUNG | {"carries_kg": carries})
    for mark in ("D2", "D3"):
        panel = surveyed.fitting(**HUNG | {"mark": mark, "mass_loaded_kg": 9})
        joined = {"fabric": "another fitting", "other_fitting": rail, "sort": "hook"}
        surveyed.fixing(panel, mark=f"{mark}.1", x_mm=1200, z_mm=1250, stated_load_n=900, **joined, **STATED)
    one = found(surveyed, "carrier", "D2.1")[0]
    assert (one.word, one.verdict.figure) == (word, 18)


@pytest.mark.parametrize(("carries", "word"), [(25, Word.WITHIN), (15, Word.OVER), (None, Word.NOT_KNOWN)])
def test_what_is_laid_or_hooked_on_without_fixings_counts_as_well(
    surveyed: Surveyed, carries: float | None, word: Word
) -> None:
    """Two shelves of 9 kg in straps, the lower on the upper, are 18 kg on the rail and 9 kg on the upper shelf."""
    rail = surveyed.fitting(**HUNG | {"carries_kg": carries})
    upper = surveyed.fitting(**HUNG | {"mark": "D2", "mass_loaded_kg": 9, "hangs_on": rail, "carries_kg": 10})
    surveyed.fitting(**HUNG | {"mark": "D3", "mass_loaded_kg": 9, "hangs_on": upper})
    on_rail, on_upper, on_lower = found(surveyed, "carries")
    assert (on_rail.word, on_rail.verdict.figure) == (word, 18)
    assert (on_upper.word, on_upper.verdict.figure, on_upper.verdict.limit) == (Word.CLOSE, 9, 10)
    assert on_lower.word is Word.DOES_NOT_APPLY


def test_hole_in_masonry_is_held_to_its_bearing(surveyed: Surveyed) -> None:
    """6 mm, 30 mm in limestone behind 20 of plaster: 6 · 30 · 2 / 3 = 120 N, less than 196.2."""
    layers = [["lime plaster", 20, "old"], ["limestone", 400, "old"]]
    surveyed.book.write("face", {"layers": layers}, item=surveyed.face)
    hole = {"hole": "existing", "sort": "machine screw", "penetration_mm": 50, "diameter_mm": 6}
    surveyed.fixing(surveyed.fitting(**HUNG), x_mm=1200, z_mm=1250, **hole)
    verdict = found(surveyed, "carrier")[0].verdict
    assert (verdict.word, verdict.figure, verdict.limit) == (Word.OVER, pytest.approx(196.2), 120)


@pytest.mark.parametrize(("deep_mm", "limit"), [(55, 220), (60, 240), (66, 240)])
def test_hole_through_a_thin_wall_bears_on_all_of_it(surveyed: Surveyed, deep_mm: int, limit: int) -> None:
    """6 mm in limestone of 60: 6 · 55 · 2 / 3 = 220 N, 6 · 60 · 2 / 3 = 240 N, and no more nor less farther through."""
    surveyed.book.write("face", {"layers": [["limestone", 60, "later"]]}, item=surveyed.face)
    hole = {"hole": "existing", "sort": "machine screw", "penetration_mm": deep_mm, "diameter_mm": 6}
    surveyed.fixing(surveyed.fitting(**HUNG), x_mm=1200, z_mm=1250, **hole)
    assert found(surveyed, "carrier")[0].verdict.limit == pytest.approx(limit)


@pytest.mark.parametrize(("sort", "needs"), [("magnet", 98.1), ("adhesive pad", 39.24)])
def test_maker_says_nothing_of_the_surface_a_pad_or_magnet_is_on(surveyed: Surveyed, sort: str, needs: float) -> None:
    """39.24 N, by friction of 0.4 as much as 98.1, against 240 N pulled on the spot over 1.5, 160 N.

    An engineer speaks of this very surface.
    """
    plate = surveyed.fitting(**HUNG | {"mass_loaded_kg": 4, "centre_out_mm": 0})
    fixing = surveyed.fixing(plate, sort=sort, x_mm=1200, z_mm=1150, friction=0.4, stated_load_n=300, **STATED)
    (one,) = found(surveyed, "carrier")
    assert (one.word, one.missing[0].field) == (Word.NOT_KNOWN, "tested_n")
    pulled = {"tested_n": 240, "tested_on": "2026-05-04", "tested_by": "fitter", "tested_held": 1}
    surveyed.book.write("fixing", pulled, item=fixing)
    (one,) = found(surveyed, "carrier")
    assert (one.word, one.verdict.figure, one.verdict.limit) == (Word.WITHIN, pytest.approx(needs, abs=0.1), 160)
    other = surveyed.fixing(plate, mark="D1.2", sort=sort, x_mm=1200, z_mm=1150, friction=0.4, carries_load=1)
    surveyed.book.write("fixing", {"stated_load_n": 300} | STATED, item=other)
    assert {one.word for one in found(surveyed, "carrier")} == {Word.WITHIN}
    surveyed.book.withdraw(other)
    surveyed.book.write("fixing", {"tested_held": 0}, item=fixing)
    assert found(surveyed, "carrier")[0].word is Word.OVER
    surveyed.book.write("fixing", {"stated_by": "structural engineer"}, item=fixing)
    assert found(surveyed, "carrier")[0].word is Word.DOES_NOT_APPLY


def test_clamp_on_something_nobody_entered_is_not_known(surveyed: Surveyed) -> None:
    """A flange is an existing hold, with what is agreed for it."""
    surveyed.fixing(surveyed.fitting(**HUNG), x_mm=1200, z_mm=1250)
    (one,) = found(surveyed, "carrier")
    assert (one.word, one.missing[0].field) == (Word.NOT_KNOWN, "hold")


def test_row_of_fixings_puts_no_more_on_a_joist_than_what_hangs_on_it(surveyed: Surveyed) -> None:
    """12 kg on three screws in a row are 117.7 N on the joist, though the middle one alone may come to carry them."""
    face = ceiling(surveyed)
    beam = joist(surveyed, face)
    lamp = surveyed.fitting(**HUNG | {"face": face, "z_mm": 900, "height_mm": 80, "mass_loaded_kg": 12})
    for number, x in enumerate((1050, 1200, 1350), 1):
        surveyed.fixing(lamp, face=face, mark=f"D1.{number}", x_mm=x, z_mm=940, member=beam, **SCREW)
    assert {round(one.verdict.figure or 0, 1) for one in found(surveyed, "carrier")} == {117.8}

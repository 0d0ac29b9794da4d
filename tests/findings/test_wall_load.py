"""What a thin partition carries: all that hangs on both of its sides."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.checks.verdict import Word
from tests.findings.hung import HUNG, found
from tests.findings.test_through import BRICK, partition
from tests.sites import Surveyed

SAID = {"load_said_by": "structural engineer, letter of May"}


def hung(surveyed: Surveyed, **more: Any) -> str:
    """A case of 20 kg on either side of a half-brick wall, and what the store's face is."""
    store = partition(surveyed)
    for mark, face in (("D1", surveyed.face), ("D2", store)):
        surveyed.fitting(**HUNG | {"mark": mark, "face": face} | more)
    return store


@pytest.mark.parametrize(("limit_n", "word"), [(300, Word.OVER), (400, Word.CLOSE), (900, Word.WITHIN)])
@pytest.mark.parametrize("on_this_side", [True, False])
def test_both_sides_of_a_partition_count_together(
    surveyed: Surveyed, limit_n: float, word: Word, on_this_side: bool
) -> None:
    """2 · 20 · 9.81 = 392.4 N, over the 300 agreed for the wall, on whichever side that is entered."""
    store = hung(surveyed)
    surveyed.book.write("face", {"load_limit_n": limit_n} | SAID, item=surveyed.face if on_this_side else store)
    for one in found(surveyed, "wall"):
        assert (one.word, one.verdict.figure, one.verdict.limit) == (word, pytest.approx(392.4), limit_n)


def test_what_people_pull_at_counts(surveyed: Surveyed) -> None:
    """2 · (196.2 + 150) = 692.4 N."""
    hung(surveyed, climbable=1, pull_n=150)
    surveyed.book.write("face", {"load_limit_n": 600} | SAID, item=surveyed.face)
    assert {one.verdict.figure for one in found(surveyed, "wall")} == {692.4}


@pytest.mark.parametrize("missing", ["load_limit_n", "load_said_by"])
def test_partition_of_unknown_strength_is_not_known(surveyed: Surveyed, missing: str) -> None:
    """The figure stands all the same."""
    hung(surveyed)
    surveyed.book.write("face", {"load_limit_n": 900} | SAID | {missing: None}, item=surveyed.face)
    for one in found(surveyed, "wall"):
        assert (one.word, one.missing[0].field, one.verdict.figure) == (Word.NOT_KNOWN, missing, pytest.approx(392.4))


@pytest.mark.parametrize(
    ("face", "fitting"),
    [({"layers": [["rubble stone", 600, "old"]]}, {}), ({}, {"mass_loaded_kg": 12}), ({}, {"support": "the floor"})],
)
def test_thick_walls_light_things_and_what_stands_ask_for_no_load(
    surveyed: Surveyed, face: dict[str, Any], fitting: dict[str, Any]
) -> None:
    """600 mm of rubble; 2 · 117.7 = 235.4 N, no more than 250; or all of it on the floor."""
    hung(surveyed, **({"z_mm": 0} | fitting))
    surveyed.book.write("face", face, item=surveyed.face)
    assert {one.word for one in found(surveyed, "wall", "D1")} == {Word.DOES_NOT_APPLY}


def test_other_side_that_nobody_named_is_asked_for_where_it_decides(surveyed: Surveyed) -> None:
    """196.2 N on one side of a wall good for 250 N, and as much on a wall of the store that may be its other side."""
    store = hung(surveyed)
    surveyed.book.write("face", {"behind": None, "layers": BRICK}, item=store)
    surveyed.book.write("face", {"load_limit_n": 250} | SAID, item=surveyed.face)
    one = found(surveyed, "wall", "D1")[0]
    assert (one.word, one.missing[0].field) == (Word.NOT_KNOWN, "behind")
    surveyed.book.write("face", {"load_limit_n": 900}, item=surveyed.face)
    assert found(surveyed, "wall", "D1")[0].word is Word.WITHIN


def test_what_hangs_on_another_comes_with_it_once(surveyed: Surveyed) -> None:
    """A panel of 5 kg on the case: 392.4 + 49.1 N."""
    hung(surveyed)
    case = found(surveyed, "wall", "D1")[0].subject
    surveyed.fitting(**HUNG | {"mark": "D3", "hangs_on": case.id, "mass_loaded_kg": 5})
    surveyed.book.write("face", {"load_limit_n": 900} | SAID, item=surveyed.face)
    assert {round(one.verdict.figure or 0, 1) for one in found(surveyed, "wall")} == {441.5}


def test_what_is_drawn_on_another_wall_and_fixed_to_this_one_counts(surveyed: Surveyed) -> None:
    """A shelf of 10 kg in the corner, drawn on the next wall and screwed to this one: 392.4 + 98.1 N."""
    hung(surveyed)
    size = {"mark": "R1-E", "name": "East wall", "sort": "wall", "width_mm": 3000, "height_mm": 3000}
    east = surveyed.book.write("face", size | {"room": surveyed.room})
    shelf = surveyed.fitting(**HUNG | {"mark": "D3", "face": east, "x_mm": 0, "mass_loaded_kg": 10})
    surveyed.fixing(shelf, mark="D3.1", face=surveyed.face, x_mm=4990, z_mm=1150)
    surveyed.book.write("face", {"load_limit_n": 900} | SAID, item=surveyed.face)
    assert found(surveyed, "wall", "D1")[0].verdict.figure == pytest.approx(490.5)

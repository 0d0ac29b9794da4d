"""How a screw goes through the layers of a face, held against lengths added up by hand."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.checks import face_layers
from fieldbook.checks.face_layers import FaceLayer
from tests.checks.refusals import check_limits, refused

PLASTER, LATH, CAVITY = FaceLayer("lime plaster", 25, False), FaceLayer("lath", 8, True), FaceLayer("air", 40, False)
STUD, RUBBLE = FaceLayer("oak stud", 100, True), FaceLayer("rubble", None, False)


def test_thirty_from_the_surface_are_five_in_the_wood_behind_plaster():
    """Behind 25 mm of plaster a screw 30 mm into the face stands 5 mm in the wood."""
    found = face_layers.hold([PLASTER, STUD], 30, 30)
    assert (found.reach.layer, found.reach.thread_mm, found.gap_mm, found.through) == (STUD, 5, 25, False)


def test_smooth_shank_in_the_wood_is_not_thread():
    """A thread of 20 mm on a screw 80 mm in leaves 35 mm of smooth shank in the stud behind the plaster."""
    *_, last = face_layers.reaches([PLASTER, STUD], 80, 20)
    assert (last.length_mm, last.thread_mm, last.shank_mm) == (55, 20, 35)


def test_wood_with_most_thread_holds_unless_it_is_said_which():
    """The stud holds behind lath and plaster, with what lies between it and the wood in front as the gap."""
    found = face_layers.hold([PLASTER, LATH, CAVITY, STUD], 110, 60)
    assert (found.reach.layer, found.reach.thread_mm, found.gap_mm) == (STUD, 37, 40)
    lath = face_layers.hold([PLASTER, LATH, CAVITY, STUD], 110, 110, holding=1)
    assert (lath.reach.thread_mm, lath.gap_mm, lath.through) == (8, 25, True)


def test_screw_that_gets_to_no_wood_is_held_by_none():
    """In plaster and rubble no wood holds."""
    assert face_layers.hold([PLASTER, RUBBLE], 60, 60) is None
    assert face_layers.hold([PLASTER, STUD], 25, 25) is None


def test_layer_of_unknown_thickness_hides_what_lies_behind():
    """Going on behind a layer nobody measured, or behind the last, is not known; ending in the last is."""
    assert face_layers.reaches([RUBBLE], 60, 60)[0].length_mm == 60
    with refused("missing", "thickness_mm"):
        face_layers.reaches([RUBBLE, STUD], 60, 60)
    with refused("missing", "layers"):
        face_layers.reaches([PLASTER], 30, 30)


@given(
    st.lists(st.builds(FaceLayer, st.just("x"), st.floats(0, 80), st.booleans()), min_size=1, max_size=6),
    st.floats(0, 300),
    st.floats(0, 300),
)
def test_lengths_in_the_layers_add_up(layers, length_mm, thread_mm):
    """Whatever the layers, the parts add up to the screw, and its thread to its thread."""
    found = face_layers.reaches([*layers, RUBBLE], length_mm, thread_mm)
    assert sum(reach.length_mm for reach in found) == pytest.approx(length_mm)
    assert sum(reach.thread_mm for reach in found) == pytest.approx(min(thread_mm, length_mm), abs=1e-9)
    assert all(min(reach.thread_mm, reach.shank_mm) >= -1e-9 for reach in found)


@given(st.floats(0, 80), st.floats(0, 100), st.floats(0, 100), st.floats(0, 40))
def test_thicker_plaster_never_leaves_more_thread_in_the_wood(plaster_mm, length_mm, thread_mm, more_mm):
    """The same screw never holds deeper behind a thicker layer."""

    def thread(thickness: float) -> float:
        found = face_layers.hold([FaceLayer("plaster", thickness, False), STUD, RUBBLE], length_mm, thread_mm)
        return found.reach.thread_mm if found else 0.0

    assert thread(plaster_mm + more_mm) <= thread(plaster_mm) + 1e-9


def test_lengths_outside_a_wall_are_refused():
    """A screw longer than any, no layers, and a holding layer of plaster are refused."""
    good = {"layers": [PLASTER, RUBBLE], "length_mm": 30.0, "thread_mm": 30.0}
    check_limits(face_layers.reaches, good, "length_mm", 0, 1000)
    check_limits(face_layers.reaches, good, "thread_mm", 0, 1000)
    with refused("out-of-range", "layers"):
        face_layers.reaches([], 30, 30)
    with refused("out-of-range", "thickness_mm"):
        face_layers.reaches([FaceLayer("plaster", -1, False), RUBBLE], 30, 30)
    with refused("not-a-choice", "holding"):
        face_layers.hold([PLASTER, STUD], 60, 60, holding=0)

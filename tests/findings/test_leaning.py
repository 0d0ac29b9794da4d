"""Faces that lean, on which z is no height: what is worked out from heights is not known there."""

from __future__ import annotations

import pytest

from fieldbook.book.gathering import gather
from fieldbook.checks.verdict import Word
from fieldbook.findings.at_point import answer
from tests.findings.asked import TODAY, one
from tests.findings.test_standing import CASE
from tests.sites import Surveyed

EVEN = [[x, z, 0] for x in (0, 5000) for z in (0, 3000)]


def lean(surveyed: Surveyed, **more: object) -> None:
    """A face of which somebody looked for everything, measured even, that leans as said."""
    surveyed.looked()
    surveyed.book.write("face", {"surface": EVEN, **more}, item=surveyed.face)


@pytest.mark.parametrize(
    ("more", "word"),
    [
        ({}, Word.WITHIN),
        ({"slope_deg": 1}, Word.WITHIN),
        ({"slope_deg": 30}, Word.NOT_KNOWN),
        ({"slope_deg": -30}, Word.NOT_KNOWN),
        ({"sort": "other"}, Word.NOT_KNOWN),
    ],
)
def test_headroom_on_a_leaning_face_is_not_known(surveyed: Surveyed, more: dict[str, object], word: Word) -> None:
    """z = 2,100 is clear of 2,000 on a wall; on a face at 30° it is 2,100 · cos 30° = 1,818.7 mm up: heads are."""
    lean(surveyed, **more)
    surveyed.limit(sort="headroom", headroom_mm=2000, projection_mm=100, leaf=None, boxes=None)
    shelf = surveyed.fitting(z_mm=2100, build_up=[["shelf", 150, 1]])
    for question in ("clearance", "projection"):
        found = one(surveyed, question, shelf)
        assert found.word is word
        assert (word is Word.NOT_KNOWN) == ("worked out from heights" in found.verdict.sentence)
    site = gather(surveyed.book, surveyed.site)
    said = answer(site, site[surveyed.face], 1500, 2100, 5, today=TODAY)
    assert said.clear_mm == (100 if word is Word.NOT_KNOWN else None)


def test_what_headroom_does_not_decide_is_decided_on_a_leaning_face(surveyed: Surveyed) -> None:
    """22 + 1 mm are less than the 100 that headroom leaves at any height; a leaf decides whatever the height.

    Shut, the door's far side lies 12 - 50 = -38 mm out of the face: it strikes whatever stands out there.
    """
    lean(surveyed, slope_deg=30)
    surveyed.limit(mark="L2", sort="headroom", headroom_mm=2000, projection_mm=100, leaf=None, boxes=None)
    rail = surveyed.fitting(z_mm=2100, build_up=[["rail", 22, 1]])
    assert one(surveyed, "clearance", rail).word is Word.WITHIN
    surveyed.limit()
    shelf = surveyed.fitting(z_mm=2100, build_up=[["shelf", 150, 1]])
    for question in ("clearance", "projection"):
        found = one(surveyed, question, shelf)
        assert (found.word, found.verdict.figure, found.verdict.limit) == (Word.OVER, 151, -38)


@pytest.mark.parametrize(("slope", "word"), [(0, Word.OVER), (30, Word.NOT_KNOWN)])
def test_tipping_before_a_leaning_face_is_not_known(surveyed: Surveyed, slope: float, word: Word) -> None:
    """The top that people pull at is z + height above the floor on an upright face alone."""
    lean(surveyed, slope_deg=slope)
    assert one(surveyed, "tipping", surveyed.fitting(**CASE)).word is word


def test_lift_off_a_leaning_face_is_not_known_and_off_a_ceiling_begins_at_its_height(surveyed: Surveyed) -> None:
    """Off a ceiling 2,000 mm up, wherever z is, down to the floor: 7 kg close to the body (HSE INDG143, women)."""
    case = surveyed.fitting(z_mm=10, height_mm=1600, mass_empty_kg=5, lift_reach="close", people_to_remove=1)
    assert one(surveyed, "lifting", case).verdict.limit == 16
    lean(surveyed, slope_deg=30)
    assert one(surveyed, "lifting", case).word is Word.NOT_KNOWN
    surveyed.book.write("face", {"sort": "ceiling", "slope_deg": None}, item=surveyed.face)
    found = one(surveyed, "lifting", case)
    assert [blank.field for blank in found.missing] == ["above_floor_mm"]
    surveyed.book.write("face", {"above_floor_mm": 2000}, item=surveyed.face)
    assert one(surveyed, "lifting", case).verdict.limit == 7


@pytest.mark.parametrize(("slope", "word"), [(0, Word.WITHIN), (30, Word.OVER)])
def test_glass_on_a_wall_that_leans_over_hangs_overhead(surveyed: Surveyed, slope: float, word: Word) -> None:
    """Toughened glass within reach breaks safely; leaning over people by more than 15° it falls on them."""
    lean(surveyed, slope_deg=slope)
    assert one(surveyed, "glass", surveyed.fitting(z_mm=900, glass="toughened")).word is word


@pytest.mark.parametrize(
    ("more", "word"),
    [
        ({"slope_deg": 14}, Word.WITHIN),
        ({"slope_deg": 15}, Word.NOT_KNOWN),
        ({"slope_deg": -30}, Word.WITHIN),  # it leans back
        ({"sort": "other", "slope_deg": 45}, Word.NOT_KNOWN),
        ({"sort": "other"}, Word.NOT_KNOWN),
    ],
)
def test_headroom_is_asked_of_what_stands_on_a_face_that_leans_over(
    surveyed: Surveyed, more: dict[str, object], word: Word
) -> None:
    """Below a rafter people hit their heads; with a headroom that is set for it, it is decided."""
    lean(surveyed, **more)
    rail = surveyed.fitting(z_mm=2100, build_up=[["rail", 22, 1]])
    assert one(surveyed, "clearance", rail).word is word
    surveyed.limit(sort="headroom", headroom_mm=2000, projection_mm=100, leaf=None, boxes=None)
    assert one(surveyed, "clearance", rail).word is Word.WITHIN

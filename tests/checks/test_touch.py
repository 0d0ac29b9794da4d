"""What touches old fabric: metals on wood, linings, patches, glass, fire, closed cases and nuts."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.checks.fire_class import CLASSES, FireClass, fire_class_verdict, read
from fieldbook.checks.giving_off import giving_off_verdict
from fieldbook.checks.glazing import glazing_verdict
from fieldbook.checks.lining import lining_verdict
from fieldbook.checks.patch import LEAST_DAYS, patch_verdict, settled_by
from fieldbook.checks.tightness import tightness_verdict
from fieldbook.checks.verdict import Word
from fieldbook.checks.wood_and_metal import is_acid, wood_and_metal_verdict
from tests.checks.refusals import refused

ORDER = list(Word)
LAID = date(2026, 3, 1)


def word(found):
    return found and found.word


# R. White, Timber and metal, BM TRADA: from 20 % moisture content metals in wood are at risk.
@pytest.mark.parametrize(
    ("moisture", "expected"),
    [
        (12, Word.WITHIN),
        (16, Word.WITHIN),
        (17, Word.CLOSE),
        (20, Word.CLOSE),
        (20.1, Word.OVER),
        (None, Word.NOT_KNOWN),
    ],
)
def test_iron_in_oak_is_held_against_the_damp(moisture, expected):
    """Dry oak bears iron, damp oak does not, and unmeasured oak is not known."""
    found = wood_and_metal_verdict("Oak, European", "wrought iron", moisture, False)
    assert found.word is expected
    if moisture is not None:
        assert (found.figure, found.limit, found.unit) == (moisture, 20, "%")


# NPL, Corrosion of Metals by Wood, second hand: oak, sweet chestnut, western red cedar and Douglas fir.
def test_woods_that_give_off_much_acid_are_known():
    """By their names in any order."""
    for wood in ("oak", "Chestnut, sweet", "western redcedar", "Douglas-fir, European-grown"):
        assert is_acid(wood)
    for wood in ("spruce", "Pine, Scots", "ash", "soaked lime"):
        assert not is_acid(wood)


def test_lead_is_held_against_the_closed_space_not_the_damp():
    """Acid vapour reaches it without touching."""
    assert wood_and_metal_verdict("oak", "lead", 10, True).word is Word.OVER
    assert wood_and_metal_verdict("oak", "lead", 10, True, kept_apart=True).word is Word.OVER
    assert wood_and_metal_verdict("oak", "lead", 10, None).word is Word.NOT_KNOWN
    assert wood_and_metal_verdict("oak", "lead", 10, False).word is Word.CLOSE
    assert wood_and_metal_verdict("spruce", "lead", 10, True).word is Word.NOT_KNOWN


def test_metal_that_bears_acid_may_touch_any_wood():
    """Stainless steel, brass, bronze and copper."""
    for material in ("stainless steel A4", "brass", "bronze", "copper"):
        assert wood_and_metal_verdict("oak", material, None, None).word is Word.WITHIN


def test_layer_between_wood_and_iron_settles_it():
    """Whether there is one is asked for only where the wood is damp."""
    assert wood_and_metal_verdict("oak", "iron", 25, False, kept_apart=True).word is Word.WITHIN
    found = wood_and_metal_verdict("oak", "iron", 25, False, kept_apart=None)
    assert (found.word, found.missing) == (Word.NOT_KNOWN, ("kept_apart",))
    assert wood_and_metal_verdict("oak", "iron", 12, False, kept_apart=None).word is Word.WITHIN
    with refused("not-a-choice", "material"):
        wood_and_metal_verdict("oak", "cheese", 12, False)
    with refused("out-of-range", "moisture_pct"):
        wood_and_metal_verdict("oak", "iron", 201, False)


# BS 5250:2002, Annex D, after EN ISO 13788: 80 % at a surface.
@pytest.mark.parametrize(
    ("lining", "humidity", "expected"),
    [
        ("wool felt, 3 mm", 74, Word.WITHIN),
        ("felt", 76, Word.CLOSE),
        ("felt", 80.1, Word.OVER),
        ("leather", None, Word.NOT_KNOWN),
        ("cork", 60, Word.WITHIN),
        ("rubber", 40, Word.NOT_KNOWN),
        ("neoprene foam", 40, Word.NOT_KNOWN),
        ("cork and rubber", 40, Word.NOT_KNOWN),
        ("polyethylene foam", None, Word.WITHIN),
        ("moon dust", 40, Word.NOT_KNOWN),
        ("", None, Word.NOT_KNOWN),
    ],
)
def test_lining_is_held_against_what_it_does(lining, humidity, expected):
    """What takes up water is held against the damp of the face, what stains waits for a patch."""
    assert lining_verdict(lining, humidity).word is expected


def test_patch_shows_the_time_it_lay_and_no_more():
    """Shorter than the stay is close, as long is within, hardly at all is not known, a trace is over."""
    seen = LAID + timedelta(days=100)
    assert patch_verdict("Felt", LAID, seen, False, 100).word is Word.WITHIN
    assert patch_verdict("Felt", LAID, seen, False, 101).word is Word.CLOSE
    assert patch_verdict("Felt", LAID, seen, False, None).word is Word.CLOSE
    assert patch_verdict("Felt", LAID, seen, True, 10).word is Word.OVER
    assert patch_verdict("Felt", LAID, LAID + timedelta(days=LEAST_DAYS - 1), False, 1).word is Word.NOT_KNOWN
    found = patch_verdict("Felt", LAID, None, None, 100)
    assert (found.word, found.missing) == (Word.NOT_KNOWN, ("seen_on", "trace_seen"))
    assert "9\u00a0June 2026" in patch_verdict("Felt", LAID, seen, False, 100).sentence
    with refused("out-of-range", "seen_on"):
        patch_verdict("Felt", LAID, LAID - timedelta(days=1), False, 100)


@given(st.integers(0, 4000), st.integers(1, 4000), st.integers(0, 4000))
def test_longer_stay_never_gives_a_better_word(lay, stays, more):
    """And a longer patch never a worse one."""
    seen = LAID + timedelta(days=lay)
    now = ORDER.index(patch_verdict("x", LAID, seen, False, stays).word)
    assert ORDER.index(patch_verdict("x", LAID, seen, False, stays + more).word) <= now
    assert ORDER.index(patch_verdict("x", LAID, seen + timedelta(days=more), False, stays).word) >= now


def test_patch_settles_what_no_rule_does():
    """It does not make good what a rule forbids, and a trace outweighs what a rule allows."""
    rubber, damp_felt, foam = lining_verdict("rubber", 40), lining_verdict("felt", 90), lining_verdict("polyester", 40)
    clean = patch_verdict("x", LAID, LAID + timedelta(days=90), False, 90)
    traced = patch_verdict("x", LAID, LAID + timedelta(days=90), True, 90)
    waiting = patch_verdict("x", LAID, None, None, 90)
    assert settled_by(rubber, clean) is clean
    assert settled_by(rubber, waiting) is rubber
    assert settled_by(rubber, None) is rubber
    assert settled_by(damp_felt, clean) is damp_felt
    assert settled_by(foam, traced) is traced
    assert settled_by(foam, clean) is foam


def test_fire_class_is_read_as_it_is_written():
    """With or without commas, for walls and for floors."""
    assert read("B-s1,d0") == read("b s1 d0") == FireClass("B", False, 1, 0)
    assert read("A1") == FireClass("A1", False, None, None)
    assert read("Bfl-s1") == read("B(fl)-s1") == FireClass("B", True, 1, None)
    assert read("E-d2") == FireClass("E", False, None, 2)
    for wrong in ("", "G", "B1", "s1", "B-s4", "class B"):
        with refused("not-a-choice", "fire_class"):
            read(wrong)


# EN 13501-1: A1 is best, F worst; s1 gives off the least smoke, d0 no droplets.
@pytest.mark.parametrize(
    ("written", "limit", "expected"),
    [
        ("B-s1,d0", "B-s1,d0", Word.WITHIN),
        ("A1", "A2-s1,d0", Word.WITHIN),
        ("A1", "Bfl-s1", Word.WITHIN),
        ("A2-s1,d0", "A1", Word.OVER),
        ("B-s2,d0", "C-s1,d0", Word.OVER),
        ("B-s1,d1", "B-s1,d0", Word.OVER),
        ("C-s3,d2", "D", Word.WITHIN),
        ("B", "B-s1,d0", Word.NOT_KNOWN),
        ("B", "B-s3,d2", Word.WITHIN),
        ("B", "C-s2,d2", Word.NOT_KNOWN),
        ("D", "B-s1,d0", Word.OVER),
        ("E", "F", Word.WITHIN),
        ("Bfl-s1", "B-s1,d0", Word.NOT_KNOWN),
        (None, "B-s1,d0", Word.NOT_KNOWN),
        ("B-s1,d0", None, Word.NOT_KNOWN),
    ],
)
def test_fire_class_is_held_against_the_limit_set(written, limit, expected):
    """Letter, smoke and droplets each; what is not stated is not known where it counts."""
    assert fire_class_verdict(written, limit).word is expected


@given(*[st.tuples(st.sampled_from(CLASSES[1:5]), st.integers(1, 3), st.integers(0, 2))] * 3)
def test_worse_fire_class_never_gives_a_better_word(one, worse, limit):
    """In letter, smoke or droplets."""
    written = [f"{letter}-s{smoke},d{drops}" for letter, smoke, drops in (one, worse, limit)]
    if CLASSES.index(worse[0]) >= CLASSES.index(one[0]) and worse[1] >= one[1] and worse[2] >= one[2]:
        better = ORDER.index(fire_class_verdict(written[0], written[2]).word)
        assert ORDER.index(fire_class_verdict(written[1], written[2]).word) <= better


# EN 12600 for the classes; Approved Document K (2013), 5.4: class 3, in wide doors class 2.
@pytest.mark.parametrize(
    ("overhead", "reach", "glass", "expected"),
    [
        (False, False, None, None),
        (False, True, "3(C)3", Word.WITHIN),
        (False, True, "1(C)1", Word.WITHIN),
        (True, False, "1(C)1", Word.OVER),
        (True, False, "2(B)2", Word.WITHIN),
        (True, True, "1b1", Word.WITHIN),
        (False, True, "3(A)0", Word.OVER),
        (False, True, "none", Word.OVER),
        (False, True, None, Word.NOT_KNOWN),
        (None, False, "1(C)1", Word.NOT_KNOWN),
        (None, True, "1(C)1", Word.NOT_KNOWN),
        (None, None, "1(B)1", Word.WITHIN),
        (None, True, "none", Word.OVER),
        (False, None, "none", Word.NOT_KNOWN),
        (None, None, None, Word.NOT_KNOWN),
    ],
)
def test_glass_is_asked_to_break_safely(overhead, reach, glass, expected):
    """Overhead it has to be laminated; a fact that is not known is asked for where it would change the word."""
    assert word(glazing_verdict(overhead, reach, glass)) is expected


def test_glass_of_a_wide_door_has_to_bear_more():
    """Above 900 mm class 2; and what is no class is refused."""
    assert glazing_verdict(False, True, "3(C)3", door_over_900_mm=True).word is Word.OVER
    assert glazing_verdict(False, True, "2(C)2", door_over_900_mm=True).word is Word.WITHIN
    with refused("not-a-choice", "glass_class"):
        glazing_verdict(False, True, "toughened")


@pytest.mark.parametrize(
    ("material", "closed", "result", "stays", "expected"),
    [
        ("medium density fibreboard", True, None, 30, Word.NOT_KNOWN),
        ("medium density fibreboard", None, None, 30, Word.NOT_KNOWN),
        ("medium density fibreboard", False, None, 30, None),
        ("birch plywood", True, "permanent", None, Word.WITHIN),
        ("birch plywood", True, "temporary", 180, Word.CLOSE),
        ("birch plywood", True, "temporary", 184, Word.OVER),
        ("birch plywood", True, "temporary", None, Word.NOT_KNOWN),
        ("birch plywood", True, "unsuitable", 1, Word.OVER),
        ("birch plywood", None, "unsuitable", 1, Word.NOT_KNOWN),
        ("stainless steel", True, None, None, Word.WITHIN),
        ("glass", None, None, None, Word.WITHIN),
        ("powder-coated steel", True, None, None, Word.NOT_KNOWN),
        ("glued glass", True, None, None, Word.NOT_KNOWN),
    ],
)
def test_what_is_shut_in_with_old_things_is_tested(material, closed, result, stays, expected):
    """Boards and glues wait for a test; bare metal and glass do not; an open case does not ask."""
    assert word(giving_off_verdict(material, closed, result, stays)) is expected


def test_other_result_of_a_test_is_refused():
    """The three of the published test."""
    with refused("not-a-choice", "result"):
        giving_off_verdict("plywood", True, "fine", None)
    with refused("out-of-range", "stays_days"):
        giving_off_verdict("plywood", True, "temporary", 0)


TODAY = date(2026, 11, 26)


@pytest.mark.parametrize(
    ("locking", "due", "expected"),
    [
        ("lock nut", TODAY + timedelta(days=31), Word.WITHIN),
        ("lock nut", TODAY + timedelta(days=30), Word.CLOSE),
        ("lock nut", TODAY, Word.CLOSE),
        ("lock nut", TODAY - timedelta(days=1), Word.OVER),
        ("none", TODAY + timedelta(days=31), Word.OVER),
        ("none", None, Word.OVER),
        ("not needed", TODAY + timedelta(days=400), Word.OVER),
        ("No locking", TODAY + timedelta(days=400), Word.OVER),
        ("No. 8 spring washer", TODAY + timedelta(days=400), Word.WITHIN),
        ("no-back washer", TODAY + timedelta(days=400), Word.WITHIN),
        (None, TODAY + timedelta(days=31), Word.NOT_KNOWN),
        ("lock nut", None, Word.NOT_KNOWN),
        (None, None, Word.NOT_KNOWN),
    ],
)
def test_nut_that_must_stay_tight_is_locked_and_looked_at(locking, due, expected):
    """What keeps it, and when somebody looks."""
    found = tightness_verdict(locking, due, TODAY)
    assert found.word is expected
    if expected is Word.NOT_KNOWN:
        given = (("locking", locking), ("looked_at_on", due))
        assert found.missing == tuple(name for name, value in given if value is None)

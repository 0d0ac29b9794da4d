"""Two metals that touch, held against the published anodic indexes and the differences a place bears."""

from __future__ import annotations

from itertools import combinations_with_replacement

import pytest

from fieldbook.checks.metal_pair import METALS, PLACES, difference_v, metal, metal_pair_verdict
from fieldbook.checks.verdict import Word
from tests.checks.refusals import refused

DRY, INDOORS, DAMP = PLACES
ORDER = list(Word)


# Wheeler, The Design of Electronic Equipment (1972), anodic index in V: second hand to lead, from memory beyond.
@pytest.mark.parametrize(
    ("one", "other", "volts"),
    [
        ("gold", "silver", 0.15),
        ("copper", "lead", 0.35),
        ("brass", "brass screw", 0),
        ("cast iron", "mild steel", 0),
        ("wrought iron", "lead", 0.15),
        ("copper", "cast iron", 0.50),
        ("brass", "iron", 0.45),
        ("stainless steel A2", "cast iron", 0.50),
        ("aluminium", "stainless steel A4", 0.60),
        ("zinc-plated steel", "brass", 0.85),
    ],
)
def test_pair_lies_as_far_apart_as_its_indexes(one, other, volts):
    """Where a name covers several alloys the farthest of them counts."""
    assert difference_v(metal(one), metal(other)) == pytest.approx(volts)


# Same source: gold and silver, 0.15 V apart, are its example of what a harsh place still bears.
@pytest.mark.parametrize(
    ("one", "other", "place", "word"),
    [
        ("gold", "silver", DAMP, Word.WITHIN),
        ("wrought iron", "lead", DAMP, Word.WITHIN),
        ("copper", "lead", INDOORS, Word.OVER),
        ("copper", "lead", DRY, Word.WITHIN),
        ("copper", "cast iron", DRY, Word.WITHIN),
        ("aluminium", "stainless steel A4", DRY, Word.OVER),
        ("stainless steel A2", "cast iron", INDOORS, Word.OVER),
    ],
)
def test_place_bears_what_its_damp_allows(one, other, place, word):
    """0.15 V in the damp, 0.25 V indoors, 0.50 V where it is kept dry and warm."""
    found = metal_pair_verdict(one, other, place)
    assert (found.word, found.limit) == (word, PLACES[place])
    assert found.margin == pytest.approx(found.limit - found.figure)


@pytest.mark.parametrize(
    ("name", "known"),
    [
        ("Stainless steel A4-70", "stainless"),
        ("A2-50", "stainless"),
        ("1.4401", "stainless"),
        ("galvanized steel", "galvanised"),
        ("hot-dip galvanised steel", "galvanised"),
        ("tin-plated copper", "tin"),
        ("chrome plated brass", "chromium"),
        ("aluminium bronze", "bronze"),
        ("Wrought iron", "iron"),
        ("Lead", "lead"),
    ],
)
def test_metal_is_found_in_its_trade_name(name, known):
    """A coating counts before what it lies on, and the last word before the first."""
    assert metal(name).name == known


def test_what_names_no_metal_is_refused():
    """A wood is no metal, and neither is nothing."""
    for name in ("oak", "", "tinker"):
        with refused("not-a-choice", "one"):
            metal_pair_verdict(name, "brass", DAMP)
    with refused("not-a-choice", "place"):
        metal_pair_verdict("brass", "iron", "somewhere")


def test_unknown_place_is_asked_for_only_where_it_matters():
    """What is borne everywhere is within, what is borne nowhere is over, the rest waits for the place."""
    assert metal_pair_verdict("gold", "silver", None).word is Word.WITHIN
    assert metal_pair_verdict("aluminium", "stainless steel", None).word is Word.OVER
    found = metal_pair_verdict("copper", "lead", None)
    assert (found.word, found.missing, found.figure) == (Word.NOT_KNOWN, ("place",), pytest.approx(0.35))


def test_metals_kept_apart_may_be_any_pair():
    """A dry layer between them settles it; whether there is one is asked for where it would."""
    assert metal_pair_verdict("aluminium", "copper", DAMP, kept_apart=True).word is Word.WITHIN
    found = metal_pair_verdict("aluminium", "copper", DAMP, kept_apart=None)
    assert (found.word, found.missing) == (Word.NOT_KNOWN, ("kept_apart",))
    assert metal_pair_verdict("iron", "steel", DAMP, kept_apart=None).word is Word.WITHIN


@pytest.mark.parametrize(("one", "other"), list(combinations_with_replacement(METALS, 2)))
def test_damper_place_never_gives_a_better_word(one, other):
    """And which metal is named first makes no difference."""
    words = [ORDER.index(metal_pair_verdict(one, other, place).word) for place in PLACES]
    assert words == sorted(words, reverse=True)
    assert [ORDER.index(metal_pair_verdict(other, one, place).word) for place in PLACES] == words
    unknown = ORDER.index(metal_pair_verdict(one, other, None).word)
    assert unknown <= ORDER.index(Word.NOT_KNOWN) or unknown == words[-1]


def test_the_metal_that_goes_first_is_named():
    """It is the one further from gold."""
    assert "iron corrodes" in metal_pair_verdict("brass", "cast iron", DAMP).sentence
    assert "galvanised corrodes" in metal_pair_verdict("galvanised steel", "cast iron", DAMP).sentence

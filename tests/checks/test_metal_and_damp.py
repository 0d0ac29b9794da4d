"""Bare metals on damp walls, held against the humidity at which a surface counts as wet."""

from __future__ import annotations

import pytest

from fieldbook.checks.metal_and_damp import corrodes_when_wet, metal_and_damp_verdict
from fieldbook.checks.verdict import Word
from fieldbook.errors import NotAChoice, OutOfRange


@pytest.mark.parametrize(
    ("material", "humidity", "word", "margin"),
    [
        # ISO 9223:1992: time of wetness counts the hours above 80 % relative humidity (from memory)
        ("mild steel, blackened", 60, Word.WITHIN, 20),
        ("cast iron", 77, Word.CLOSE, 3),
        ("hot-dip galvanised steel", 80.1, Word.OVER, -0.1),
        ("aluminium", 95, Word.OVER, -15),
        # what bears being wet is common practice, no source
        ("stainless steel A4", 100, Word.WITHIN, None),
        ("brass", 100, Word.WITHIN, None),
    ],
)
def test_metal_is_held_against_the_humidity_of_a_wet_surface(
    material: str, humidity: float, word: Word, margin: float | None
) -> None:
    """Steel, zinc and aluminium keep below 80 %; stainless steel and brass at any humidity."""
    found = metal_and_damp_verdict(material, humidity)
    assert (found.word, found.margin) == (word, margin)
    assert "from memory" in found.source


def test_what_is_no_metal_or_no_humidity_is_refused() -> None:
    """Each refusal names its input."""
    with pytest.raises(NotAChoice) as oak:
        corrodes_when_wet("oak")
    assert oak.value.field == "material"
    with pytest.raises(OutOfRange) as damp:
        metal_and_damp_verdict("steel", 101)
    assert damp.value.field == "surface_humidity_pct"

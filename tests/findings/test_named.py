"""What the name of a layer, a board or a lining says it is, whatever the language."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.checks.verdict import Word
from fieldbook.findings import named
from tests.cases.shared import cases
from tests.findings.asked import one
from tests.sites import Surveyed


@pytest.mark.parametrize("case", cases("hazards_named"), ids=lambda case: case["name"])
def test_hazard_is_read_in_a_name(case: dict[str, Any]) -> None:
    """As on the phone, which runs the same file; a name that says it has none has none."""
    assert named.hazards_in(case["name"]) == case["hazards"]


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("red brick", "mineral"),  # the red oak of the table is an oak, not a red
        ("white marble", "mineral"),
        ("red oak", "wood"),
        ("Douglas-fir", "wood"),
        ("C24", "wood"),
        ("GL24h", "wood"),
        ("concrete C20/25", "mineral"),
        ("Eichentäfelung", "wood"),
        ("lambris de chêne", "wood"),
        ("legno di quercia", "wood"),
        ("Kalkputz", "mineral"),
        ("enduit à la chaux", "mineral"),
        ("pietra serena", "mineral"),
        ("baksteen", "mineral"),
        ("Ledertapete", "tender"),
        ("Tapete on plaster", "mineral tender"),
        ("papier peint on lime plaster", "mineral tender"),
        ("dorure", "tender"),
        ("gold leaf on gesso", "metal mineral tender"),
        ("plaster on oak laths", "mineral wood"),
        ("without a word of it", ""),  # no Dutch hout
        ("door in a corridor", ""),  # no French dorure
        ("rubble, of which problems are known", "mineral"),  # no Spanish roble
        ("zxcvb", ""),
    ],
)
def test_name_says_what_its_words_say(name: str, says: str) -> None:
    """All of it, and nothing where no word is known."""
    kinds = {"metal": named.is_metal, "mineral": named.is_mineral, "tender": named.is_tender, "wood": named.is_wood}
    assert " ".join(kind for kind, is_it in kinds.items() if is_it(name)) == says


@pytest.mark.parametrize(
    "name", ["cast iron", "wrought-iron", "Gusseisen", "schmiedeeiserne", "fonte", "ghisa", "iron column", "Eisensäule"]
)
def test_old_iron_is_for_an_engineer_by_whatever_name(surveyed: Surveyed, name: str) -> None:
    """It breaks without warning, whoever wrote down what the column is."""
    surveyed.looked()
    light = {"mass_loaded_kg": 2, "climbable": 0, "touches_face": 0, "gives": ["nothing"]}
    rail = surveyed.fitting(**light)
    surveyed.fixing(rail, bears_on=f"{name}, painted", adhesive=0)
    found = one(surveyed, "specialist", rail)
    assert (found.word, "old iron" in found.verdict.sentence) == (Word.NOT_KNOWN, True)


@pytest.mark.parametrize(
    ("name", "word"),
    [
        ("lime plaster", Word.WITHIN),
        ("Kalkputz", Word.WITHIN),
        ("Tapete on lime plaster", Word.NOT_KNOWN),
        ("lime plaster, vergoldet", Word.NOT_KNOWN),
        ("plaster on oak laths", Word.NOT_KNOWN),  # the worse of the two: how damp the oak is nobody measured
        ("Lehmwickel xyz", Word.WITHIN),
        ("xyz", Word.NOT_KNOWN),
    ],
)
def test_bare_metal_is_held_to_the_worst_of_what_a_name_says(surveyed: Surveyed, name: str, word: Word) -> None:
    """Brass bears a dry mineral wall; a name that says nothing, or more, is no fine word."""
    surveyed.book.write("face", {"layers": [[name, 20, "old"]], "outer_wall": 0}, item=surveyed.face)
    for at in ("2025-12-02T12:00Z", "2026-05-02T12:00Z"):
        air = {"room": surveyed.room, "quantity": "relative humidity", "value": 50, "unit": "%", "at": at}
        surveyed.book.write("reading", air | {"uncertainty": 2})
    clamp = surveyed.fixing(surveyed.fitting(touches_face=0), lining="none", material="mild steel", adhesive=0)
    assert one(surveyed, "touch", clamp).word is word

"""A metal in or on wood: what the wood's acids and its damp do to it, and to the wood around it.

All wood gives off acetic acid, some a good deal. Damp iron in oak turns the wood black and rusts;
lead turns white in a closed space even where it is dry. It does not cover treated wood, salt water
or metals with a coating that has been worn through.
"""

from __future__ import annotations

import re
from dataclasses import replace

from .limits import within
from .metal_pair import metal
from .verdict import Verdict, Word, at_most, not_known

SOURCE = (
    "National Physical Laboratory, Guides to Practice in Corrosion Control: Corrosion of Metals by Wood, 1979 "
    "(its contents read; which woods and metals second hand); 20 % moisture content: R. White, Timber and metal, "
    "BM TRADA (read in the source)"
)

ACID_WOODS = ("oak", "chestnut", "redcedar", "cedar", "douglas")
ATTACKED = ("iron", "steel", "zinc", "galvanised", "aluminium", "tin")
MOISTURE_LIMIT_PCT = 20.0
MOISTURE_PCT = (0.0, 200.0)


def wood_and_metal_verdict(
    wood: str, material: str, moisture_pct: float | None, closed: bool | None, kept_apart: bool | None = False
) -> Verdict:
    """Whether a metal may touch a wood, or lie in one closed space with it.

    wood          as entered; a wood that is not known to be mild counts as acid
    material      the metal as entered
    moisture_pct  the highest moisture content met in the wood, its uncertainty added, %, 0 to 200; None: not known
    closed        whether both are in one closed space, such as a case; None: not known
    kept_apart    whether something that holds no water lies between them; it keeps no vapour off; None: not known
    returns       verdict; on iron, zinc and the like the moisture content in %, for lead and acid wood the closed space

    Source: SOURCE.
    Raises NotAChoice for a name without a metal in it, OutOfRange outside the limits above.

    >>> str(wood_and_metal_verdict("oak", "cast iron", 14, False).word)
    'within'
    """
    named = metal(material, "material").name
    if moisture_pct is not None:
        within("moisture_pct", moisture_pct, *MOISTURE_PCT, "%")
    if named == "lead":
        return _lead(wood, closed)
    if named not in ATTACKED:
        return _found(Word.WITHIN, f"{material} bears the acids of {wood}.")
    if kept_apart:
        return _found(Word.WITHIN, f"{material} and {wood} are kept apart as long as what lies between is whole.")
    if moisture_pct is None:
        sentence = f"Damp {wood} attacks {material}{' and is stained by it' if is_acid(wood) else ''}."
        sentence += " Measure the wood's moisture content at its dampest."
        return not_known("wood-and-metal", ("moisture_pct",), sentence, SOURCE, "%")
    stain = "acid wood stains black round iron if it is ever wetted" if is_acid(wood) else "from there metals corrode"
    what = f"Moisture content of {wood} round {material}"
    found = at_most("wood-and-metal", what, moisture_pct, MOISTURE_LIMIT_PCT, "%", SOURCE, after=f"Left out: {stain}.")
    if found.word is Word.OVER and kept_apart is None:
        sentence = f"{found.sentence} Enter whether something that holds no water lies between."
        return replace(found, word=Word.NOT_KNOWN, sentence=sentence, missing=("kept_apart",))
    return found


def is_acid(wood: str) -> bool:
    """Whether a wood is among those that give off much acid.

    wood     its name as entered
    returns  True for oak, chestnut, the cedars and Douglas fir

    Source: SOURCE.
    Raises nothing.

    >>> is_acid("Oak, European"), is_acid("spruce")
    (True, False)
    """
    words = re.findall(r"[^\W_]+", wood.casefold())
    return any(word.startswith(acid) for word in words for acid in ACID_WOODS)


def _lead(wood: str, closed: bool | None) -> Verdict:
    if closed is None:
        sentence = f"Lead in one closed space with {wood} turns white. Enter whether the space is closed."
        return not_known("wood-and-metal", ("closed",), sentence, SOURCE)
    if not closed:
        return _found(
            Word.CLOSE, f"Lead beside {wood} bears it in moving air; look for white powder when it is inspected."
        )
    if is_acid(wood):
        return _found(Word.OVER, f"Lead in one closed space with {wood} turns to white powder; keep them apart.")
    sentence = f"Every wood gives off some acid, and lead bears little of it; a test has to show it of {wood}."
    return not_known("wood-and-metal", ("test",), sentence, SOURCE)


def _found(word: Word, sentence: str) -> Verdict:
    return Verdict("wood-and-metal", word, None, None, None, "", sentence, SOURCE)

"""Glass that people can reach or that hangs above them: whether it breaks safely.

It does not cover how the pane is held, its size and load, nor glass as a barrier: an engineer and
the local code decide on those.
"""

from __future__ import annotations

import re
from itertools import product

from ..errors import NotAChoice, shown
from .verdict import Verdict, Word, not_known

SOURCE = (
    "EN 12600:2002, drop-height classes 3, 2, 1 and breakage A, B, C (second hand); class 3 in a critical place, "
    "class 2 in doors and beside them above 900 mm: Approved Document K, 2013, 5.4 (read in the source); "
    "overhead laminated glass, EN 14449: common practice, no source"
)
_ORDER = list(Word)
_WRITTEN = re.compile(r"([123])([ABC])([0123])", re.IGNORECASE)


def glazing_verdict(
    overhead: bool | None, within_reach: bool | None, glass_class: str | None, *, door_over_900_mm: bool = False
) -> Verdict | None:
    """Whether a pane is of safety glass where it has to be.

    overhead          whether anyone can stand below it; None: not known
    within_reach      whether anyone can walk or fall against it; None: not known
    glass_class       its class in the pendulum test as marked on it: "1(B)1"; None: not known; "none" for plain glass
    door_over_900_mm  whether it is a pane of a door or beside one, wider than 900 mm
    returns           verdict; None where the question does not arise: neither overhead nor within reach

    Source: SOURCE.
    Raises NotAChoice for what is no such class.

    >>> str(glazing_verdict(True, False, "1(C)1").word), glazing_verdict(False, False, None)
    ('over', None)
    """
    tried = [
        _where(above, near, glass_class, 2 if door_over_900_mm else 3)
        for above, near in product(_either(overhead), _either(within_reach))
    ]
    worst = min(tried, key=lambda found: _ORDER.index(found.word) if found else len(_ORDER))
    if worst is None or worst.word is not Word.OVER or all(found and found.word is Word.OVER for found in tried):
        return worst
    missing = tuple(name for name, value in (("overhead", overhead), ("within_reach", within_reach)) if value is None)
    asked = " and ".join(
        {"overhead": "it hangs above anyone", "within_reach": "anyone can fall against it"}[name] for name in missing
    )
    return not_known("glazing", missing, f"{worst.sentence} Enter whether {asked}.", SOURCE)


def _either(known: bool | None) -> tuple[bool, ...]:
    return (True, False) if known is None else (known,)


def _where(overhead: bool, within_reach: bool, glass_class: str | None, least: int) -> Verdict | None:
    """The verdict where both facts are known."""
    if not overhead and not within_reach:
        return None
    where = "overhead" if overhead else "within reach"
    asked = "laminated safety glass (EN 14449, breakage B)" if overhead else "safety glass (EN 12600)"
    if glass_class is None:
        sentence = (
            f"Glass {where} has to be {asked}. Enter the class marked on it, as 1(B)1; or “none” for plain glass."
        )
        return not_known("glazing", ("glass_class",), sentence, SOURCE)
    if glass_class.strip().casefold() == "none":
        return _found(Word.OVER, f"Plain glass {where} breaks into blades; use {asked}.")
    height, breakage = _read(glass_class)
    if overhead and breakage != "B":
        return _found(Word.OVER, f"Glass of class {glass_class} falls out when it breaks; overhead use {asked}.")
    if height > least or breakage == "A":
        return _found(
            Word.OVER, f"Glass of class {glass_class} does not break safely enough; class {least} is asked for."
        )
    return _found(Word.WITHIN, f"Glass of class {glass_class} breaks safely. Left out: how the pane is held.")


def _read(written: str) -> tuple[int, str]:
    """Drop-height class and way of breaking."""
    found = _WRITTEN.fullmatch(re.sub(r"[\s()]", "", written))
    if not found:
        raise NotAChoice(
            f"“{shown(written)}” is no class of the pendulum test.",
            "Write it as marked on the glass: 1(B)1; or “none” for plain glass.",
            field="glass_class",
            value=written,
        )
    return int(found[1]), found[2].upper()


def _found(word: Word, sentence: str) -> Verdict:
    return Verdict("glazing", word, None, None, None, "", sentence, SOURCE)

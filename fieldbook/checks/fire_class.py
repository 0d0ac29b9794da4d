"""Reaction to fire: the class of a material against the limit somebody has set for the place.

It says nothing of how long a wall or door withstands a fire, and sets no limit of its own: whoever
is responsible for fire safety does.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from ..errors import NotAChoice, shown
from .verdict import Verdict, Word, not_known

SOURCE = "EN 13501-1:2018, order of the classes, of smoke s1 to s3 and of droplets d0 to d2 (second hand)"

CLASSES = ("A1", "A2", "B", "C", "D", "E", "F")
_WRITTEN = re.compile(r"(A1|A2|[B-F])(fl)?(?:s([123]))?(?:d([012]))?", re.IGNORECASE)
_FORM = "Write it as A1, B-s1,d0, E or Bfl-s1."


class FireClass(NamedTuple):
    """A class as written: its letter, whether it is of a floor, smoke 1 to 3, droplets 0 to 2; None: not stated."""

    letter: str
    floor: bool
    smoke: int | None
    droplets: int | None


def read(written: str, field: str = "fire_class") -> FireClass:
    """A class of reaction to fire from the way it is written.

    written  as on the data sheet: "B-s1,d0", "A1", "Cfl-s1"
    field    the input it came from, for the error
    returns  the class

    Source: EN 13501-1:2018 (second hand).
    Raises NotAChoice for what is no such class.

    >>> read("B-s1,d0")
    FireClass(letter='B', floor=False, smoke=1, droplets=0)
    """
    found = _WRITTEN.fullmatch(re.sub(r"[\s,()-]", "", written))
    if not found:
        raise NotAChoice(f"“{shown(written)}” is no class of reaction to fire.", _FORM, field=field, value=written)
    letter, floor, smoke, droplets = found.groups()
    return FireClass(letter.upper(), bool(floor), *(int(part) if part else None for part in (smoke, droplets)))


def fire_class_verdict(written: str | None, limit: str | None) -> Verdict:
    """Whether a material's class is at least as good as the limit that was set.

    written  the material's class; None: not known
    limit    the class that was asked for; None: nobody has set one
    returns  verdict; not known where the limit counts smoke or droplets and the class does not state them

    Source: SOURCE.
    Raises NotAChoice for what is no class.

    >>> str(fire_class_verdict("C-s1,d0", "B-s2,d0").word)
    'over'
    """
    if limit is None:
        sentence = "Nobody has set a limit for what burns here; ask whoever is responsible for fire safety."
        return not_known("fire-class", ("limit",), sentence, SOURCE)
    if written is None:
        sentence = f"Its class of reaction to fire is not entered; {limit} is asked for here. {_FORM}"
        return not_known("fire-class", ("fire_class",), sentence, SOURCE)
    one, asked = read(written), read(limit, "limit")
    if one.floor != asked.floor and one.letter != "A1":
        sentence = f"{written} and {limit} do not compare: one is of a floor, the other is not. {_FORM}"
        return not_known("fire-class", ("fire_class",), sentence, SOURCE)
    if _worse(CLASSES.index(one.letter), CLASSES.index(asked.letter)):
        return _found(Word.OVER, f"Class {written} is worse than the {limit} asked for here.")
    if one.letter == "A1":
        return _found(Word.WITHIN, f"Class A1 does not burn; {limit} is asked for here.")
    parts = ((one.smoke, asked.smoke, "smoke"), (one.droplets, asked.droplets, "burning droplets"))
    worse = [name for own, other, name in parts if own is not None and other is not None and own > other]
    if worse:
        return _found(
            Word.OVER, f"Class {written} gives off more {' and '.join(worse)} than the {limit} asked for here."
        )
    unsaid = [name for own, other, name in parts if own is None and other is not None and _counts(other, name)]
    if unsaid:
        sentence = f"Class {written} does not state its {' and '.join(unsaid)}; {limit} is asked for here. {_FORM}"
        return not_known("fire-class", ("fire_class",), sentence, SOURCE)
    return _found(Word.WITHIN, f"Class {written} is as good as the {limit} asked for here.")


def _worse(one: int, asked: int) -> bool:
    return one > asked


def _counts(limit: int, name: str) -> bool:
    """Whether a limit excludes anything: s3 and d2 are the worst there are."""
    return limit < (3 if name == "smoke" else 2)


def _found(word: Word, sentence: str) -> Verdict:
    return Verdict("fire-class", word, None, None, None, "", sentence, SOURCE)

"""Names for files that every system takes, made from marks and names that people chose."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Hashable, Iterable

MOST_LETTERS = 48
_UNFIT = re.compile(r"[^A-Za-z0-9]+")
# Names that Windows keeps for itself, whatever their ending (Microsoft, Naming Files, Paths, and Namespaces).
RESERVED = {"con", "prn", "aux", "nul", *(f"{port}{number}" for port in ("com", "lpt") for number in range(10))}


def safe_name(words: str, otherwise: str) -> str:
    """A name of letters A to Z, figures and hyphens.

    otherwise  what stands where nothing of the words is left, as of a script without such letters
    """
    plain = unicodedata.normalize("NFKD", words).encode("ascii", "ignore").decode()
    name = _UNFIT.sub("-", plain).strip("-")[:MOST_LETTERS].rstrip("-") or otherwise
    return f"{name}-{otherwise}" if name.lower() in RESERVED else name


def names_for(called: Iterable[tuple[Hashable, str]], otherwise: str) -> dict[Hashable, str]:
    """Key -> a name of its own, also where letters differ by case alone; those called alike are numbered.

    called  (key, what people call it), in an order that stays
    """
    names: dict[Hashable, str] = {}
    taken: set[str] = set()
    for key, words in called:
        name = stem = safe_name(words, otherwise)
        number = 1
        while name.lower() in taken:
            number += 1
            name = f"{stem}-{number}"
        taken.add(name.lower())
        names[key] = name
    return names

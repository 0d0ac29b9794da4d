"""Numbers as people write them: either decimal sign, thousands marked by spaces, points, commas or apostrophes, a unit.

static/phone/book/figures.js does the same; tests/cases/figures.json holds the two together.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence

_SPACES = re.compile(r"(?<=\d)[\s\u00a0\u202f'’](?=\d{3}\b)")
_GROUPED = re.compile(r"[+-]?\d{1,3}(?:\.\d{3})+,\d*|[+-]?\d{1,3}(?:,\d{3})+\.\d*")
_THOUSANDS = re.compile(r"[+-]?\d{1,3}(?:(?:\.\d{3}){2,}|(?:,\d{3}){2,})")
_TWO_WAYS = re.compile(r"[+-]?[1-9]\d{0,2}[.,]\d{3}")
# Unit asked for -> other units that it may be given in, and what one of them is. The longer names first.
OTHER_UNITS: dict[str, dict[str, float]] = {"mm": {"cm": 10, "m": 1000}, "kg": {"g": 0.001}, "N": {"kN": 1000}}
_UNIT_BEHIND = re.compile(r"(?<=\d)\s+(?=(?:mm|cm|m|kg|g|kN|N|°|%)(?:[\s;,/×]|$))")
_PARTED = re.compile(r"(,\s+|\s*[;/×x]\s*|\s+)")


def number_from(text: str) -> float | str:
    """The number that a text means; the text itself where it is none, or can be read in two ways."""
    plain = _plain(text)
    if _TWO_WAYS.fullmatch(plain):
        return text
    try:
        number = float(_with_a_point(plain))
    except ValueError:
        return text
    return number if math.isfinite(number) else text


def number_in(text: str, unit: str) -> float | str:
    """The same, with a unit behind it or none: the one asked for, or another of its sort, as 4.2 m where mm are asked.

    >>> number_in("4.2 m", "mm")
    4200.0
    """
    number = number_from(text)
    figures, name, factor = _measured(text, unit)
    if isinstance(number, float) or not name:
        return number
    measured = number_from(figures)
    return round(measured * factor, 9) if isinstance(measured, float) else text


def tied(text: str) -> str:
    """Figures typed together, each in one piece with its unit: where a space parts the figures it parts no unit."""
    return _UNIT_BEHIND.sub("", text)


def in_mixed_units(words: Sequence[str], units: Sequence[str]) -> bool:
    """Whether some of the figures typed together have another unit than the one asked for, and some have none.

    Nobody can tell what those are in: 4.2 × 1.1 m where mm are asked.
    """
    for unit, others in OTHER_UNITS.items():
        alike = [
            word for word, asked in zip(words, units, strict=True) if asked == unit and any(map(str.isdigit, word))
        ]
        names = {_measured(word, unit)[1] for word in alike}
        if "" in names and not names.isdisjoint(others):
            return True
    return False


def lengths_in(line: str) -> list[float | str]:
    """The lengths of a line with spaces or semicolons between, mm; what is none as it stands.

    >>> lengths_in("310 1.2 m"), lengths_in("18 2.5; 4 mm")
    (['310 1.2 m'], [18.0, 2.5, 4.0])
    """
    words = [word for word in re.split(r"[\s;]+", tied(line)) if word]
    return [line] if in_mixed_units(words, ["mm"] * len(words)) else [number_in(word, "mm") for word in words]


def _measured(text: str, unit: str) -> tuple[str, str, float]:
    """The figures of a text, its unit and what one of that is in the unit asked for; no unit where none is known."""
    known = {unit: 1.0} | OTHER_UNITS.get(unit, {}) if unit else {}
    ends = [name for name in known if text.strip().endswith(name)]
    name = max(ends, key=len, default="")
    return text.strip().removesuffix(name), name, known.get(name, 1)


def _plain(text: str) -> str:
    return _SPACES.sub("", text.strip()).replace("−", "-")


def _with_a_point(plain: str) -> str:
    if _GROUPED.fullmatch(plain):
        thousands, decimal = (".", ",") if plain.rfind(",") > plain.rfind(".") else (",", ".")
        return plain.replace(thousands, "").replace(decimal, ".")
    if _THOUSANDS.fullmatch(plain):
        return plain.replace(".", "").replace(",", "")
    return plain.replace(",", ".") if plain.count(",") == 1 and "." not in plain else plain


def two_readings(text: str, unit: str = "") -> tuple[str, str] | None:
    """How to write either number that a text can be read as, 1.500 as 1.5 or 1500; None where there is one at most."""
    figures, name, _ = _measured(text, unit)
    plain = _plain(figures)
    if not _TWO_WAYS.fullmatch(plain):
        return _in_two_units(text, unit)
    behind = f" {name}" if name else ""
    return f"{typed_number(float(plain.replace(',', '.')))}{behind}", f"{re.sub('[.,]', '', plain)}{behind}"


def _in_two_units(text: str, unit: str) -> tuple[str, str] | None:
    """Figures typed together of which some have another unit and some none, with either behind those."""
    pieces = _PARTED.split(tied(text.strip()))
    words = pieces[::2]
    read = [_measured(word, unit) for word in words]
    if not all(isinstance(number_from(figures), float) for figures, _, _ in read):
        return None
    if not in_mixed_units(words, [unit] * len(words)):
        return None
    other = next(name for _, name, _ in read if name not in ("", unit))
    ways = []
    for meant in (other, unit):
        pieces[::2] = [f"{figures.strip()} {name or meant}" for figures, name, _ in read]
        ways.append("".join(pieces))
    return ways[0], ways[1]


def number_to(value: float) -> str:
    """A number without needless decimals and without an exponent."""
    if value == int(value):
        return str(int(value))
    decimals = 6 if abs(value) >= 0.001 else 12  # an expansion of 0.0000002 is a figure too
    return f"{value:.{decimals}f}".rstrip("0").rstrip(".")


def typed_number(value: float) -> str:
    """A number so that `number_from` reads it back: one that could be read in two ways has a nought more."""
    text = number_to(value)
    return f"{text}0" if _TWO_WAYS.fullmatch(text) else text

"""Two metals that touch: whether the damp of the place lets one eat the other.

Each metal has an anodic index, how far it lies from gold in volts; the larger of two goes first.
It does not cover areas (a small anode against a large cathode goes faster), salts in a wall, or
metals kept apart by a film that has worn through.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import NamedTuple

from ..errors import NotAChoice, shown
from .limits import rounded_up
from .verdict import Verdict, Word, not_known, word_for

SOURCE = (
    "Anodic index and its limits, G. J. Wheeler, The Design of Electronic Equipment, Prentice-Hall 1972 "
    "(second hand; the range of stainless steel and the indexes of iron and what lies beyond from memory)"
)

# lowest and highest anodic index that goes by the name, V
METALS: Mapping[str, tuple[float, float]] = {
    "gold": (0.0, 0.0),
    "silver": (0.15, 0.15),
    "nickel": (0.30, 0.30),
    "copper": (0.35, 0.35),
    "brass": (0.40, 0.45),
    "bronze": (0.40, 0.45),
    "stainless": (0.35, 0.50),
    "chromium": (0.60, 0.60),
    "tin": (0.60, 0.65),
    "lead": (0.70, 0.70),
    "steel": (0.85, 0.85),
    "iron": (0.85, 0.85),
    "aluminium": (0.75, 0.95),
    "zinc": (1.20, 1.25),
    "galvanised": (1.20, 1.25),
}
# greatest difference for each sort of place, V, the driest first
PLACES: Mapping[str, float] = {"kept dry and warm": 0.50, "indoors, not heated evenly": 0.25, "damp or outdoors": 0.15}
STEP_V = 0.01

# other spellings and short names, and the words that say that the metal named first lies on top
OTHER_NAMES = {"galvanized": "galvanised", "aluminum": "aluminium", "chrome": "chromium"}
OTHER_NAMES |= dict.fromkeys(("a2", "a4", "4301", "4401", "304", "316"), "stainless")
COATED = {"galvanised", "plated", "coated", "dipped", "tinned"}


class Named(NamedTuple):
    """A metal of the table and its lowest and highest index, V."""

    name: str
    low: float
    high: float


def metal(name: str, field: str = "material") -> Named:
    """The metal of the table that a material's name means.

    name     as entered: "stainless steel A4", "cast iron", "hot-dip galvanised steel"
    field    the input the name came from, for the error
    returns  the metal and its indexes, V; a coating of zinc, tin or chromium goes before what it lies on

    Source: SOURCE.
    Raises NotAChoice for a name without a metal of the table in it.

    >>> metal("stainless steel A4").name
    'stainless'
    """
    words = [OTHER_NAMES.get(word, word) for word in re.findall(r"[^\W_]+", name.casefold())]
    if "stainless" in words:
        words = [word for word in words if word != "steel"]
    found = [(words.index(known), known) for known in METALS if known in words]
    if found:
        _, known = min(found) if COATED & set(words) else max(found)
        return Named(known, *METALS[known])
    raise NotAChoice(
        f"“{shown(name)}” names no metal of the table.",
        f"Name one of: {', '.join(METALS)}.",
        field=field,
        value=name,
    )


def difference_v(one: Named, other: Named) -> float:
    """The greatest difference of two metals' anodic indexes.

    one, other  metals, V
    returns     V, 0 for one and the same metal

    Source: SOURCE.
    Raises nothing.

    >>> round(difference_v(metal("cast iron"), metal("brass")), 2)
    0.45
    """
    if one.name == other.name:
        return 0.0
    return max(abs(one.high - other.low), abs(other.high - one.low))


def metal_pair_verdict(one: str, other: str, place: str | None, kept_apart: bool | None = False) -> Verdict:
    """Whether two metals may touch where they are.

    one, other  the metals as entered
    place       one of PLACES; None: not known
    kept_apart  whether something that holds no water lies between them everywhere, bolts included; None: not known
    returns     verdict in V: within where any place would do; not known where what is missing would change the word

    Source: SOURCE; that metals kept apart do not corrode each other: needs a metal path as well as a wet one.
    Raises NotAChoice for a metal or a place that is not in the tables.

    >>> str(metal_pair_verdict("cast iron", "stainless steel A4", "indoors, not heated evenly").word)
    'over'
    """
    first, second = metal(one, "one"), metal(other, "other")
    if place is not None and place not in PLACES:
        raise NotAChoice(
            f"is {shown(place)}.", f"Choose one of: {'; '.join(PLACES)}.", field="place", value=place, about="place"
        )
    figure = rounded_up(difference_v(first, second), STEP_V)
    goes = first if first.high >= second.high else second
    between = f"Between {one} and {other} lie {figure:g} V"
    if kept_apart:
        sentence = f"{between}; what lies between them keeps them apart as long as it is whole."
        return Verdict("metal-pair", Word.WITHIN, figure, None, None, "V", sentence, SOURCE)
    limits = [PLACES[place]] if place else list(PLACES.values())
    words = {word_for(round(limit - figure, 9), 0.0) for limit in limits}
    if len(words) > 1 or (kept_apart is None and Word.OVER in words):
        asked = ("place",) if len(words) > 1 else ("kept_apart",)
        what = "how damp the place is" if len(words) > 1 else "whether something dry lies between them"
        sentence = f"{between}; {goes.name} would go first. Enter {what}."
        found = not_known("metal-pair", asked, sentence, SOURCE, "V")
        return replace(found, figure=figure)
    (word,) = words
    limit = max(limits) if word is Word.OVER else min(limits)
    meaning = (
        f"{goes.name} corrodes; lay something between that holds no water" if word is Word.OVER else "they may touch"
    )
    where = place or ("anywhere" if word is Word.OVER else "everywhere")
    sentence = f"{between}, at most {limit:g} V is borne {where}: {meaning}."
    return Verdict("metal-pair", word, figure, limit, round(limit - figure, 9), "V", sentence, SOURCE)

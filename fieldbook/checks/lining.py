"""What lies between a jaw or a plate and old fabric: whether it stains it or keeps it damp.

It does not cover how well a lining grips (friction in the table of materials) nor how it creeps.
"""

from __future__ import annotations

import re

from .air import HUMIDITY_PCT, MOULD_HUMIDITY_PCT
from .limits import within
from .verdict import Verdict, Word, at_most, not_known

STAINING_SOURCE = (
    "ISO 3865:2005 and ASTM D925 (tests of staining by rubber; titles read); no general value is published"
)
DAMP_SOURCE = "80 % at a surface: BS 5250:2002, Annex D, after EN ISO 13788 (read in the source)"
INERT_SOURCE = (
    "D. Thickett and L. Lee, Selection of Materials for the Storage or Display of Museum Objects, "
    "British Museum Occasional Paper 111, 2004 (from memory)"
)

# by a word in its name: what migrates out of it, what takes up water, what does neither
STAINS = (
    *("rubber", "neoprene", "nitrile", "latex", "epdm", "butyl", "silicone", "vinyl", "pvc", "putty", "tape"),
    *("gummi", "moosgummi", "kautschuk", "caoutchouc", "gomma", "caucho", "goma", "borracha", "kumi", "guma"),
)
HOLDS_DAMP = (
    *("felt", "wool", "leather", "cork", "cloth", "cotton", "textile", "baize", "paper", "card"),
    *("wood", "plywood", "hardboard", "ash", "beech", "birch", "larch", "oak", "pine", "spruce"),
)
INERT = ("polyethylene", "polypropylene", "polyester", "ptfe")


def lining_verdict(lining: str, surface_humidity_pct: float | None) -> Verdict:
    """Whether a lining may lie on old fabric for good.

    lining                as entered: "wool felt, 3 mm"
    surface_humidity_pct  highest humidity at the fabric's surface, its uncertainty added, %, 1 to 100; None: not known
    returns               verdict: for what takes up water that humidity in %; not known for what may stain, which only
                          a test patch settles

    Source: STAINING_SOURCE, DAMP_SOURCE, INERT_SOURCE.
    Raises OutOfRange outside the limits above.

    >>> str(lining_verdict("felt", 86).word), str(lining_verdict("rubber", 40).word)
    ('over', 'not known')
    """
    if surface_humidity_pct is not None:
        within("surface_humidity_pct", surface_humidity_pct, *HUMIDITY_PCT, "%")
    if _named(lining, STAINS):
        sentence = (
            f"{lining} may stain what it lies on, and no rule says when. Lay a test patch, or use another lining."
        )
        return not_known("lining", ("patch",), sentence, STAINING_SOURCE)
    if _named(lining, HOLDS_DAMP):
        return _damp(lining, surface_humidity_pct)
    if _named(lining, INERT):
        sentence = f"{lining} neither stains nor holds water; keep it clean."
        return Verdict("lining", Word.WITHIN, None, None, None, "", sentence, INERT_SOURCE)
    sentence = f"Nothing is known here of what {lining} does to old fabric. Lay a test patch, or use another lining."
    return not_known("lining", ("patch",), sentence, "no published source found")


def is_known(lining: str) -> bool:
    """Whether anything is known of what a lining does.

    lining   as entered
    returns  True where its name is among those that stain, hold damp or do neither

    Source: the lists above.
    Raises nothing.

    >>> is_known("rubber"), is_known("mastic")
    (True, False)
    """
    return _named(lining, STAINS + HOLDS_DAMP + INERT)


def _damp(lining: str, humidity_pct: float | None) -> Verdict:
    if humidity_pct is None:
        sentence = f"{lining} holds damp against the fabric. Measure the humidity at the surface at its dampest."
        return not_known("lining", ("surface_humidity_pct",), sentence, DAMP_SOURCE, "%")
    what = f"Humidity at the surface under {lining}"
    after = f"{lining} that is wetted once has to come off and dry."
    return at_most("lining", what, humidity_pct, MOULD_HUMIDITY_PCT, "%", DAMP_SOURCE, close=5, after=after)


def _named(lining: str, words: tuple[str, ...]) -> bool:
    return any(word in words for word in re.findall(r"[^\W_]+", lining.casefold()))

"""A bare metal on stone, brick or plaster: whether the air at it is dry enough for it to keep.

It does not cover salts in a wall, which wet a metal in drier air, fresh lime, or water that runs over it.
"""

from __future__ import annotations

from .air import HUMIDITY_PCT
from .limits import within
from .metal_pair import metal
from .verdict import Verdict, Word, at_most

SOURCE = "Surfaces count as wet above 80 % relative humidity: ISO 9223:1992, time of wetness (from memory)"
# metals that rust or turn to powder where they are wet
ATTACKED = ("iron", "steel", "zinc", "galvanised", "tin", "aluminium", "lead")
WET_PCT = 80.0
CLOSE_PCT = 5.0


def corrodes_when_wet(material: str) -> bool:
    """Whether a metal is among those that do not bear being wet.

    material  the metal as entered
    returns   True for iron, steel, zinc, tin, aluminium and lead

    Source: which metals keep: common practice, no source.
    Raises NotAChoice for a name without a metal in it.

    >>> corrodes_when_wet("zinc-plated steel"), corrodes_when_wet("stainless steel A4")
    (True, False)
    """
    return metal(material, "material").name in ATTACKED


def metal_and_damp_verdict(material: str, surface_humidity_pct: float) -> Verdict:
    """Whether a bare metal may lie on a wall for good.

    material              the metal as entered
    surface_humidity_pct  highest humidity at the surface, its uncertainty added, %, 1 to 100
    returns               verdict in %; within at any humidity for stainless steel, brass and what else bears it

    Source: SOURCE.
    Raises NotAChoice for a name without a metal in it, OutOfRange outside the limits above.

    >>> str(metal_and_damp_verdict("mild steel", 92).word)
    'over'
    """
    within("surface_humidity_pct", surface_humidity_pct, *HUMIDITY_PCT, "%")
    if not corrodes_when_wet(material):
        return Verdict(
            "metal-and-damp", Word.WITHIN, None, None, None, "", f"{material} bears a wall's damp and lime.", SOURCE
        )
    what = f"Humidity at the surface under {material}"
    after = "Salts in the wall wet a metal sooner."
    return at_most("metal-and-damp", what, surface_humidity_pct, WET_PCT, "%", SOURCE, close=CLOSE_PCT, after=after)

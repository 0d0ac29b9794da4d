"""What pulls a nail, a wood screw or a coach screw out of wood, and what it may be trusted with.

Side grain of sound, seasoned wood, straight pull. Does not cover end grain, wet or decayed wood,
the strength of the metal or the head, nor any substrate that is not wood.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ..errors import NotAChoice, shown
from .cautions import LEFT_OUT_OF_LOADS
from .limits import within
from .verdict import Verdict, at_most

SOURCE = (
    "Wood Handbook, FPL-GTR-190 (2010), chapter 8: mean ultimate withdrawal; "
    "National Design Specification for Wood Construction, Table 12.2A and its equations: withdrawal design value"
)


@dataclass(frozen=True)
class Connector:
    """A sort of connector: p = constant · G^gravity_power · D^diameter_power · L, in N and mm.

    ultimate        handbook constant, mean load at failure
    allowable       design constant, normal duration of load
    low_mm, high_mm  diameters the published tables run over
    """

    ultimate: float
    allowable: float
    gravity_power: float
    diameter_power: float
    low_mm: float
    high_mm: float

    def load(self, constant: float, specific_gravity: float, diameter_mm: float, penetration_mm: float) -> float:
        return constant * specific_gravity**self.gravity_power * diameter_mm**self.diameter_power * penetration_mm


# The constants are those for lb and in (7850 and 1380; 15700 and 2850; 8100 and 1800) turned into N and mm.
CONNECTORS: Mapping[str, Connector] = {
    "nail": Connector(54.12, 9.515, 2.5, 1.0, 1.5, 10.0),
    "wood screw": Connector(108.25, 19.650, 2.0, 1.0, 2.0, 10.0),
    "coach screw": Connector(125.4, 27.861, 1.5, 0.75, 5.0, 32.0),
}
# Other words for the same things; “lag screw” is that of the source.
ALSO_CALLED: Mapping[str, str] = {"screw": "wood screw", "lag": "coach screw", "lag screw": "coach screw"}
# Oven-dry mass over volume at 12 % moisture content, the lightest to the heaviest woods in the handbook's tables.
GRAVITY_LOW, GRAVITY_HIGH = 0.25, 1.0
DEEPEST_MM = 500.0


def ultimate_n(connector: str, specific_gravity: float, diameter_mm: float, penetration_mm: float) -> float:
    """Mean load at which the connector comes out of the wood.

    connector         "nail", "wood screw" or "coach screw"
    specific_gravity  of the wood, oven-dry mass over volume at 12 % moisture content, no unit, 0.25 to 1
    diameter_mm       of the shank, mm: nail 1.5 to 10, wood screw 2 to 10, coach screw 5 to 32
    penetration_mm    of nail, or of the thread alone, in the wood that holds it, mm, 0 to 500
    returns           N, half of all such connectors fail below it

    Source: Wood Handbook, FPL-GTR-190 (2010), chapter 8, withdrawal equations for nails, wood screws and lag
    screws, SI form. The nail constant is that of the handbook, not the smaller one of the 1958 and 1965 notes.
    Raises OutOfRange outside the limits above, NotAChoice for another connector.

    >>> round(ultimate_n("wood screw", 0.48, 4.17, 25), 1)
    2600.1
    """
    sort = _connector(connector, specific_gravity, diameter_mm, penetration_mm)
    return sort.load(sort.ultimate, specific_gravity, diameter_mm, penetration_mm)


def allowable_n(connector: str, specific_gravity: float, diameter_mm: float, penetration_mm: float) -> float:
    """Pull the connector may be trusted with for years.

    connector         "nail", "wood screw" or "coach screw"
    specific_gravity  of the wood, oven-dry mass over volume at 12 % moisture content, no unit, 0.25 to 1
    diameter_mm       of the shank, mm: nail 1.5 to 10, wood screw 2 to 10, coach screw 5 to 32
    penetration_mm    of nail, or of the thread alone, in the wood that holds it, mm, 0 to 500
    returns           N, under a still load of normal duration (ten years)

    Source: National Design Specification for Wood Construction, chapter 12, reference withdrawal design values.
    Departs from dividing every handbook load by one rule-of-thumb figure (6, or 5 for nails), because the design
    values are what a code stands behind; for nails they lie on the safe side of it. That specification takes the
    specific gravity on the oven-dry volume, which is a little higher: the one used here errs to the safe side.
    Raises OutOfRange outside the limits above, NotAChoice for another connector.

    >>> round(allowable_n("wood screw", 0.48, 4.17, 25), 1)
    472.0
    """
    sort = _connector(connector, specific_gravity, diameter_mm, penetration_mm)
    return sort.load(sort.allowable, specific_gravity, diameter_mm, penetration_mm)


def divisor(connector: str) -> float:
    """How many times the allowable pull the mean ultimate is.

    connector  "nail", "wood screw" or "coach screw"
    returns    ratio of the two constants, no unit

    Source: as for the two loads: 7850/1380, 15700/2850 and 8100/1800.
    Raises NotAChoice for another connector.

    >>> [round(divisor(connector), 2) for connector in CONNECTORS]
    [5.69, 5.51, 4.5]
    """
    sort = _named(connector)
    return sort.ultimate / sort.allowable


def verdict(
    connector: str, specific_gravity: float, diameter_mm: float, penetration_mm: float, tension_n: float
) -> Verdict:
    """Whether a connector may be trusted with a pull.

    connector                    as for `allowable_n`
    specific_gravity             as for `allowable_n`, no unit
    diameter_mm, penetration_mm  as for `allowable_n`, mm
    tension_n                    pull on it, N, 0 to 1 000 000
    returns                      verdict, N

    Source: as for `allowable_n`.
    Raises OutOfRange outside the limits, NotAChoice for another connector.

    >>> verdict("wood screw", 0.48, 4.17, 25, 500).word.value
    'over'
    """
    allowed = allowable_n(connector, specific_gravity, diameter_mm, penetration_mm)
    within("tension_n", tension_n, 0, 1e6, "N")
    return at_most(
        "withdrawal",
        f"The pull on the {ALSO_CALLED.get(connector, connector)}",
        tension_n,
        allowed,
        "N",
        SOURCE,
        standing=LEFT_OUT_OF_LOADS,
        working=(
            ("specific gravity", f"{specific_gravity:g}"),
            ("diameter", f"{diameter_mm:g} mm"),
            ("penetration", f"{penetration_mm:g} mm"),
            ("divisor", f"{divisor(connector):.2f}"),
        ),
    )


def _named(connector: str) -> Connector:
    try:
        return CONNECTORS[ALSO_CALLED.get(connector, connector)]
    except (KeyError, TypeError):
        raise NotAChoice(
            f"is {shown(connector)}.",
            f"Choose one of: {', '.join(CONNECTORS)}.",
            field="connector",
            value=connector,
            about="connector",
        ) from None


def _connector(connector: str, specific_gravity: float, diameter_mm: float, penetration_mm: float) -> Connector:
    sort = _named(connector)
    within(
        "specific_gravity",
        specific_gravity,
        GRAVITY_LOW,
        GRAVITY_HIGH,
        "",
        "Give it as a ratio to water, as 0.48, not in kg/m³.",
    )
    within("diameter_mm", diameter_mm, sort.low_mm, sort.high_mm, "mm")
    within("penetration_mm", penetration_mm, 0, DEEPEST_MM, "mm")
    return sort

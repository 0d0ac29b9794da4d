"""A part's weight against the published guidelines for lifting it, and how many people it takes.

The filter asks where the hands are and who lifts. It does not cover carrying up stairs or ladders, lifting
to one side, slippery or gusty places, nor people who are unwell or pregnant. For a lift that is planned or
done often there is the lifting equation beside it.
"""

from __future__ import annotations

from collections.abc import Mapping

from ..errors import NotAChoice
from .cautions import CAUTIONS
from .limits import within
from .verdict import Verdict, at_most

SOURCE = "HSE INDG143 (rev4), figure 1, lifting and lowering filter; team share from HSE L23"
MASS_HIGH_KG = 10_000.0

# Where the hands are, and the guideline for them close to the body and at arm's length, kg.
ZONES: Mapping[str, Mapping[str, tuple[float, float]]] = {
    "above shoulder": {"men": (10, 5), "women": (7, 3)},
    "shoulder to elbow": {"men": (20, 10), "women": (13, 7)},
    "elbow to knuckle": {"men": (25, 15), "women": (16, 10)},
    "knuckle to mid lower leg": {"men": (20, 10), "women": (13, 7)},
    "below mid lower leg": {"men": (10, 5), "women": (7, 3)},
}
LIFTERS = ("men", "women")
REACHES = ("close", "far")
# (lifts a minute up to, share that is left). The guideline names 30 lifts an hour, 1 to 2, 5 to 8 and above 12 a
# minute; what lies between takes the harder of its neighbours.
FREQUENCY_SHARES = ((0.5, 1.0), (2.0, 0.7), (8.0, 0.5), (float("inf"), 0.2))
LIFTS_HIGH = 20.0
# (twist of the trunk up to, degrees, share that is left).
TWIST_SHARES = ((45.0, 1.0), (90.0, 0.9), (float("inf"), 0.8))
TWIST_HIGH_DEG = 135.0
# Share of the sum of what each could lift alone, by the number of people; there is no figure for more than three.
TEAM_SHARES = {1: 1.0, 2: 2 / 3, 3: 0.5}

# Height of the hands above the floor up to which each zone reaches, mm, for a middling adult: common practice,
# no source.
ZONE_TOPS_MM = (
    (300.0, "below mid lower leg"),
    (700.0, "knuckle to mid lower leg"),
    (1000.0, "elbow to knuckle"),
    (1350.0, "shoulder to elbow"),
    (float("inf"), "above shoulder"),
)
HANDS_HIGH_MM = 10_000.0


def guideline_kg(zone: str, reach: str, lifters: str, lifts_per_minute: float = 0.5, twist_deg: float = 0.0) -> float:
    """What one person may lift before the lift has to be looked at more closely.

    zone              where the hands are: a key of `ZONES`; where they pass through several, the least of them counts
    reach             "close": upper arms hang down, forearms may be level; "far": arms stretched out
    lifters           "men" or "women", as the guideline has it; take "women" where it is not known who lifts
    lifts_per_minute  number of lifts a minute, 0 to 20; up to 0.5 is an occasional lift
    twist_deg         twist of the trunk, degrees (°), 0 to 135
    returns           kg; protects about 95 % of those it names; it is no safe limit

    Source: HSE INDG143 (rev4), figure 1 and the reductions beside it. Departs from it in multiplying the two
    reductions, about which it says nothing.
    Raises OutOfRange outside the limits, NotAChoice for another zone, reach or lifter.

    >>> guideline_kg("elbow to knuckle", "close", "men", lifts_per_minute=6, twist_deg=60)
    11.25
    """
    for name, value, choices in (("zone", zone, ZONES), ("reach", reach, REACHES), ("lifters", lifters, LIFTERS)):
        if value not in choices:
            raise NotAChoice(
                f"is {value}.", f"Choose one of: {', '.join(choices)}.", field=name, value=value, about=name
            )
    within("lifts_per_minute", lifts_per_minute, 0, LIFTS_HIGH, "a minute")
    within("twist_deg", twist_deg, 0, TWIST_HIGH_DEG, "°")
    frequency = next(share for highest, share in FREQUENCY_SHARES if lifts_per_minute <= highest)
    twist = next(share for highest, share in TWIST_SHARES if twist_deg <= highest)
    return ZONES[zone][lifters][REACHES.index(reach)] * frequency * twist


def worst_zone(hands_from_mm: float, hands_to_mm: float) -> str:
    """The zone with the least guideline that the hands pass through.

    hands_from_mm, hands_to_mm  height of the hands above the floor at both ends of the lift, mm, 0 to 10 000
    returns                     a key of `ZONES`

    Source: HSE INDG143 (rev4): through several zones the least figure counts; heights of the zones: common
    practice, no source.
    Raises OutOfRange outside the limits above.

    >>> worst_zone(800, 1500)
    'above shoulder'
    """
    low, high = sorted(
        within(name, hands_mm, 0, HANDS_HIGH_MM, "mm")
        for name, hands_mm in (("hands_from_mm", hands_from_mm), ("hands_to_mm", hands_to_mm))
    )
    bottoms = (0.0, *(top for top, _ in ZONE_TOPS_MM))
    passed = [zone for (top, zone), bottom in zip(ZONE_TOPS_MM, bottoms, strict=False) if low <= top and high > bottom]
    return min(passed or [ZONE_TOPS_MM[0][1]], key=lambda zone: ZONES[zone]["men"])


def people(mass_kg: float, guideline_kg: float) -> int | None:
    """How many people it takes to lift a part by hand.

    mass_kg       mass of the part, kg, 0 to 10 000
    guideline_kg  what one person may lift, kg, 0 to 100
    returns       1, 2 or 3; None: too much for three, so a hoist, a trolley or smaller pieces

    Source: HSE L23, guidance on team handling: two people two thirds, three people half of the sum of what each
    could lift alone (second-hand, in two bodies' guidance).
    Raises OutOfRange outside the limits above.

    >>> people(26.6, 20)
    2
    """
    within("mass_kg", mass_kg, 0, MASS_HIGH_KG, "kg")
    within("guideline_kg", guideline_kg, 0, 100, "kg")
    return next((count for count in TEAM_SHARES if mass_kg <= team_kg(guideline_kg, count)), None)


def team_kg(guideline_kg: float, people: int) -> float:
    """What a team may lift together.

    guideline_kg  what each person may lift alone, kg, 0 to 100
    people        number of people, 1 to 3
    returns       kg

    Source: as for `people`.
    Raises OutOfRange outside the limits above.

    >>> round(team_kg(20, 2), 1)
    26.7
    """
    within("guideline_kg", guideline_kg, 0, 100, "kg")
    within("people", people, 1, max(TEAM_SHARES), "people")
    return guideline_kg * people * TEAM_SHARES[people]


def verdict(mass_kg: float, guideline_kg: float, team: int = 1) -> Verdict:
    """Whether a part is within the guideline for the people who lift it.

    mass_kg       mass of the part, kg, 0 to 10 000
    guideline_kg  what one person may lift, kg, 0 to 100
    team          number of people who lift it, 1 to 3
    returns       verdict, kg

    Source: as for `guideline_kg` and `people`.
    Raises OutOfRange outside the limits.

    >>> verdict(15, 16).word.value
    'close'
    """
    within("mass_kg", mass_kg, 0, MASS_HIGH_KG, "kg")
    needed = people(mass_kg, guideline_kg)
    takes = f"It takes {needed}." if needed else "Too much for three: a hoist, a trolley or smaller pieces."
    return at_most(
        "lifting",
        f"The mass for {team} to lift",
        mass_kg,
        team_kg(guideline_kg, team),
        "kg",
        SOURCE,
        after=takes,
        standing=CAUTIONS["lifting"].text,
        working=(("guideline for one", f"{guideline_kg:g} kg"), ("people", str(team))),
    )

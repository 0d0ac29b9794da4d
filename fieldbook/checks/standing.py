"""Things that stand on the floor by their own weight: do they tip, do they slide?

Axes of the floor: x and y level, heights above it. Weights are taken at their least where they steady and at their
greatest where they tip, people's pushes and weights at half as much again. Does not cover sway, impact, soft or
broken floors, nor what is fixed to a wall as well.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import NamedTuple

from shapely import MultiPoint

from ..errors import UnsuitableShape
from .cautions import LEFT_OUT_OF_LOADS
from .face_load import FORCE_HIGH_N, GRAVITY_M_S2, MASS_HIGH_KG, PLACE_HIGH_MM
from .limits import within
from .verdict import Verdict, share_used

SOURCE = "EN 1990:2002, 6.4.2 and Table A1.2(A), set EQU: 0.90 steadying, 1.10 and 1.50 tipping"
STEADYING, TIPPING, PUSHING = 0.90, 1.10, 1.50
FALL_HIGH_MM_M = 100.0
FRICTION_HIGH = 1.0
FEET_HIGH = 1_000
Point = tuple[float, float]
Inside = Callable[[float, float], float]


class StandingPart(NamedTuple):
    """A part that stands: its mass, kg, and its centre of mass, mm: x and y on the floor's axes, and height."""

    mass_kg: float
    x_mm: float
    y_mm: float
    height_mm: float


class Push(NamedTuple):
    """What people do to it, one thing at a time.

    level_n    push or pull level with the floor, in whichever direction is worst, N
    height_mm  where that acts, mm above the floor
    down_n     weight put on it, N
    x_mm, y_mm where that weight acts, mm
    """

    level_n: float = 0.0
    height_mm: float = 0.0
    down_n: float = 0.0
    x_mm: float = 0.0
    y_mm: float = 0.0


class Edge(NamedTuple):
    """How near a thing is to tipping over one edge of its base.

    along_mm   the edge, from (x, y) to (x, y), mm
    tipping_nmm, steadying_nmm   moments about it, with the factors of EN 1990, N·mm
    use        the first over the second, no unit; infinite where nothing steadies
    """

    along_mm: tuple[tuple[float, float], tuple[float, float]]
    tipping_nmm: float
    steadying_nmm: float

    @property
    def use(self) -> float:
        """Tipping over steadying moment, no unit."""
        return self.tipping_nmm / self.steadying_nmm if self.steadying_nmm > 0 else math.inf


def tipping(
    feet_mm: Sequence[Sequence[float]],
    parts: Sequence[StandingPart],
    pushes: Sequence[Push] = (),
    fall_mm_m: float = 0.0,
) -> Edge:
    """The edge that a standing thing is nearest to tipping over, under the worst of several pushes.

    feet_mm    (x, y) where it touches the floor, mm, -100 000 to 100 000; at least 3 not in one line
    parts      what stands, with its load, kg and mm; 1 or more
    pushes     what people do, each by itself, N and mm; with none of them is tried as well
    fall_mm_m  how far the floor falls, in whichever direction is worst, mm per m, 0 to 100
    returns    the edge, with its moments, N·mm

    Source: EN 1990:2002, 6.4.2, equation 6.7, and Table A1.2(A), as in Steel Buildings in Europe, part 3, Table 3.1.
    Raises OutOfRange outside the limits, UnsuitableShape for feet in one line.

    >>> plinth = [(0, 0), (400, 0), (400, 400), (0, 400)]
    >>> round(tipping(plinth, [StandingPart(50, 200, 200, 500)], [Push(level_n=60, height_mm=900)]).use, 3)
    0.917
    """
    corners = base(feet_mm)
    _check(parts, pushes)
    fall = within("fall_mm_m", fall_mm_m, 0, FALL_HIGH_MM_M, "mm/m") / 1000
    pairs = zip(corners, (*corners[1:], corners[0]), strict=True)
    found = [_about(start, end, parts, push, fall) for start, end in pairs for push in (Push(), *pushes)]
    # Of edges that nothing steadies, the one that most tips.
    return max(found, key=lambda edge: (edge.use, edge.tipping_nmm))


def sliding_n(
    parts: Sequence[StandingPart], pushes: Sequence[Push], friction: float, fall_mm_m: float = 0.0
) -> tuple[float, float]:
    """What pushes a standing thing along the floor, and what friction holds, at the worst of several pushes.

    parts      what stands, kg; 1 or more
    pushes     what people do, each by itself, N
    friction   coefficient of friction of the feet on this floor, the lowest met, no unit, above 0 to 1
    fall_mm_m  how far the floor falls, mm per m, 0 to 100
    returns    force along the floor and force held, with the factors of EN 1990, N

    Source: EN 1990:2002, 6.4.2 and Table A1.2(A); Coulomb friction.
    Raises OutOfRange outside the limits.

    >>> [round(force, 2) for force in sliding_n([StandingPart(50, 0, 0, 0)], [Push(level_n=60)], 0.3)]
    [90.0, 132.44]
    """
    _check(parts, pushes)
    within("friction", friction, 1e-6, FRICTION_HIGH, "")
    fall = within("fall_mm_m", fall_mm_m, 0, FALL_HIGH_MM_M, "mm/m") / 1000
    weight = sum(part.mass_kg for part in parts) * GRAVITY_M_S2
    pushed = max(PUSHING * (push.level_n + fall * push.down_n) for push in (Push(), *pushes))
    return pushed + TIPPING * fall * weight, friction * STEADYING * weight


def base(feet_mm: Sequence[Sequence[float]]) -> list[Point]:
    """Corners of the base, the tight line round all feet, so that it lies to the left of each edge.

    feet_mm  (x, y) where it touches the floor, mm, -100 000 to 100 000; at least 3 not in one line
    returns  (x, y) of each corner, mm

    Source: the convex hull, plane geometry.
    Raises OutOfRange outside the limits, UnsuitableShape for feet in one line.

    >>> len(base([(0, 0), (400, 0), (200, 100), (200, 300)]))
    3
    """
    within("feet_mm", len(feet_mm), 1, FEET_HIGH, "feet")
    for place, foot in enumerate(feet_mm):
        for number in foot:
            within(f"feet_mm[{place}]", number, -PLACE_HIGH_MM, PLACE_HIGH_MM, "mm")
    hull = MultiPoint(list(feet_mm)).convex_hull
    if hull.geom_type != "Polygon":
        raise UnsuitableShape(
            "The feet stand in one line: nothing keeps it from tipping.",
            "Give at least three feet that are not in one line, or the corners of its base.",
            field="feet_mm",
            value=len(feet_mm),
        )
    corners = [(x, y) for x, y in hull.exterior.coords][:-1]
    return corners if hull.exterior.is_ccw else corners[::-1]


def edges(feet_mm: Sequence[Sequence[float]]) -> list[Inside]:
    """How far inside each edge of the base a place lies, mm, as functions of its x and y, mm.

    feet_mm  (x, y) where it touches the floor, mm, -100 000 to 100 000; at least 3 not in one line
    returns  a function for each edge, mm; below 0 outside it

    Source: the distance of a point from a line, plane geometry.
    Raises what `base` raises.

    >>> sorted(inside(100, 50) for inside in edges([(0, 0), (400, 0), (400, 400), (0, 400)]))
    [50.0, 100.0, 300.0, 350.0]
    """
    corners = base(feet_mm)
    return [_inside(start, end) for start, end in zip(corners, (*corners[1:], corners[0]), strict=True)]


def _inside(start: Point, end: Point) -> Inside:
    along_x, along_y = end[0] - start[0], end[1] - start[1]
    length = math.hypot(along_x, along_y)
    return lambda x, y: (along_x * (y - start[1]) - along_y * (x - start[0])) / length


def tipping_verdict(edge: Edge) -> Verdict:
    """Whether a standing thing stays up, from the edge it is nearest to tipping over.

    edge     as `tipping` gives it, N·mm
    returns  verdict, %, of the steadying moment used, up to 100; no figure where next to nothing steadies

    Source: as for `tipping`.

    >>> tipping_verdict(Edge(((0, 0), (400, 0)), 90.0, 80.0)).word.value
    'over'
    """
    working = (
        ("tipping moment", f"{edge.tipping_nmm:.0f} N·mm"),
        ("steadying moment", f"{edge.steadying_nmm:.0f} N·mm"),
    )
    steadies = "What tips it is many times what steadies it" if edge.steadying_nmm > 0 else "Nothing steadies it"
    beyond = f"It tips over. {steadies}: make its base wider or heavier, or fix it above."
    return _share("tipping", "What tips it, as a share of what steadies it,", edge.use, beyond, working)


def sliding_verdict(pushed_n: float, held_n: float) -> Verdict:
    """Whether a standing thing stays where it is, from what `sliding_n` gives.

    pushed_n  force along the floor, N, 0 or more
    held_n    force that friction holds, N, 0 or more
    returns   verdict, %, of the friction used, up to 100; no figure where next to nothing holds

    Source: as for `sliding_n`.
    Raises OutOfRange outside the limits.

    >>> sliding_verdict(90, 132.4).word.value
    'within'
    """
    within("pushed_n", pushed_n, 0, 1e9, "N")
    within("held_n", held_n, 0, 1e9, "N")
    use = pushed_n / held_n if held_n > 0 else math.inf
    working = (("pushed along the floor", f"{pushed_n:.1f} N"), ("held by friction", f"{held_n:.1f} N"))
    beyond = "It slides: next to nothing holds it where it stands. Make it heavier, or fix it."
    return _share("sliding", "What pushes it along, as a share of what friction holds,", use, beyond, working)


def _share(check: str, what: str, use: float, beyond: str, working: tuple[tuple[str, str], ...]) -> Verdict:
    return share_used(check, what, use, SOURCE, beyond=beyond, standing=LEFT_OUT_OF_LOADS, working=working)


def _about(
    start: tuple[float, float], end: tuple[float, float], parts: Sequence[StandingPart], push: Push, fall: float
) -> Edge:
    """Moments about one edge of the base, whose corners run so that the base lies to the left."""
    inside = _inside(start, end)
    arms = [(part.mass_kg * GRAVITY_M_S2, inside(part.x_mm, part.y_mm) - fall * part.height_mm) for part in parts]
    tips = PUSHING * push.level_n * push.height_mm
    tips += sum(TIPPING * weight * -arm for weight, arm in arms if arm < 0)
    # What people put on it counts only where it tips.
    tips += PUSHING * push.down_n * max(0.0, -inside(push.x_mm, push.y_mm))
    steadies = sum(STEADYING * weight * arm for weight, arm in arms if arm > 0)
    return Edge((start, end), tips, steadies)


def _check(parts: Sequence[StandingPart], pushes: Sequence[Push]) -> None:
    within("parts", len(parts), 1, FEET_HIGH, "parts")
    for place, part in enumerate(parts):
        within(f"parts[{place}].mass_kg", part.mass_kg, 0, MASS_HIGH_KG, "kg")
        for name in ("x_mm", "y_mm"):
            within(f"parts[{place}].{name}", getattr(part, name), -PLACE_HIGH_MM, PLACE_HIGH_MM, "mm")
        within(f"parts[{place}].height_mm", part.height_mm, 0, PLACE_HIGH_MM, "mm")
    for place, push in enumerate(pushes):
        for name, low, high, unit in (
            ("level_n", 0, FORCE_HIGH_N, "N"),
            ("height_mm", 0, PLACE_HIGH_MM, "mm"),
            ("down_n", 0, FORCE_HIGH_N, "N"),
            ("x_mm", -PLACE_HIGH_MM, PLACE_HIGH_MM, "mm"),
            ("y_mm", -PLACE_HIGH_MM, PLACE_HIGH_MM, "mm"),
        ):
            within(f"pushes[{place}].{name}", getattr(push, name), low, high, unit)

"""Heights to mark for a level line on a floor that is not, from staff or laser readings.

At each set-up of the level, readings are taken down to points of the floor: on the staff where the
line of sight meets it, or with a rule from the laser's line. More reading is a lower floor. The next
set-up begins on a point already read; the round ends where it began, and what is then left over is the
closing error. Does not cover the curve of the earth or sights too long for one room.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from ..errors import UnsuitableShape
from .limits import within
from .verdict import Verdict, at_most

SOURCE = "Levelling by height of instrument, closing error shared alike among the set-ups: common practice, no source"
SETUPS_HIGH = 1000
READING_HIGH_MM = 20_000.0
# Staff held upside down against something above the line of sight.
READING_LOW_MM = -20_000.0
LINE_HIGH_MM = 100_000.0

Setup = Sequence[tuple[str, float]]


class Levels(NamedTuple):
    """What a round of readings comes to.

    floor_mm          height of each point of the floor above the first, mm
    closing_error_mm  what came out for the first point at the end, mm; None for a line that does not come back
    repeats_mm        other points read again: how much higher they came out the second time, mm
    """

    floor_mm: Mapping[str, float]
    closing_error_mm: float | None
    repeats_mm: Mapping[str, float]


def levels(setups: Sequence[Setup]) -> Levels:
    """How high each point of the floor is above the first one.

    setups   for each set-up its readings (point, mm), in the order taken, -20 000 to 20 000 mm (below 0: staff upside
             down); each set-up after the first begins on a point read before; 1 to 1000 set-ups
    returns  heights, mm, with the closing error taken out where the last set-up reads the first point again

    Source: height-of-instrument method; each set-up bears the same part of the error. Common practice, no source.
    Raises OutOfRange outside the limits, UnsuitableShape for a set-up that begins on a point not read before,
    that has fewer than two readings, or that reads one point twice.

    >>> levels([[("A", 1320), ("B", 1355)], [("B", 1290), ("A", 1256)]])
    Levels(floor_mm={'A': 0.0, 'B': -34.5}, closing_error_mm=-1.0, repeats_mm={})
    """
    within("setups", len(setups), 1, SETUPS_HIGH, "set-ups")
    found: dict[str, tuple[float, int]] = {}
    repeats: dict[str, float] = {}
    for number, setup in enumerate(setups, start=1):
        _check(setup, number, found)
        back, reading = setup[0]
        instrument = found.setdefault(back, (0.0, 0))[0] + reading
        for point, staff in setup[1:]:
            height = instrument - staff
            if point in found:
                repeats[point] = height - found[point][0]
            else:
                found[point] = (height, number)
    start = setups[0][0][0]
    closing = repeats.pop(start) if start in _points(setups[-1][1:]) else None
    part = (closing or 0.0) / len(setups)
    return Levels({point: height - part * number for point, (height, number) in found.items()}, closing, repeats)


def marks_mm(floor_mm: Mapping[str, float], line_mm: float) -> dict[str, float]:
    """How far above the floor a level line is marked at each point.

    floor_mm  height of the floor at each point above the first, mm
    line_mm   how far above the floor the line is wanted at the first point, mm, 0 to 100 000
    returns   mm above the floor at each point; below 0 where the floor is higher than the line

    Source: arithmetic.
    Raises OutOfRange outside the limits.

    >>> marks_mm({"A": 0, "B": -34.5}, 1400)
    {'A': 1400, 'B': 1434.5}
    """
    within("line_mm", line_mm, 0, LINE_HIGH_MM, "mm")
    return {point: line_mm - height for point, height in floor_mm.items()}


def allowed_difference_mm(distance_m: float, tolerance_mm_per_m: float) -> float:
    """How far two opposite readings over a distance may differ with an instrument that keeps its tolerance.

    distance_m          distance over which it is read there and back, m, 0 to 1000
    tolerance_mm_per_m  what the maker states, plus or minus, mm per m, 0 to 10
    returns             mm

    Source: check between two walls, twice the distance times the tolerance: common practice, no source.
    Raises OutOfRange outside the limits above.

    >>> allowed_difference_mm(5, 0.3)
    3.0
    """
    within("distance_m", distance_m, 0, 1000, "m")
    within("tolerance_mm_per_m", tolerance_mm_per_m, 0, 10, "mm/m")
    return 2 * distance_m * tolerance_mm_per_m


def verdict(closing_error_mm: float, distance_m: float, tolerance_mm_per_m: float) -> Verdict:
    """Whether a round closes as well as its instrument allows.

    closing_error_mm                what is left over, mm, -100 000 to 100 000
    distance_m, tolerance_mm_per_m  as for `allowed_difference_mm`, m and mm per m; the distance out, half the round
    returns                         verdict, mm

    Source: as for `allowed_difference_mm`.
    Raises OutOfRange outside the limits.

    >>> verdict(-1, 5, 0.3).word.value
    'within'
    """
    within("closing_error_mm", closing_error_mm, -100_000, 100_000, "mm")
    return at_most(
        "level",
        "The closing error of the round",
        abs(closing_error_mm),
        allowed_difference_mm(distance_m, tolerance_mm_per_m),
        "mm",
        SOURCE,
        working=(("distance out", f"{distance_m:g} m"), ("instrument", f"± {tolerance_mm_per_m:g} mm/m")),
    )


def _points(setup: Setup) -> list[str]:
    return [point for point, _ in setup]


def _check(setup: Setup, number: int, found: Mapping[str, object]) -> None:
    """Refuse a set-up that cannot be joined to those before it."""
    for point, reading in setup:
        within(f"the reading of {point}", reading, READING_LOW_MM, READING_HIGH_MM, "mm")
    points = _points(setup)
    if len(points) < 2 or len(set(points)) < len(points):
        raise UnsuitableShape(
            f"Set-up {number} reads {', '.join(points) or 'nothing'}.",
            "Read at least two points from each set-up, and each of them once.",
            field="readings",
            value=number,
        )
    if number > 1 and points[0] not in found:
        raise UnsuitableShape(
            f"Set-up {number} begins on {points[0]}, which no set-up before it has read.",
            "Begin each set-up on a point already read.",
            field="readings",
            value=points[0],
        )

"""What a long rail's fixings carry of things that hang at places along it.

A stiff rail shares a load over all its fixings, a supple one over those nearest to it. How stiff a rail is against
its fixings is seldom known, so each fixing counts at the worse of three: rigid, jointed over every fixing, and bent
over all of them as a continuous beam. Does not cover a rail that twists, nor one whose fixings stand proud unevenly.
"""

from __future__ import annotations

from collections.abc import Sequence

from ..errors import UnsuitableShape
from .face_load import PLACE_HIGH_MM, Force, resultant
from .fixing_forces import Carried, Contact, Fixing, carried, holding, worst
from .limits import within

SUPPORTS_HIGH = 1_000
# Fixings nearer than this along the rail stand above one another, as they were set out: common practice, no source.
SAME_PLACE_MM = 50.0

Shares = list[float]


def jointed_shares(supports_mm: Sequence[float], at_mm: float) -> Shares:
    """How a load goes to the supports of a beam that is jointed over each of them; it may overhang an end.

    supports_mm  places along the beam, mm, rising, -100 000 to 100 000; 2 to 1 000
    at_mm        place of the load, mm, -100 000 to 100 000
    returns      part of the load on each support, no unit; below 0 where an overhang lifts it

    Source: lever rule, statics.
    Raises OutOfRange outside the limits, UnsuitableShape for supports that do not rise.

    >>> jointed_shares([0, 400, 800], 500)
    [0.0, 0.75, 0.25]
    """
    span = _span(supports_mm, at_mm)
    length = supports_mm[span + 1] - supports_mm[span]
    far = (at_mm - supports_mm[span]) / length
    shares = [0.0] * len(supports_mm)
    shares[span], shares[span + 1] = 1 - far, far
    return shares


def continuous_shares(supports_mm: Sequence[float], at_mm: float) -> Shares:
    """How a load goes to the supports of a beam that runs through over all of them; it may overhang an end.

    supports_mm  places along the beam, mm, rising, -100 000 to 100 000; 2 to 1 000
    at_mm        place of the load, mm, -100 000 to 100 000
    returns      part of the load on each support, no unit; below 0 where it is lifted

    Source: theorem of three moments (Clapeyron) for a beam of one section on unyielding supports; two equal spans in
    Lindeburg, Civil Engineering Reference Manual, 15th ed.
    Raises OutOfRange outside the limits, UnsuitableShape for supports that do not rise.

    >>> continuous_shares([0, 400, 800], 200)
    [0.40625, 0.6875, -0.09375]
    """
    span = _span(supports_mm, at_mm)
    lengths = [right - left for left, right in zip(supports_mm, supports_mm[1:], strict=False)]
    shares, moments = [0.0] * len(supports_mm), [0.0] * len(supports_mm)
    terms = [0.0] * len(supports_mm)  # what the load puts into the equation of each support
    if at_mm < supports_mm[0]:
        shares[0], moments[0] = 1.0, at_mm - supports_mm[0]
    elif at_mm > supports_mm[-1]:
        shares[-1], moments[-1] = 1.0, supports_mm[-1] - at_mm
    else:
        shares = jointed_shares(supports_mm, at_mm)
        length, near, far = lengths[span], at_mm - supports_mm[span], supports_mm[span + 1] - at_mm
        terms[span] = far * (length * length - far * far) / length
        terms[span + 1] = near * (length * length - near * near) / length
    _three_moments(lengths, terms, moments)
    for place, length in enumerate(lengths):
        couple = (moments[place + 1] - moments[place]) / length
        shares[place] += couple
        shares[place + 1] -= couple
    return shares


def rail_carried(
    fixings: Sequence[Fixing], forces: Sequence[Force], contact: Contact, softness_mm2: float | None = None
) -> list[Carried]:
    """What each fixing of a rail along x carries, at the worse of rigid, jointed and continuous.

    fixings       1 to 1 000, mm
    forces        weights and pulls where they act, N and mm; of what lifts or presses only the rigid share is counted
    contact       what the rail bears on, mm
    softness_mm2  as for `carried`, mm²
    returns       one for each fixing, N; shear and pull may come from different cases, which is on the safe side

    Source: as for `carried`, `jointed_shares` and `continuous_shares`.
    Raises what `carried` raises.

    >>> row = [Fixing(x, 50) for x in (0, 400, 800)]
    >>> lamp = Force(0, -120, 0, 800, 0, 0)
    >>> [round(each.shear_n) for each in rail_carried(row, [lamp], Contact([(0, 0), (800, 0), (800, 60), (0, 60)]))]
    [20, 40, 120]
    """
    rigid = carried(fixings, resultant(forces), contact, softness_mm2)
    columns = columns_of(fixings)
    if len(columns) < 2:
        return rigid
    places = [column[0] for column in columns]
    gap = min(right - left for left, right in zip(places, places[1:], strict=False))
    shared = [_greatest(places, force.x_mm) for force in forces]
    local = list(rigid)
    for number, (x, members) in enumerate(columns):
        group = [fixings[member] for member in members]
        middle = sum(fixing.z_mm for fixing in group) / len(group)
        here = [_across(force, shares[number], x) for force, shares in zip(forces, shared, strict=True)]
        here += [Force(force.x_n / len(columns), 0.0, 0.0, x, middle, 0.0) for force in forces]
        level = [fixing._replace(x_mm=x) for fixing in group]
        for member, each in zip(
            members, carried(level, resultant(here), _below(contact, fixings, x, gap), softness_mm2), strict=True
        ):
            local[member] = each
    return worst([rigid, local])


def _greatest(places: Sequence[float], at_mm: float) -> Shares:
    both = zip(jointed_shares(places, at_mm), continuous_shares(places, at_mm), strict=True)
    return [max(0.0, jointed, continuous) for jointed, continuous in both]


def _across(force: Force, share: float, x_mm: float) -> Force:
    """What acts across the rail, its part on one column of fixings; how the rail turns as a whole is the rigid case."""
    down, out = min(force.z_n, 0.0) * share, max(force.out_n, 0.0) * share
    return Force(0.0, down, out, x_mm, force.z_mm, force.out_mm)


def columns_of(fixings: Sequence[Fixing]) -> list[tuple[float, list[int]]]:
    """The fixings that hold, by their place along the rail, those that stand above one another together.

    fixings  1 to 1 000, mm
    returns  place of each column from the left, mm, and the numbers of its fixings

    Source: within 50 mm counts as one place: common practice, no source.
    Raises OutOfRange outside the limits; Missing where nothing holds.

    >>> columns_of([Fixing(0, 0), Fixing(3, 500), Fixing(400, 0)])
    [(0, [0, 1]), (400, [2])]
    """
    holding(fixings)
    columns: list[tuple[float, list[int]]] = []
    for number in sorted(range(len(fixings)), key=lambda number: fixings[number].x_mm):
        if not fixings[number].holds:
            continue
        if columns and fixings[number].x_mm - columns[-1][0] < SAME_PLACE_MM:
            columns[-1][1].append(number)
        else:
            columns.append((fixings[number].x_mm, [number]))
    return columns


def _below(contact: Contact, fixings: Sequence[Fixing], x_mm: float, gap_mm: float) -> Contact:
    """What a rail bears on at one column: a strip of the outline as wide as the gap, and pads level with the column."""
    pads = [(x_mm, point[1]) for point in contact.pads_mm]
    if not contact.outline_mm:
        return Contact((), pads or [(x_mm, fixing.z_mm) for fixing in fixings], contact.pad_mm2)
    crossed = []
    corners = contact.outline_mm
    for (x1, z1), (x2, z2) in zip(corners, (*corners[1:], corners[0]), strict=True):
        if min(x1, x2) <= x_mm <= max(x1, x2):
            crossed += [z1, z2] if x1 == x2 else [z1 + (z2 - z1) * (x_mm - x1) / (x2 - x1)]
    if not crossed:
        return Contact((), pads or [(x_mm, fixing.z_mm) for fixing in fixings], contact.pad_mm2)
    low, high, half = min(crossed), max(crossed), gap_mm / 2
    strip = [(x_mm - half, low), (x_mm + half, low), (x_mm + half, high), (x_mm - half, high)]
    return Contact(strip, pads, contact.pad_mm2)


def _span(supports_mm: Sequence[float], at_mm: float) -> int:
    """Which span a load stands in, or the end span it overhangs."""
    within("supports_mm", len(supports_mm), 2, SUPPORTS_HIGH, "supports")
    for place, support in enumerate(supports_mm):
        within(f"supports_mm[{place}]", support, -PLACE_HIGH_MM, PLACE_HIGH_MM, "mm")
        if place and not support > supports_mm[place - 1]:
            raise UnsuitableShape(
                "The supports of a beam must rise along it.",
                "Give their places from left to right, each once.",
                field=f"supports_mm[{place}]",
                value=support,
            )
    within("at_mm", at_mm, -PLACE_HIGH_MM, PLACE_HIGH_MM, "mm")
    return next(
        (place for place in range(len(supports_mm) - 2) if at_mm <= supports_mm[place + 1]), len(supports_mm) - 2
    )


def _three_moments(lengths: Sequence[float], terms: Sequence[float], moments: list[float]) -> None:
    """Fill in the moments over the inner supports, those over the ends being known; elimination in one pass."""
    inner = range(1, len(lengths))
    slopes, rests = [0.0] * len(moments), [0.0] * len(moments)
    rests[0] = moments[0]
    for place in inner:
        left, right = lengths[place - 1], lengths[place]
        whole = 2 * (left + right) - left * slopes[place - 1]
        slopes[place] = right / whole
        rests[place] = (-terms[place] - left * rests[place - 1]) / whole
    for place in reversed(inner):
        moments[place] = rests[place] - slopes[place] * moments[place + 1]

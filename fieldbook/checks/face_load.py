"""Loads on a face that may lean: weights, people's pulls, and what all of them come to.

Axes of the face: x to the right, z up along the face, out of the face towards the viewer; places in mm from the
face's datum, forces in N with the signs of the axes.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from .limits import within

GRAVITY_M_S2 = 9.81  # standard gravity 9.80665 (ISO 80000-3), rounded up
MASS_HIGH_KG = 100_000.0
PLACE_HIGH_MM = 100_000.0
FORCE_HIGH_N = 1e6


class Force(NamedTuple):
    """One force, N, and the point it acts at, mm, along the axes of the face."""

    x_n: float
    z_n: float
    out_n: float
    x_mm: float
    z_mm: float
    out_mm: float


class Resultant(NamedTuple):
    """What several forces come to, about the face's datum.

    x_n, z_n, out_n  forces, N
    turn_nmm         moment in the plane of the face, N·mm, x towards z
    right_nmm        moment that draws the right side off the face, N·mm: Σ(out·x − along x·standoff)
    top_nmm          moment that draws the top off the face, N·mm: Σ(out·z − along z·standoff)
    """

    x_n: float
    z_n: float
    out_n: float
    turn_nmm: float
    right_nmm: float
    top_nmm: float


def down(slope_deg: float) -> tuple[float, float, float]:
    """Which way a weight pulls on a face: x, z and out parts of 1.

    slope_deg  how far the face leans over whoever stands below it, degrees from plumb, -90 to 90: a plumb wall 0, a
               ceiling 90, a raking soffit between; below 0 it leans back, down to a floor or a sill at -90
    returns    parts of the direction of gravity, no unit

    Source: geometry.
    Raises OutOfRange outside the limits.

    >>> [round(part, 3) for part in down(30)]
    [0.0, -0.866, 0.5]
    """
    within("slope_deg", slope_deg, -90, 90, "°")
    lean = math.radians(slope_deg)
    # The cosine of a right angle is 6e-17 in floating point, which is not a force.
    return 0.0, -math.cos(lean) if abs(slope_deg) != 90 else 0.0, math.sin(lean)


def weight(mass_kg: float, at_mm: Sequence[float], slope_deg: float = 0.0) -> Force:
    """The weight of a thing as a force on the face.

    mass_kg    kg, 0 to 100 000
    at_mm      x, z and out of its centre of mass, mm, -100 000 to 100 000 each
    slope_deg  as for `down`, degrees
    returns    force, N, at the centre of mass

    Source: weight is mass times gravity, 9.81 m/s² (ISO 80000-3, rounded up).
    Raises OutOfRange outside the limits.

    >>> weight(60, (500, 300, 200), 90)
    Force(x_n=0.0, z_n=0.0, out_n=588.6, x_mm=500, z_mm=300, out_mm=200)
    """
    newtons = within("mass_kg", mass_kg, 0, MASS_HIGH_KG, "kg") * GRAVITY_M_S2
    x, z, out = _place(at_mm)
    return Force(*_downward(newtons, slope_deg), x, z, out)


def people(
    outline_mm: Sequence[Sequence[float]], front_mm: float, pull_n: float, push_down_n: float, slope_deg: float = 0.0
) -> list[Force]:
    """Where people pull hardest: straight out of the face at each corner, and down on the front edge at either end.

    outline_mm   (x, z) corners of the thing as seen from the front, mm
    front_mm     how far its front edge stands out of the face, mm, 0 to 100 000
    pull_n       pull straight out of the face, N, 0 to 1 000 000
    push_down_n  pull or lean straight down, N, 0 to 1 000 000
    slope_deg    as for `down`, degrees
    returns      forces to be tried one at a time, and none of them for a pull of 0

    Source: statics: over an outline a moment about any axis is greatest at a corner.
    Raises OutOfRange outside the limits.

    >>> [(force.out_n, force.z_n) for force in people([(0, 0), (800, 0)], 100, 250, 400)]
    [(250, 0.0), (250, 0.0), (0.0, -400.0), (0.0, -400.0)]
    """
    within("pull_n", pull_n, 0, FORCE_HIGH_N, "N")
    within("push_down_n", push_down_n, 0, FORCE_HIGH_N, "N")
    within("front_mm", front_mm, 0, PLACE_HIGH_MM, "mm")
    corners = [_place((*corner, front_mm)) for corner in outline_mm]
    outward = [Force(0.0, 0.0, pull_n, x, z, out) for x, z, out in corners if pull_n]
    if not push_down_n:
        return outward
    # On a plumb face it does not matter how high up something is pulled down.
    at = corners if slope_deg else list({corner[0]: corner for corner in corners}.values())
    return outward + [Force(*_downward(push_down_n, slope_deg), x, z, out) for x, z, out in at]


def resultant(forces: Iterable[Force]) -> Resultant:
    """What forces come to, about the face's datum.

    forces   forces, N, and where they act, mm; -1 000 000 to 1 000 000 N each
    returns  forces, N, and moments, N·mm

    Source: statics.
    Raises OutOfRange outside the limits.

    >>> resultant([Force(0, -100, 0, 50, 20, 150), Force(0, 0, 40, 0, 300, 0)])
    Resultant(x_n=0, z_n=-100, out_n=40, turn_nmm=-5000, right_nmm=0, top_nmm=27000)
    """
    whole: list[float] = [0, 0, 0, 0, 0, 0]
    for force in forces:
        along, up, out, x, z, standoff = force
        for part in (along, up, out):
            within("forces", part, -FORCE_HIGH_N, FORCE_HIGH_N, "N")
        _place((x, z, standoff))
        parts = along, up, out, x * up - z * along, out * x - along * standoff, out * z - up * standoff
        whole = [so_far + part for so_far, part in zip(whole, parts, strict=True)]
    return Resultant(*whole)


def _downward(force_n: float, slope_deg: float) -> tuple[float, float, float]:
    along, up, out = (force_n * part + 0.0 for part in down(slope_deg))
    return along, up, out


def _place(at_mm: Sequence[float]) -> tuple[float, float, float]:
    for number in at_mm:
        within("at_mm", number, -PLACE_HIGH_MM, PLACE_HIGH_MM, "mm")
    x, z, out = at_mm
    return x, z, out

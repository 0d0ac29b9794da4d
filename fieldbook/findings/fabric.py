"""What of the old building a fixing touches: the layers of its face and the boards at its place, down to its tip."""

from __future__ import annotations

import math

from ..book.site import Item
from ..checks.clearance import Stretch
from . import geometry
from .asking import Asked

# Coats of paint or limewash up to this thickness keep nothing apart: common practice, no source.
COAT_MM = 3.0
READS = {"face.layers": "neither", "member.material": "neither", "member.behind_mm": "less"} | dict.fromkeys(
    (
        *("fixing.hole", "fixing.x_mm", "fixing.z_mm", "fixing.fitted_x_mm", "fixing.fitted_z_mm"),
        *("member.x_mm", "member.z_mm", "member.width_mm", "member.height_mm"),
    ),
    "neither",
)


def touched(asked: Asked, fixing: Item) -> tuple[str, ...]:
    """The names of what a fixing touches, from the surface inwards; raises NotEntered where nobody said what is there.

    Where it is not known how deep a hole goes, it is taken to go through everything.
    """
    depth = 0.0
    if fixing.hole != "none":
        depth = math.inf if fixing.penetration_mm is None else fixing.penetration_mm
    x, z = geometry.place_of(fixing)
    return _down_to(asked, asked.site[fixing.face], depth, Stretch(x, x, z, z))


def at_surface(asked: Asked, fixing: Item) -> tuple[str, ...]:
    """The names of what lies at the surface under a fixing; raises as `touched` does."""
    x, z = geometry.place_of(fixing)
    return _down_to(asked, asked.site[fixing.face], 0.0, Stretch(x, x, z, z))


def behind(asked: Asked, fitting: Item) -> tuple[str, ...]:
    """The names of what lies at the surface behind a fitting; raises as `touched` does."""
    return _down_to(asked, asked.site[fitting.face], 0.0, geometry.fitting_stretch(fitting))


def _down_to(asked: Asked, face: Item, depth: float, part: Stretch) -> tuple[str, ...]:
    names, front = [], 0.0
    for name, thickness, _ in asked.need(face, "layers"):
        if front <= depth + COAT_MM:
            names.append(name)
        front += thickness or 0.0  # a layer of no known thickness hides nothing
    for member in asked.site.of(face, "member"):
        if (member.behind_mm or 0.0) <= depth + COAT_MM and geometry.member_stretch(member).meets(part):
            names.append(member.material)
    return tuple(dict.fromkeys(names))

"""Blocks, recesses and the shell of a room, as flat surfaces in the axes of a face."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from .camera import Camera, Point
from .scene import Painter, Surface, facing, rectangle

ALONG: Point = (1.0, 0.0, 0.0)
OUT: Point = (0.0, 1.0, 0.0)
UP: Point = (0.0, 0.0, 1.0)


def _opposite(direction: Point) -> Point:
    return (-direction[0], -direction[1], -direction[2])


@dataclass(frozen=True)
class Block:
    """A box standing upright, turned about its hinge.

    u, v, z    from and to, mm: along, across and up
    paint      picture of its sides, in (u, z) or (v, z); `front` that of the side at the end of v, where it differs
    hinge, angle_deg  plan point its axes start from, and how far u is turned from +x towards the room
    """

    u: tuple[float, float]
    v: tuple[float, float]
    z: tuple[float, float]
    paint: Painter
    front: Painter | None = None
    hinge: tuple[float, float] = (0.0, 0.0)
    angle_deg: float = 0.0

    def surfaces(self, camera: Camera) -> list[Surface]:
        """The sides that this camera sees."""
        angle = math.radians(self.angle_deg)
        u: Point = (math.cos(angle), math.sin(angle), 0.0)
        v: Point = (-math.sin(angle), math.cos(angle), 0.0)
        front = self.front or self.paint

        def side(
            axis: Point, at: float, along: Point, corners: tuple, normal: Point, paint: Painter, up: Point = UP
        ) -> Surface:
            origin = (self.hinge[0] + axis[0] * at, self.hinge[1] + axis[1] * at, axis[2] * at)
            return Surface(origin, along, up, corners, paint, normal)

        (u0, u1), (v0, v1), (z0, z1) = self.u, self.v, self.z
        sides = [
            side(v, v0, u, rectangle(u0, z0, u1, z1), _opposite(v), front),
            side(u, u0, v, rectangle(v0, z0, v1, z1), _opposite(u), self.paint),
            side(u, u1, v, rectangle(v0, z0, v1, z1), u, self.paint),
            side(UP, z0, u, rectangle(u0, v0, u1, v1), _opposite(UP), self.paint, v),
            side(UP, z1, u, rectangle(u0, v0, u1, v1), UP, self.paint, v),
            side(v, v1, u, rectangle(u0, z0, u1, z1), v, front),
        ]
        return [surface for surface in sides if facing(camera, surface)]


@dataclass(frozen=True)
class Recess:
    """An opening in the face, its sides, and what closes it at the back.

    x, z     from and to, mm
    deep     how far back it goes, mm
    side     picture of its reveals; `back` that of what is behind, which gives light when `bright`
    splay    how much narrower it is at the back, on either side, mm
    """

    x: tuple[float, float]
    z: tuple[float, float]
    deep: float
    side: Painter
    back: Painter
    bright: bool = False
    splay: float = 0.0

    @property
    def outline(self) -> tuple:
        """The hole it makes in the face."""
        return rectangle(self.x[0], self.z[0], self.x[1], self.z[1])

    def surfaces(self) -> list[Surface]:
        """Back, sill, head and reveals."""
        (x0, x1), (z0, z1), deep, splay = self.x, self.z, self.deep, self.splay
        long = math.hypot(deep, splay)
        left, right = (splay / long, -deep / long, 0.0), (-splay / long, -deep / long, 0.0)
        near, far = (x0, x1), (x0 + splay, x1 - splay)
        flat = ((near[0], 0), (near[1], 0), (far[1], -deep), (far[0], -deep))
        wall = rectangle(0, z0, long, z1)
        return [
            Surface((0, -deep, 0), ALONG, UP, rectangle(far[0], z0, far[1], z1), self.back, OUT, glows=self.bright),
            Surface((x0, 0, 0), left, UP, wall, self.side, (deep / long, splay / long, 0.0)),
            Surface((x1, 0, 0), right, UP, wall, self.side, (-deep / long, splay / long, 0.0)),
            Surface((0, 0, z0), ALONG, OUT, flat, self.side, UP),
            Surface((0, 0, z1), ALONG, OUT, flat, self.side, _opposite(UP)),
        ]


def shell(spans: Mapping[str, tuple[float, float]], deep: float, paints: Mapping[str, Painter]) -> list[Surface]:
    """Floor, ceiling and the walls beside and opposite a face; those without a paint are left out."""
    (x0, x1), (z0, z1) = spans["x"], spans["z"]
    sides = {
        "floor": Surface(
            (0, 0, z0), ALONG, OUT, rectangle(x0, 0, x1, deep), paints.get("floor"), UP, nooks=(x0, 0, x1, deep)
        ),
        "ceiling": Surface(
            (0, 0, z1),
            ALONG,
            OUT,
            rectangle(x0, 0, x1, deep),
            paints.get("ceiling"),
            _opposite(UP),
            nooks=(x0, 0, x1, deep),
        ),
        "left": Surface(
            (x0, 0, 0), OUT, UP, rectangle(0, z0, deep, z1), paints.get("left"), ALONG, nooks=(0, z0, deep, z1)
        ),
        "right": Surface(
            (x1, 0, 0),
            OUT,
            UP,
            rectangle(0, z0, deep, z1),
            paints.get("right"),
            _opposite(ALONG),
            nooks=(0, z0, deep, z1),
        ),
        "opposite": Surface(
            (0, deep, 0),
            ALONG,
            UP,
            rectangle(x0, z0, x1, z1),
            paints.get("opposite"),
            _opposite(OUT),
            nooks=(x0, z0, x1, z1),
        ),
    }
    return [surface for name, surface in sides.items() if name in paints]

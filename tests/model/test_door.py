"""A leaf told in trade words sweeps what it sweeps: worked by plane geometry, without the code under test."""

from __future__ import annotations

import math
from typing import Any

import pytest

from fieldbook.model.door import AWAY, HUNG, INTO, LEFT, RIGHT, TOWARDS, HungLeaf, limit_of


def corners(limit: dict[str, Any], box: list[float], angle_deg: float) -> list[tuple[float, float]]:
    """Where the corners of a box are on the plan when the leaf stands at an angle: u along it, v to its left."""
    u0, u1, v0, v1 = box
    along = (math.cos(math.radians(angle_deg)), math.sin(math.radians(angle_deg)))
    return [
        (
            limit["hinge_x_mm"] + u * along[0] - v * along[1],
            limit["hinge_y_mm"] + u * along[1] + v * along[0],
        )
        for u in (u0, u1)
        for v in (v0, v1)
    ]


@pytest.mark.parametrize("towards", TOWARDS)
@pytest.mark.parametrize("hung", HUNG)
def test_shut_leaf_lies_where_it_was_measured(hung: str, towards: str) -> None:
    """Its side to the room behind the face by the recess, its back a thickness further, its handle before it."""
    limit = limit_of(HungLeaf(hung, towards, 105, 1730, 35, 11, 870, 44, 58, 120, 64))
    leaf, handle = (corners(limit, box, limit["swing_from_deg"]) for box in limit["boxes"])
    side = 1 if hung == LEFT else -1
    assert sorted({round(y, 6) for _, y in leaf}) == [-79, -35]
    assert sorted({round(y, 6) for _, y in handle}) == [-35, 23]
    assert sorted({round(side * (x - 1730), 6) for x, _ in leaf}) == [0, 870]
    assert sorted({round(side * (x - 1730), 6) for x, _ in handle}) == [870 - 64 - 120, 870 - 64]


@pytest.mark.parametrize(
    ("hung", "towards", "x", "y"),
    [(LEFT, INTO, 1730, 1), (RIGHT, INTO, 1730, 1), (LEFT, AWAY, 1730, -1), (RIGHT, AWAY, 1730, -1)],
)
def test_leaf_opened_at_a_right_angle_stands_out_by_its_width(hung: str, towards: str, x: float, y: float) -> None:
    """On the side it opens towards, as far from the pin as it is wide."""
    limit = limit_of(HungLeaf(hung, towards, 90, x, 0, 0, 870, 44))
    free = [(px, py) for px, py in corners(limit, limit["boxes"][0], limit["swing_to_deg"])]
    assert max(y * (py - limit["hinge_y_mm"]) for _, py in free) == pytest.approx(870)
    assert min(abs(px - x) for px, _ in free) == pytest.approx(0, abs=1e-9)


def test_leaf_without_a_handle_is_one_box() -> None:
    """A reach of nothing is no handle."""
    assert len(limit_of(HungLeaf(LEFT, INTO, 90, 0, 0, 0, 700, 30))["boxes"]) == 1

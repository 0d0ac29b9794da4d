"""Any footprint against any zone, any limit over any stretch."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.calculations.catalogue import calculate
from tests.checks.refusals import refused

ZONE = [[0, 0], [100, 0], [100, 100], [0, 100]]
DOOR = {"hinge_mm": [0, 12], "from_deg": 0, "to_deg": 160, "boxes_mm": [[0, 800, -50, -10]]}


@pytest.mark.parametrize(
    ("footprint", "distance_mm"),
    [
        ([[110, 0], [200, 0], [200, 50], [110, 50]], 10),
        ([[103, 104], [200, 104], [103, 200]], 5),
        ([[95, 0], [200, 0], [200, 50], [95, 50]], -5),
    ],
)
def test_footprint_of_any_shape_is_held_against_a_zone(footprint: list[list[float]], distance_mm: float) -> None:
    """Edge to edge, worked by hand; where they overlap, less the lesser extent of what they share."""
    answer = calculate("keep-off", {"zone_mm": ZONE, "margin_mm": 4, "footprint_mm": footprint})
    assert (answer["distance_mm"], answer["margin_left_mm"]) == (distance_mm, distance_mm - 4)
    assert answer["verdict"]["word"] == ("over" if distance_mm < 4 else "close" if distance_mm < 9 else "within")


def test_zone_about_depth_is_one_of_penetration() -> None:
    """Inside it, 40 mm safe less 10 mm of margin are 30 mm: 26 mm deep leave 4."""
    inside = {"zone_mm": ZONE, "margin_mm": 10, "point_mm": [50, 50], "radius_mm": 5}
    answer = calculate("keep-off", inside | {"penetration_mm": 26, "safe_depth_mm": 40})
    assert (answer["verdict"]["word"], answer["verdict"]["margin"]) == ("close", 4)


def test_footprint_is_asked_for() -> None:
    """Neither a middle nor an outline is nothing that touches."""
    with refused("missing", "point_mm"):
        calculate("keep-off", {"zone_mm": ZONE})


@pytest.mark.parametrize(
    ("limit", "stretch", "clear_mm"),
    [
        ({"available_mm": 1350, "clear_width_mm": 1200, "margin_mm": 30}, [0, 500, 0, 10], 120),
        ({"allowed_mm": 100, "band": {"z_from_mm": 685, "z_to_mm": 2030}}, [0, 10, 2031, 2100], None),
        ({"allowed_mm": 100, "band": {"z_from_mm": 685, "z_to_mm": 2030}}, [0, 10, 2000, 2100], 100),
        ({"allowed_mm": 50, "below_mm": [[0, 2000], [1000, 2100]], "margin_mm": 10}, [0, 500, 2059, 2200], 50),
        ({"allowed_mm": 50, "below_mm": [[1000, 2100], [0, 2000]], "margin_mm": 10}, [0, 500, 2060, 2200], None),
        ({"leaf": DOOR}, [-500, -500, 0, 100], 204.626),
        ({"leaf": DOOR, "band": {"z_from_mm": 500}}, [-500, -500, 0, 100], None),
    ],
)
def test_any_limit_is_held_over_a_stretch(limit: dict[str, Any], stretch: list[float], clear_mm: float | None) -> None:
    """A route by subtraction, a band of ADA Standards (2010) 307.2, a floor rising 100 mm, and the leaf's sweep."""
    answer = calculate("clearance", limit | {"stretch_mm": stretch, "projection_mm": 102})
    assert answer["clear_over_stretch_mm"] == clear_mm
    assert answer["verdict"]["word"] == ("within" if clear_mm is None or clear_mm > 107 else "over")


def test_limit_and_place_are_asked_for() -> None:
    """Without a limit there is nothing to keep clear of, and without a place nowhere to look."""
    for payload, key in (
        ({"x_mm": [1]}, "leaf"),
        ({"available_mm": 1000, "x_mm": [1]}, "clear_width_mm"),
        ({"leaf": DOOR}, "x_mm"),
        ({"leaf": {"from_deg": 0}, "x_mm": [1]}, "leaf.hinge_mm"),
        ({"leaf": DOOR, "x_mm": [1], "projection_mm": 20}, "stretch_mm"),
    ):
        with refused("missing", key):
            calculate("clearance", payload)


def test_leaf_that_cannot_be_is_refused_by_its_own_key() -> None:
    """The object it lies in is part of the name."""
    with refused("out-of-range", "leaf.to_deg"):
        calculate("clearance", {"leaf": DOOR | {"to_deg": 400}, "x_mm": [1]})

"""Cases at the edges of what a check takes in, worked by hand: what just touches, what is alike, what is not known."""

from __future__ import annotations

import math
from collections.abc import Iterator

from .by_hand import Case, bands_case, door_case, keep_off_by_hand, word_of


def leaves() -> Iterator[Case]:
    """Sweeps worked by hand: a quarter turn, edges that pass the hinge, leaves touched or passed by exactly."""
    # A box of 400 by 600, hinged at the middle of its left edge 1000 mm in front of the face, turned from 0° to 90°:
    # its right corners run at 500 mm from the hinge from ±36.87° on, its left ones at 300 mm.
    quarter = [[0, 400, -300, 300]]
    for part, low in (
        ([-9999, 9999], -300), ([500, 500], 0), ([500.001, 600], None), ([450, 480], -math.sqrt(500**2 - 450**2)),
        ([400, 400], -300), ([0, 0], -300), ([-200, -100], 0), ([-400, -300], 0), ([-400, -300.001], None),
    ):  # fmt: skip
        yield leaf_case(quarter, 1000, (0, 90), part, None if low is None else 1000 + low)
    # An edge that passes the hinge at 50 mm touches a circle of 50 mm; a corner 0.5 mm off one of √(50² + 0.5²).
    for along, square in (([-300, 300], 2500), ([-300, 0.5], 2500), ([0.5, 300], 2500.25), ([-300, -0.5], 2500.25)):
        yield leaf_case([[*along, 50, 80]], 0, (-60, 60), [-25, -25], math.sqrt(square - 25**2))
        yield leaf_case([[50, 80, -along[1], -along[0]]], 0, (30, 150), [-25, -25], math.sqrt(square - 25**2))
    yield leaf_case([[-300, 300, 50, 80]], 0, (-45, 45), [-40, -40], 50 * math.sqrt(2) - 40)
    yield leaf_case([[0, 307, -20, 0]], 100, (0, 90), [307, 400], 80)
    yield leaf_case([[0, 100, 0, 40]], 5, (0, 0), [0, 10], 5)
    yield leaf_case([[0, 100, -40, 0]], 0, (0, 0), [0, 100], None)  # flush with the face: it stays behind
    yield leaf_case([[0, 100, -40, 0]], 0.5, (0, 0), [0, 100], -39.5)


def leaf_case(
    boxes: list[list[float]], y: float, swing: tuple[float, float], part: list[float], clear: float | None
) -> Case:
    case = door_case(boxes, y, swing[1], part[0], clear)
    case["given"]["limits"][0]["leaf"]["from_deg"] = swing[0]
    case["given"]["stretch_mm"][:2] = part
    return case | {"tolerance": 1e-6, "source": "worked by hand from the figures of the leaf"}


def limits_at_their_edges() -> Iterator[Case]:
    """Bands that are just touched, limits that are alike, floors with a step or higher beside the band."""
    band = {"name": "B", "band_mm": [0, 10, 20, 30], "margin_mm": 0, "projection_mm": 100}
    for part, met in (
        ([10, 40, 30, 40], True), ([-40, 0, -40, 20], True), ([10.1, 40, 20, 30], False), ([-40, -0.1, 20, 30], False),
        ([0, 10, 30.1, 40], False), ([0, 10, 0, 19.9], False),
    ):  # fmt: skip
        yield bands_case([band], part, 90, 100 if met else None, "B" if met else None)
    alike = [band | {"name": name, "projection_mm": depth} for name, depth in (("A", 90), ("B", 80), ("C", 80))]
    yield bands_case(alike, [0, 1, 20, 21], 80, 80, "B")
    yield bands_case(alike[::-1], [0, 1, 20, 21], 80, 80, "C")
    step = [[0, 2010], [100, 2020], [100, 2060], [200, 2060]]
    head = {"name": "H", "band_mm": [None] * 4, "margin_mm": 0, "projection_mm": 50, "below_mm": step}
    for part, held in (
        ([100, 100, 2059, 2200], True), ([90, 100, 2059, 2200], True), ([100, 110, 2059, 2200], True),
        ([90, 99, 2019.8, 2200], True), ([90, 99, 2019.9, 2200], False), ([101, 110, 2060, 2200], False),
    ):  # fmt: skip
        yield bands_case([head], part, 50, 50 if held else None, "H" if held else None)
    ridge = [[0, 2000], [400, 2000], [600, 2200], [800, 2000]]
    for ends in ([200, 500], [700, 900]):
        beside = head | {"band_mm": [*ends, None, None], "below_mm": ridge}
        yield bands_case([beside], [0, 1000, 2099, 2200], 50, 50, "H")
        yield bands_case([beside], [0, 1000, 2100, 2200], 50, None, None)


def zones_at_their_edges() -> Iterator[Case]:
    """Outlines told with more corners than they have, footprints that just touch, depths of which one is not known."""
    square = [[0, 0], [100, 0], [100, 100], [0, 100]]
    told = [[0, 0], [50, 0], [100, 0], [100, 0], [100, 100], [0, 100], [0, 0]]
    yield keep_off_by_hand(told, 0, [150, 50], 10, 40)
    yield keep_off_by_hand(told, 0, [50, 30], 0, -30)
    yield keep_off_by_hand([[0, 0], [1, 0], [1, 1], [0, 1]], 0, [3, 0.5], 0, 2)
    yield keep_off_by_hand(square, 0, [100, 50], 0, 0)
    yield keep_off_by_hand(square, 0, [100, 100], 0, 0)
    yield keep_off_by_hand(square, 0, [103, 104], 5, 0)
    for foot, distance in (
        ([[100, 100], [200, 100], [200, 200], [100, 200]], 0),  # corner to corner
        (square, -100),
        ([[-10, -10], [110, -10], [110, 110], [-10, 110]], -100),
        ([[50, -10], [60, -10], [60, 110], [50, 110]], -10),
    ):
        given = {"zone_mm": square, "margin_mm": 0, "footprint_mm": foot}
        expect = {"distance_mm": distance, "word": word_of(distance)}
        yield {"check": "keep_off_area", "given": given, "expect": expect}
    # inside the margin of 10 mm, where 40 mm less 10 mm may be penetrated; at the margin exactly distance counts
    beside = {"zone_mm": square, "margin_mm": 10, "point_mm": [105, 50], "radius_mm": 0}
    for more, word, left in (
        ({"penetration_mm": 20, "safe_depth_mm": 40}, "within", 10),
        ({"penetration_mm": None, "safe_depth_mm": 40}, "over", -5),
        ({"penetration_mm": 20, "safe_depth_mm": None}, "over", -5),
        ({"penetration_mm": 500, "safe_depth_mm": 40, "point_mm": [110, 50]}, "close", 0),
        ({"margin_mm": 10.00000000001, "point_mm": [110, 50]}, "over", None),
    ):
        distance = more.get("point_mm", [105])[0] - 100
        expect = {"distance_mm": distance, "word": word} | ({} if left is None else {"left_mm": left})
        yield {"check": "keep_off", "given": beside | more, "expect": expect}


def packers_at_their_edges() -> Iterator[Case]:
    """A wall that leans in, upright and not; a height of which the largest piece first takes one piece too many."""
    points = [[0, 0, 10], [800, 0, 10], [0, 1000, 0], [800, 1000, 0]]
    for plane, packer, pieces in (("plumb", 10, [5, 5]), ("free", 0, [])):
        given = {"points_mm": points, "plane": plane, "least_mm": 0}
        yield {"check": "packers", "given": given, "expect": {"packers_mm": [0, 0, packer, packer]}}
        stock = given | {"stock_mm": [2, 5]}
        yield {"check": "packers", "given": stock, "expect": {"made_of_mm": [[], [], pieces, pieces], "off_mm": 0}}
    for wanted, stock, pieces in ((6, [1, 3, 4], [3, 3]), (2.5, [2, 3], [2]), (2.5, [1, 3], [3]), (7, [5], [5])):
        given = {"points_mm": [[0, 0, wanted], [300, 0, 0], [600, 0, wanted]], "plane": "plumb", "least_mm": 0}
        off = abs(sum(pieces) - wanted)
        expect = {"made_of_mm": [[], pieces, []], "off_mm": off}
        yield {"check": "packers", "given": given | {"stock_mm": stock}, "expect": expect}


def at_the_edges() -> Iterator[Case]:
    """All of these, with where they come from."""
    about = {"tolerance": 1e-9, "source": "worked by hand at the edges of what each check takes in"}
    yield from leaves()
    yield from (case | about for case in limits_at_their_edges())
    yield from (case | about for case in zones_at_their_edges())
    yield from (case | about for case in packers_at_their_edges())

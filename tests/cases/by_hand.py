"""Cases at the wall whose answers were worked out on paper or stand in print, and those no answer can be given to."""

from __future__ import annotations

import csv
import math
from collections.abc import Iterator
from pathlib import Path
from typing import Any

DOORS = Path(__file__).parent.parent / "checks" / "data" / "door_swing_cases.csv"

Case = dict[str, Any]


def word_of(left_mm: float, close_mm: float = 5.0) -> str:
    """The word for what is left, as the design states it: over below nothing, close below 5 mm."""
    return "over" if left_mm < 0 else "close" if math.floor(left_mm * 10 + 1e-9) / 10 < close_mm else "within"


def worked_by_hand() -> list[Case]:
    """Cases whose answers were worked out on paper; each with where it comes from."""
    square, ell = [[0, 0], [100, 0], [100, 100], [0, 100]], [[0, 0], [100, 0], [100, 40], [40, 40], [40, 100], [0, 100]]
    cases = [
        keep_off_by_hand(outline, 0, point, radius, distance)
        for outline, point, radius, distance in (
            (square, [150, 50], 10, 40), (square, [103, 104], 0, 5), (square, [50, 50], 0, -50),
            (square, [90, 50], 5, -15), (square, [100, 50], 5, -5), (ell, [70, 70], 0, 30), (ell, [20, 80], 3, -23),
        )
    ]  # fmt: skip
    cases += [
        keep_off_by_hand(square, margin, [150 + more, 50], 0, 50 + more)
        for margin, more in ((50, 0), (50, 4.9), (50, 5), (50, -0.01))
    ]
    cases += [
        {
            "check": "keep_off_area",
            "given": {"zone_mm": square, "margin_mm": 0, "footprint_mm": foot},
            "expect": {"distance_mm": distance, "word": word_of(distance)},
        }
        for foot, distance in (
            ([[110, 0], [200, 0], [200, 50], [110, 50]], 10), ([[103, 104], [200, 104], [200, 200], [103, 200]], 5),
            ([[100, 0], [200, 0], [200, 50], [100, 50]], 0), ([[95, 0], [200, 0], [200, 50], [95, 50]], -5),
            ([[40, 40], [60, 40], [60, 45], [40, 45]], -5),
        )
    ]  # fmt: skip
    cases += [
        depth_by_hand(penetration, word, left)
        for penetration, word, left in ((20, "within", 10), (26, "close", 4), (30, "close", 0), (30.1, "over", -0.1))
    ]
    return [case | {"tolerance": 1e-6, "source": "worked by hand from the coordinates"} for case in cases]


def keep_off_by_hand(
    outline: list[list[float]], margin: float, point: list[float], radius: float, distance: float
) -> Case:
    given = {"zone_mm": outline, "margin_mm": margin, "point_mm": point, "radius_mm": radius}
    return {
        "check": "keep_off",
        "given": given,
        "expect": {"distance_mm": distance, "word": word_of(distance - margin)},
    }


def depth_by_hand(penetration: float, word: str, left: float) -> Case:
    """Inside a zone where 40 mm may be penetrated less a margin of 10 mm."""
    square = [[0, 0], [100, 0], [100, 100], [0, 100]]
    given = {"zone_mm": square, "margin_mm": 10, "point_mm": [95, 50], "radius_mm": 0}
    given |= {"penetration_mm": penetration, "safe_depth_mm": 40}
    return {"check": "keep_off", "given": given, "expect": {"distance_mm": -5, "word": word, "left_mm": left}}


def doors() -> Iterator[Case]:
    """The closed form of a leaf's swing: c(s) = p + e / cos φ + s tan φ."""
    with DOORS.open(encoding="utf-8") as file:
        for row in csv.DictReader(line for line in file if not line.startswith("#")):
            w, t, e, p, opens, s, c = (
                float(row[name])
                for name in (
                    "leaf_w_mm", "leaf_t_mm", "face_setback_e_mm", "pin_standoff_p_mm", "open_deg", "s_from_pin_mm",
                    "clear_closed_mm",
                )
            )  # fmt: skip
            clear = None if math.isinf(c) else c
            yield door_case([[0, w, -(e + t), -e]], p, opens, -s, clear) | {
                "tolerance": 1e-4,
                "source": "tests/checks/data/door_swing_cases.csv",
            }


def handles() -> Iterator[Case]:
    """Tip of a handle: s = h cos φ + (k − e) sin φ, y = p + h sin φ + (e − k) cos φ; the box of it is 0.002 mm wide."""
    for h, lift, p, opens, at, tip in (
        (740, 50, 12, 180, 740.0, -38.0),
        (740, 50, 12, 160, 712.4735, 218.1103),
        (866, 43, 10, 110, 336.5962, 809.0669),
    ):
        handle = [[h - 0.001, h + 0.001, lift - 0.001, lift + 0.001]]
        case = door_case(handle, p, opens, -at, tip)
        case["given"]["stretch_mm"][:2] = [-at - 0.01, -at + 0.01]
        yield case | {"tolerance": 0.02, "source": "closed form of a handle's tip; the stretch is 0.02 mm wide"}


def door_case(boxes: list[list[float]], p: float, opens: float, x: float, clear: float | None) -> Case:
    leaf = {"hinge_mm": [0, p], "from_deg": 0, "to_deg": opens, "boxes_mm": boxes}
    limit = {"name": "L1", "band_mm": [None] * 4, "margin_mm": 0, "leaf": leaf}
    given = {"limits": [limit], "stretch_mm": [x, x, 0, 0], "projection_mm": 0}
    word = "within" if clear is None else word_of(clear)
    return {
        "check": "clear_depth",
        "given": given,
        "expect": {"clear_mm": clear, "limited_by": None if clear is None else "L1", "word": word},
    }


def routes_and_bands() -> Iterator[Case]:
    """A route is a subtraction; the band is that of the ADA Standards (2010) 307.2, its lower edge left open."""
    route = {"name": "R", "band_mm": [0, 1000, None, None], "margin_mm": 30, "projection_mm": 150}
    yield bands_case([route], [500, 600, 0, 10], 100, 120, "R") | {
        "source": "1,350 mm less 1,200 mm less a margin of 30 mm, by hand"
    }
    yield bands_case([route], [1001, 1100, 0, 10], 500, None, None) | {"source": "beside the route, by hand"}
    for projection, words in (
        (150, "It stands out 30 mm; 120 mm are clear in front of R: 90 mm are left."),
        (30, "It stands out 30 mm; nothing may stand out in front of R: 30 mm too much."),
        (
            -8,
            "It stands out 30 mm; nothing may stand out in front of R, where 38 mm are missing already: "
            "68 mm too much.",
        ),
    ):
        case = bands_case([route | {"projection_mm": projection}], [500, 600, 0, 10], 30, projection - 30, "R")
        case["expect"]["sentence"] = words
        yield case | {"source": "what the route leaves less a margin of 30 mm, less 30 mm, by hand"}
    band = {"name": "B", "band_mm": [None, None, 685.001, 2030], "margin_mm": 0, "projection_mm": 100}
    for edge, projection, clear in (
        (685, 150, None),
        (686, 150, 100),
        (686, 100, 100),
        (2030, 101, 100),
        (2031, 300, None),
    ):
        yield bands_case([band], [0, 10, edge, edge], projection, clear, clear and "B") | {
            "source": "ADA Standards (2010) 307.2, printed boundaries"
        }
    slope = {
        "name": "H",
        "band_mm": [None] * 4,
        "margin_mm": 10,
        "projection_mm": 50,
        "below_mm": [[0, 2000], [1000, 2100]],
    }
    for part, clear in (([0, 500, 2059, 2200], 50), ([0, 500, 2060, 2200], None), ([900, 2000, 2109, 2200], 50)):
        yield bands_case([slope], part, 10, clear, clear and "H") | {
            "source": "a floor rising 100 mm in 1,000 mm, by hand"
        }


def bands_case(
    limits: list[dict[str, Any]], part: list[float], projection: float, clear: float | None, by: str | None
) -> Case:
    word = "within" if clear is None else word_of(clear - projection)
    given = {"limits": limits, "stretch_mm": part, "projection_mm": projection}
    return {
        "check": "clear_depth",
        "given": given,
        "expect": {"clear_mm": clear, "limited_by": by, "word": word},
        "tolerance": 1e-9,
    }


def proud_by_hand() -> Iterator[Case]:
    """A triangle, a square, of whose two diagonals the falling one counts, a line, and readings of one place."""
    about = {"tolerance": 1e-9, "source": "worked by hand: the mean of the corners, or along the edge between two"}
    square = [[0, 0, 8], [300, 0, 2], [0, 300, 4], [300, 300, 20]]
    line = [[1000, 500, 9], [0, 500, 3], [2000, 500, 5]]
    for readings, place, out in (
        ([[0, 0, 3], [900, 0, 0], [0, 900, 6]], [300, 300], 3),
        (square, [150, 150], 3),  # half-way from 2 to 4
        (square, [100, 100], 14 / 3),
        (square, [150, 0], 5),
        (square, [450, 300], 20),  # the nearest of what was measured
        (line, [500, 500], 6),
        (line, [1500, 600], 7),
        ([[100, 100, 4], [100, 100, 6]], [100, 100], 5),
        ([[100, 100, 4]], [150, 100], 4),
    ):
        given = {"readings_mm": readings, "place_mm": place}
        yield {"check": "proud", "given": given, "expect": {"proud_mm": out}} | about


def packers_by_hand() -> Iterator[Case]:
    """Gaps from a straightedge 6, 3.5, 1, 2, 4.5, 8, 7 mm every 300 mm: line of least total, by hand and by linprog."""
    points = [[300 * at, 0, -gap] for at, gap in enumerate((6, 3.5, 1, 2, 4.5, 8, 7))]
    about = {"tolerance": 1e-9, "source": "worked by hand: slope 1/300, through the third and fourth points"}
    for plane in ("plumb", "free"):
        given = {"points_mm": points, "plane": plane, "least_mm": 0}
        yield {
            "check": "packers",
            "given": given,
            "expect": {"packers_mm": [7, 3.5, 0, 0, 1.5, 4, 2], "sum_mm": 18},
        } | about
    three = [[0, 0, 4], [300, 0, 1], [600, 0, 0]]
    yield {
        "check": "packers",
        "given": {"points_mm": three, "plane": "plumb", "least_mm": 2},
        "expect": {"packers_mm": [2, 3, 2]},
    } | about
    stock = {
        "points_mm": [[0, 0, 4.5], [300, 0, 1], [600, 0, 0]],
        "plane": "plumb",
        "least_mm": 0,
        "stock_mm": [0.5, 1, 2],
    }
    yield {"check": "packers", "given": stock, "expect": {"made_of_mm": [[], [1], []], "off_mm": 0.25}} | about
    many = {
        "points_mm": [[0, 0, 0], [300, 0, -7.3], [600, 0, 0]],
        "plane": "plumb",
        "least_mm": 0,
        "stock_mm": [1, 2, 5],
    }
    yield {"check": "packers", "given": many, "expect": {"made_of_mm": [[], [5, 2], []], "off_mm": 0.3}} | about


def refusals() -> Iterator[Case]:
    """Inputs no answer can be given to; expected is the code and the field."""
    square = [[0, 0], [100, 0], [100, 100], [0, 100]]
    disc = {"zone_mm": square, "margin_mm": 20, "point_mm": [150, 50], "radius_mm": 0}
    leaf = {"hinge_mm": [0, 12], "from_deg": 0, "to_deg": 160, "boxes_mm": [[0, 800, -50, -10]]}
    points = {"points_mm": [[0, 0, 0], [300, 0, 1]], "plane": "plumb", "least_mm": 0}

    def with_leaf(**change: Any) -> Case:
        limit = {"name": "L1", "band_mm": [None] * 4, "margin_mm": 0, "leaf": leaf | change}
        return {"limits": [limit], "stretch_mm": [0, 0, 0, 0], "projection_mm": 0}

    rows = (
        ("keep_off", disc | {"zone_mm": [[0, 0], [1, 1]]}, "unsuitable-shape", "zone_mm"),
        ("keep_off", disc | {"zone_mm": [[0, 0], [100, 100], [100, 0], [0, 100]]}, "unsuitable-shape", "zone_mm"),
        ("keep_off", disc | {"zone_mm": [[0, 0], [10, 10], [20, 20]]}, "unsuitable-shape", "zone_mm"),
        (
            "keep_off",
            disc | {"zone_mm": [[0, 0], [100, 0], [100, 100], [50, 0], [0, 100]]},
            "unsuitable-shape",
            "zone_mm",
        ),
        (
            "keep_off",
            disc | {"zone_mm": [[0, 0], [100, 0], [150, 0], [100, 0], [100, 100]]},
            "unsuitable-shape",
            "zone_mm",
        ),
        ("keep_off", disc | {"point_mm": [0, 2e9]}, "out-of-range", "point_mm"),
        ("keep_off", disc | {"point_mm": [0, "left"]}, "not-a-number", "point_mm"),
        ("keep_off", disc | {"zone_mm": [[0, 0], [1, 0], [1, 0.999], [0, 0.999]]}, "unsuitable-shape", "zone_mm"),
        # three corners in a row, but for the last binary digit
        ("keep_off", disc | {"zone_mm": [[1.9, 1.6], [2.7, -0.1], [1.1, 3.3]]}, "unsuitable-shape", "zone_mm"),
        ("keep_off", disc | {"zone_mm": [[2.3, 3.4], [5.2, 3.2], [-0.6, 3.6]]}, "unsuitable-shape", "zone_mm"),
        ("keep_off", disc | {"zone_mm": [[0, 0], [0, 1], [1e9 + 1, 0]]}, "out-of-range", "zone_mm"),
        ("keep_off", disc | {"radius_mm": -1}, "out-of-range", "radius_mm"),
        ("keep_off", disc | {"radius_mm": 100_000.1}, "out-of-range", "radius_mm"),
        ("keep_off", disc | {"margin_mm": 100_000.1}, "out-of-range", "margin_mm"),
        ("keep_off", disc | {"margin_mm": -1}, "out-of-range", "margin_mm"),
        ("keep_off", disc | {"margin_mm": True}, "not-a-number", "margin_mm"),
        (
            "keep_off",
            disc | {"point_mm": [50, 50], "penetration_mm": -1, "safe_depth_mm": 40},
            "out-of-range",
            "penetration_mm",
        ),
        (
            "keep_off_area",
            {"zone_mm": square, "margin_mm": 0, "footprint_mm": square[:2]},
            "unsuitable-shape",
            "zone_mm",
        ),
        ("clear_depth", with_leaf(boxes_mm=[]), "unsuitable-shape", "boxes_mm"),
        ("clear_depth", with_leaf(boxes_mm=[[0, 0, 1, 2]]), "unsuitable-shape", "boxes_mm"),
        ("clear_depth", with_leaf(boxes_mm=[[0, 9, 2, 2]]), "unsuitable-shape", "boxes_mm"),
        ("clear_depth", with_leaf(boxes_mm=[[0, 100_000.1, 0, 2]]), "out-of-range", "boxes_mm"),
        ("clear_depth", with_leaf(from_deg=-720.1, to_deg=-720), "out-of-range", "from_deg"),
        ("clear_depth", with_leaf(to_deg=360.1), "out-of-range", "to_deg"),
        ("clear_depth", with_leaf(to_deg=400), "out-of-range", "to_deg"),
        ("clear_depth", with_leaf(to_deg=800), "out-of-range", "to_deg"),
        ("clear_depth", with_leaf(hinge_mm=[0, 2e6]), "out-of-range", "hinge_mm[1]"),
        ("clear_depth", with_leaf() | {"stretch_mm": [2e5, 2e5, 0, 0]}, "out-of-range", "x_mm"),
        ("proud", {"readings_mm": [], "place_mm": [0, 0]}, "missing", "surface"),
        ("proud", {"readings_mm": [[0, 0, 1], [0, 900, 1]], "place_mm": [151, 0]}, "out-of-range", "surface"),
        ("packers", points | {"plane": "level"}, "not-a-choice", "plane"),
        ("packers", points | {"points_mm": []}, "out-of-range", "points_mm"),
        ("packers", points | {"points_mm": [[0, 0, 2e5]]}, "out-of-range", "points_mm[0]"),
        ("packers", points | {"least_mm": -1}, "out-of-range", "least_mm"),
        ("packers", points | {"stock_mm": []}, "out-of-range", "stock_mm"),
        ("packers", points | {"stock_mm": [0.001]}, "out-of-range", "stock_mm[0]"),
        ("packers", points | {"stock_mm": [1, 0.155]}, "out-of-range", "stock_mm[1]"),
    )
    for check, given, code, field in rows:
        yield {
            "check": check,
            "given": given,
            "refused": {"code": code, "field": field},
            "source": "the bounds each check states",
        }

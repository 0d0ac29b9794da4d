"""Random cases at the wall, answered by methods that neither the desk nor the phone uses.

Distances: every side of the outline by itself (numpy), inside by the winding number. Leaves: positions of the
leaf laid out every 0.02° and then ever finer round the lowest, each clipped to the stretch. Packers: linear
programming by HiGHS in floating point (scipy).
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Iterator
from typing import Any

import numpy as np
from scipy.interpolate import LinearNDInterpolator
from scipy.optimize import linprog
from shapely import Polygon

from .by_hand import Case, word_of

CLEAR_OF_A_BOUND_MM = 1e-3  # a case nearer to a change of word than this is drawn again


def distance_to(outline: np.ndarray, point: np.ndarray) -> float:
    """Distance of a point from an outline's nearest side, negative inside (winding number)."""
    start, end = outline, np.roll(outline, -1, axis=0)
    along = end - start
    share = np.clip(((point - start) * along).sum(axis=1) / (along**2).sum(axis=1), 0, 1)
    away = np.hypot(*(start + along * share[:, None] - point).T).min()
    angles = np.arctan2(*(outline - point).T[::-1])
    turns = (np.diff(np.append(angles, angles[0])) + math.pi) % math.tau - math.pi
    return -away if abs(turns.sum()) > 1 else away


def settled(left_mm: float) -> bool:
    """Whether no rounding of the last digit could change the word."""
    return all(abs(left_mm - bound) > CLEAR_OF_A_BOUND_MM for bound in (0, 5, 4.9))


def outline_of(rng: random.Random) -> list[list[float]]:
    """A star-shaped outline of three to nine corners, none of them sharper than can be measured."""
    while True:
        count = rng.randint(3, 9)
        angles = sorted(rng.uniform(0, math.tau) for _ in range(count))
        corners = [
            [round(1500 + rng.uniform(80, 900) * math.cos(a), 1), round(1200 + rng.uniform(80, 900) * math.sin(a), 1)]
            for a in angles
        ]
        shape = Polygon(corners)
        if shape.is_valid and shape.area > 1000:
            return corners


def keep_off_cases(rng: random.Random) -> Iterator[Case]:
    while True:
        outline = outline_of(rng)
        point = [round(rng.uniform(0, 3000), 1), round(rng.uniform(0, 2400), 1)]
        radius, margin = round(rng.uniform(0, 60), 1), float(rng.choice((0, 10, 20, 25, 50)))
        distance = distance_to(np.array(outline), np.array(point)) - radius
        if rng.random() < 0.5:  # near the margin is where it matters
            radius = round(max(0.0, distance + radius - margin - rng.uniform(-8, 12)), 1)
            distance = distance_to(np.array(outline), np.array(point)) - radius
        if settled(distance - margin):
            yield {
                "check": "keep_off",
                "given": {"zone_mm": outline, "margin_mm": margin, "point_mm": point, "radius_mm": radius},
                "expect": {"distance_mm": round(distance, 6), "word": word_of(distance - margin)},
            }


def area_cases(rng: random.Random) -> Iterator[Case]:
    while True:
        outline = outline_of(rng)
        x, z = rng.uniform(0, 3000), rng.uniform(0, 2400)
        width, height = rng.uniform(20, 900), rng.uniform(20, 900)
        foot = [
            [round(a, 1), round(b, 1)] for a, b in ((x, z), (x + width, z), (x + width, z + height), (x, z + height))
        ]
        distance, margin = area_distance(outline, foot), float(rng.choice((0, 20, 50)))
        if settled(distance - margin):
            yield {
                "check": "keep_off_area",
                "given": {"zone_mm": outline, "margin_mm": margin, "footprint_mm": foot},
                "expect": {"distance_mm": round(distance, 6), "word": word_of(distance - margin)},
            }


def area_distance(outline: list[list[float]], foot: list[list[float]]) -> float:
    """Apart: the least over corners to sides both ways. Overlapping: less the extent of what clipping leaves."""
    clipped = clip(clip(outline, 0, foot[0][0], foot[2][0]), 1, foot[0][1], foot[2][1])
    if clipped:
        extents = np.ptp(np.array(clipped), axis=0)
        return -float(extents.min())
    one, other = np.array(outline), np.array(foot)
    return float(min(*(abs(distance_to(other, p)) for p in one), *(abs(distance_to(one, p)) for p in other)))


def clip(corners: list[list[float]], axis: int, low: float, high: float) -> list[list[float]]:
    """Sutherland and Hodgman (1974), along one axis; the extent of a concave outline comes out right as well."""
    for sign, bound in ((1, low), (-1, -high)):
        kept: list[list[float]] = []
        for before, now in zip([*corners[-1:], *corners], corners, strict=False):
            was_in, is_in = sign * before[axis] >= bound, sign * now[axis] >= bound
            if was_in != is_in:
                share = (bound * sign - before[axis]) / (now[axis] - before[axis])
                kept.append([before[0] + (now[0] - before[0]) * share, before[1] + (now[1] - before[1]) * share])
            if is_in:
                kept.append(now)
        corners = kept
    return corners


def depth_cases(rng: random.Random) -> Iterator[Case]:
    while True:
        limits = [limit_of(rng, place) for place in range(rng.randint(1, 3))]
        x, z = round(rng.uniform(-1200, 1500), 1), round(rng.uniform(0, 2600), 1)
        part = [x, round(x + rng.choice((0, rng.uniform(1, 400))), 1), z, round(z + rng.uniform(0, 300), 1)]
        depths = [(depth, limit["name"]) for limit in limits if (depth := depth_under(limit, part)) is not None]
        clear, by = min(depths, default=(None, None))
        projection = None if clear is None else round(max(0.0, clear - rng.uniform(-20, 40)), 1)
        if clear is not None and (
            not settled(clear - projection) or len({round(d, 2) for d, _ in depths}) < len(depths)
        ):
            continue
        word = "within" if clear is None else word_of(clear - projection)
        yield {
            "check": "clear_depth",
            "given": {"limits": limits, "stretch_mm": part, "projection_mm": projection if clear is not None else 100},
            "expect": {"clear_mm": clear if clear is None else round(clear, 4), "limited_by": by, "word": word},
        }


def limit_of(rng: random.Random, place: int) -> dict[str, Any]:
    """A limit of any sort, as an item of a book would become one."""
    band = [rng.choice((None, round(rng.uniform(-900, 200)))), None, None, rng.choice((None, 2050.0))]
    limit: dict[str, Any] = {"name": f"L{place + 1}", "band_mm": band, "margin_mm": float(rng.choice((0, 5, 15, 30)))}
    sort = rng.choice(("leaf", "leaf", "leaf", "flat", "headroom"))
    if sort == "leaf":
        width, thick, back = rng.uniform(400, 1000), rng.uniform(25, 50), rng.uniform(0, 15)
        boxes = [[0.0, round(width, 1), round(-back - thick, 1), round(-back, 1)]]
        if rng.random() < 0.5:
            boxes.append([round(width - 90, 1), round(width - 50, 1), round(-back, 1), round(-back + 55, 1)])
        start = float(rng.choice((0, 0, -30, 180)))
        swing = round(rng.uniform(60, 180), 1) * (-1 if start == 180 else 1)
        limit["leaf"] = {"hinge_mm": [0.0, round(rng.uniform(-10, 30), 1)], "from_deg": start, "to_deg": start + swing}
        limit["leaf"]["boxes_mm"] = boxes
    else:
        limit["projection_mm"] = round(rng.uniform(30, 250), 1)
    if sort == "headroom":
        floor = sorted({round(rng.uniform(-1500, 2000), 1) for _ in range(rng.randint(1, 5))})
        limit["below_mm"] = [[x, round(2000 + rng.uniform(0, 120), 1)] for x in floor]
    return limit


def depth_under(limit: dict[str, Any], part: list[float]) -> float | None:
    """The clear depth one limit leaves over a stretch."""
    x_from, x_to, z_from, z_to = part
    margin = limit["margin_mm"]
    wide = margin if "leaf" in limit else 0.0
    low_x, high_x, low_z, high_z = (
        bound if bound is not None else end
        for bound, end in zip(limit["band_mm"], (-math.inf, math.inf, -math.inf, math.inf), strict=True)
    )
    if x_from - wide > high_x or x_to + wide < low_x or z_from - wide > high_z or z_to + wide < low_z:
        return None
    if "leaf" in limit:
        reached = reach_of(limit["leaf"], x_from - wide, x_to + wide)
        return None if reached is None or reached[1] <= 0 else reached[0] - margin
    if "below_mm" in limit:
        xs, zs = zip(*limit["below_mm"], strict=True)
        at = np.linspace(max(x_from, low_x), min(x_to, high_x), 4001)
        places = np.append(at, [x for x in xs if at[0] <= x <= at[-1]])
        return limit["projection_mm"] if z_from < np.interp(places, xs, zs).max() + margin else None
    return limit["projection_mm"] - margin


def reach_of(leaf: dict[str, Any], x_from: float, x_to: float) -> tuple[float, float] | None:
    """Least and greatest y of the leaf over a stretch, over positions of its swing; finer and finer round the ends."""
    low, high = sorted((leaf["from_deg"], leaf["to_deg"]))
    least, most = math.inf, -math.inf
    for sign in (1, -1):
        angles = np.linspace(low, high, int((high - low) / 0.02) + 2)
        for _ in range(4):
            heights = heights_over(leaf, angles, x_from, x_to, sign)
            best = int(np.argmin(heights))
            if not math.isfinite(heights[best]):
                break
            if sign == 1:
                least = min(least, heights[best])
            else:
                most = max(most, -heights[best])
            step = angles[1] - angles[0]
            angles = np.linspace(max(low, angles[best] - step), min(high, angles[best] + step), 2001)
    return None if least > most else (least, most)


def heights_over(leaf: dict[str, Any], angles: np.ndarray, x_from: float, x_to: float, sign: int) -> np.ndarray:
    """The least of sign times y that the leaf has over the stretch, at each angle; infinite where it is not there."""
    cosine, sine = np.cos(np.radians(angles)), np.sin(np.radians(angles))
    least = np.full(len(angles), np.inf)
    for u0, u1, v0, v1 in leaf["boxes_mm"]:
        ring = [(u0, v0), (u1, v0), (u1, v1), (u0, v1)]
        xs = [leaf["hinge_mm"][0] + u * cosine - v * sine for u, v in ring]
        ys = [leaf["hinge_mm"][1] + u * sine + v * cosine for u, v in ring]
        for at in range(4):
            x0, y0, x1, y1 = xs[at - 1], ys[at - 1], xs[at], ys[at]
            least = np.minimum(least, np.where((x_from <= x1) & (x1 <= x_to), sign * y1, np.inf))
            for cut in (x_from, x_to):
                with np.errstate(divide="ignore", invalid="ignore"):
                    share = (cut - x0) / (x1 - x0)
                    crossed = np.where((share >= 0) & (share <= 1), sign * (y0 + (y1 - y0) * share), np.inf)
                least = np.fmin(least, crossed)
    return least


def packer_cases(rng: random.Random) -> Iterator[Case]:
    while True:
        across, up = rng.randint(2, 6), rng.randint(1, 4)
        points = [
            [
                round(300 * i + rng.uniform(-40, 40)),
                round(400 * j + rng.uniform(-40, 40)),
                round(rng.uniform(-12, 12), 1),
            ]
            for i in range(across)
            for j in range(up)
        ]
        plane, least = rng.choice(("plumb", "free")), float(rng.choice((0, 0, 1, 2.5)))
        total, thickest = rest(np.array(points, float), plane)
        yield {
            "check": "packers",
            "given": {"points_mm": points, "plane": plane, "least_mm": least},
            "expect": {
                "sum_mm": round(total + least * len(points), 6),
                "thickest_mm": round(thickest + least, 6),
                "thinnest_mm": least,
            },
        }


def rest(points: np.ndarray, plane: str) -> tuple[float, float]:
    """Least sum of gaps in front of the points, and the least thickest gap among the planes that have it."""
    tilt = points[:, :1] if plane == "plumb" else points[:, :2]
    terms = np.hstack([np.ones((len(points), 1)), tilt])
    proud, free = points[:, 2], [(None, None)] * terms.shape[1]
    first = linprog(terms.sum(axis=0), -terms, -proud, bounds=free, method="highs")
    total = float(first.fun - proud.sum())
    upper = np.hstack([terms, -np.ones((len(points), 1))])
    rows = np.vstack([np.hstack([-terms, np.zeros((len(points), 1))]), upper, np.append(terms.sum(axis=0), 0)])
    bounds = np.concatenate([-proud, proud, [first.fun + 1e-9]])
    second = linprog(np.append(np.zeros(terms.shape[1]), 1), rows, bounds, bounds=[*free, (None, None)], method="highs")
    return total, float(second.fun)


def proud_cases(rng: random.Random) -> Iterator[Case]:
    while True:
        readings = [
            [round(rng.uniform(0, hi), 1) for hi in (4000, 2500)] + [round(rng.gauss(0, 8), 1)] for _ in range(12)
        ]
        place = [round(rng.uniform(0, 4000), 1), round(rng.uniform(0, 2500), 1)]
        out = float(LinearNDInterpolator([row[:2] for row in readings], [row[2] for row in readings])(*place))
        if out == out:  # it lies between the readings
            given = {"readings_mm": readings, "place_mm": place}
            yield {"check": "proud", "given": given, "expect": {"proud_mm": round(out, 6)}}


GENERATED: tuple[tuple[Callable[[random.Random], Iterator[Case]], int, float, str], ...] = (
    (keep_off_cases, 130, 1e-5, "sides one by one and winding number, numpy; 6 decimals are written"),
    (
        area_cases,
        50,
        1e-5,
        "corners to sides, or clipping to the rectangle (Sutherland and Hodgman 1974), numpy; 6 decimals",
    ),
    (
        depth_cases,
        110,
        2e-3,
        "positions of the leaf, 0.02° and finer round the lowest, numpy; what lies between is below 0.002 mm",
    ),
    (
        packer_cases,
        60,
        1e-4,
        "linear programming in floating point, HiGHS by scipy; its feasibility tolerance is 1e-7 a point",
    ),
    (proud_cases, 60, 1e-5, "triangles of Delaunay by Qhull, scipy's LinearNDInterpolator; 6 decimals"),
)

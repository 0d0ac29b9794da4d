"""What cannot be, of one item and what it belongs to: half a place, a leaf inside the wall, a fixing off its fitting.

A thing beyond the edge of its face, or through another, can be entered: it is warned of, and stands as a finding.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from typing import Any

from shapely import Polygon

from ..errors import FieldbookError, Missing, NotAChoice, OutOfRange, OutsideTheFace, UnsuitableShape
from .kinds import Kind

Values = Mapping[str, Any]

# Fields of which none or all are filled in.
TOGETHER = {
    "fixing": (("fitted_x_mm", "fitted_z_mm"),),
    "reading": (("x_mm", "z_mm"),),
    "observation": (("x_mm", "z_mm"),),
    "patch": (("x_mm", "z_mm"),),
    "face": (("start_x_mm", "start_y_mm"),),
}
# What reaches from the fabric to its fitting over some distance; all else lies on its fitting.
REACHING = ("hook", "strap", "prop", "weight")
PLAY_MM = 5.0  # what two measures of one edge may differ by: common practice, no source
NOISE_MM = 1e-6  # of sums of tenths, which no tape tells
FLUSH_MM = 1.0  # how far a leaf that lies against the wall may seem to be in it: common practice, no source


# The unit of each quantity, and what it can be in it.
MEASURED = {
    "air temperature": ("°C", -45, 60),
    "outside temperature": ("°C", -60, 60),
    "relative humidity": ("%", 0, 100),
    "surface temperature": ("°C", -45, 60),
    "wood moisture content": ("% moisture content", 0, 200),
    "damp meter units": ("meter units", -1e6, 1e6),
    "illuminance": ("lx", 0, 200_000),
    "ultraviolet": ("µW/lm", 0, 10_000),
    "level": ("mm", -1e6, 1e6),
    "distance": ("mm", 0, 1e6),
    "mass": ("kg", 0, 100_000),
    "torque": ("N m", 0, 1000),
    "pull": ("N", 0, 1e6),
}


def reading(values: Values) -> Iterator[FieldbookError]:
    """A reading is in the unit of its quantity, and within what that can be."""
    quantity, unit, value = (values.get(name) for name in ("quantity", "unit", "value"))
    if quantity not in MEASURED or unit is None or value is None:
        return
    wanted, low, high = MEASURED[quantity]
    if unit != wanted:
        reason = f"The unit of {quantity} is {wanted}, not {unit}."
        yield NotAChoice(reason, f"Enter it in {wanted}, or correct the quantity.", field="unit", value=unit)
    elif not low <= value <= high:
        yield OutOfRange(
            f"A reading of the {quantity} lies from {low:g} to {high:g} {wanted}; this is {value:g}.",
            "Read it again, or correct the quantity.",
            field="value",
            value=value,
        )


def together(kind: Kind, values: Values) -> Iterator[FieldbookError]:
    """Half a place is none."""
    for names in TOGETHER.get(kind.name, ()):
        empty = [name for name in names if values.get(name) is None]
        for name in empty if len(empty) < len(names) else ():
            label = kind.by_name[name].label
            yield Missing(f"{label} is empty: a place needs both.", "Give both, or neither.", field=name)


def gives(values: Values) -> Iterator[FieldbookError]:
    """What gives off nothing gives off nothing else."""
    given = values.get("gives") or ()
    if "nothing" in given and len(given) > 1:
        yield NotAChoice("It gives off nothing and something as well.", "Choose one.", field="gives", value=given)


def plan(values: Values) -> Iterator[FieldbookError]:
    """A room's plan is an area."""
    corners = values.get("plan")
    if corners and None not in [value for corner in corners for value in corner]:
        if len(corners) < 3:
            reason = f"A room of {len(corners)} {'corner' if len(corners) == 1 else 'corners'} has no area."
            yield UnsuitableShape(reason, "Give at least three, in order.", field="plan", value=corners)
        elif not (shape := Polygon(corners)).is_valid or shape.area < 1:
            reason = "The plan's outline crosses itself, or has no area."
            yield UnsuitableShape(reason, "Give the corners in order, one way round.", field="plan", value=corners)


def leaf(values: Values) -> Iterator[FieldbookError]:
    """A leaf swings in front of the wall beside its hinge, and its band hides nothing of its sweep."""
    names = ("hinge_x_mm", "hinge_y_mm", "swing_from_deg", "swing_to_deg")
    if values.get("sort") != "leaf" or any(values.get(name) is None for name in names) or not values.get("boxes"):
        return
    if any(None in box for box in values["boxes"]):
        return
    hinge_x, hinge_y, start, end = (values[name] for name in names)
    corners = [(u, v) for u0, u1, v0, v1 in values["boxes"] for u in (u0, u1) for v in (v0, v1)]
    deep = _inside(hinge_y, start, end, corners)
    if deep > FLUSH_MM:
        yield UnsuitableShape(
            f"Swung to {end:g}°, the leaf or its handle stands {deep:.0f} mm inside the wall beside its hinge.",
            "Correct the swing, the hinge or the boxes.",
            field="boxes",
            value=values["boxes"],
        )
    yield from _band(values, *_across(hinge_x, start, end, corners))


def _inside(hinge_y: float, start: float, end: float, corners: list[tuple[float, float]]) -> float:
    """How deep the leaf stands in the wall on the other side of its hinge, swung open, mm; 0 where that is not told."""
    side = math.cos(math.radians(start))
    if hinge_y < 0 or abs(side) < 0.5:  # hung in a reveal, or not closed along the wall
        return 0.0
    cosine, sine = math.cos(math.radians(end)), math.sin(math.radians(end))
    turned = [(u * cosine - v * sine, hinge_y + u * sine + v * cosine) for u, v in corners]
    return max([0.0, *(-y for x, y in turned if x * side < -FLUSH_MM)])


def _across(hinge_x: float, start: float, end: float, corners: list[tuple[float, float]]) -> tuple[float, float]:
    """From where to where the leaf sweeps along the wall, mm: its corners at both ends, and where they turn back."""
    low, high = sorted((math.radians(start), math.radians(end)))
    reached = []
    for u, v in corners:
        radius, at = math.hypot(u, v), math.atan2(v, u)
        reached += [radius * math.cos(at + low), radius * math.cos(at + high)]
        first = math.ceil((at + low) / math.pi)
        turns = range(first, math.floor((at + high) / math.pi) + 1)
        reached += [radius * (-1) ** (turn % 2) for turn in turns]
    return hinge_x + min(reached), hinge_x + max(reached)


def _band(values: Values, left: float, right: float) -> Iterator[FieldbookError]:
    for name, over in (("x_from_mm", left + PLAY_MM), ("x_to_mm", right - PLAY_MM)):
        value = values.get(name)
        if value is not None and (value > over if name == "x_from_mm" else value < over):
            yield OutOfRange(
                f"The band is narrower than the leaf's sweep, which reaches from {left:.0f} to {right:.0f} mm.",
                "Leave the band's x empty: a leaf limits wherever it passes.",
                field=name,
                value=value,
            )


def fixing(
    values: Values, fitting: Values | None, hold: Values | None, member: Values | None = None
) -> Iterator[FieldbookError]:
    """A fixing lies on the fitting it holds, and on the face of its hold and of its board or timber."""
    if hold is not None and hold.get("face") != values.get("face"):
        reason = "The existing hole or fixing point is on another face than the fixing."
        yield NotAChoice(reason, "Choose one of this face.", field="hold", value=values.get("hold"))
    if member is not None and member.get("face") != values.get("face"):
        reason = "The board or timber is on another face than the fixing."
        yield NotAChoice(reason, "Choose one of this face.", field="member", value=values.get("member"))
    needed = ("x_mm", "z_mm", "contact_radius_mm")
    if fitting is None or fitting.get("face") != values.get("face") or values.get("sort") in REACHING:
        return
    if any(values.get(name) is None for name in needed):
        return
    if any(fitting.get(name) is None for name in ("x_mm", "z_mm", "width_mm", "height_mm")):
        return
    moves = fitting.get("moves_mm") or 0
    x, z, left, low = values["x_mm"], values["z_mm"], fitting["x_mm"], fitting["z_mm"]
    across = max(left - moves - x, x - left - fitting["width_mm"] - moves, 0)
    off = math.hypot(across, max(low - z, z - low - fitting["height_mm"], 0)) - values["contact_radius_mm"]
    if off > NOISE_MM:
        yield OutsideTheFace(
            f"It lies {math.ceil((off - NOISE_MM) * 10) / 10:g} mm off the fitting it is to hold.",
            "Correct its place, or the fitting's.",
            field="x_mm" if across else "z_mm",
            value=x if across else z,
        )

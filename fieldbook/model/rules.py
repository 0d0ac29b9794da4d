"""What must hold between the fields of one item, and between it and what it belongs to.

Each rule looks at the whole item as it would stand, and yields what it finds wrong.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from ..errors import FieldbookError, Missing, NotAChoice, OutOfRange, OutsideTheFace, UnknownItem, UnsuitableShape
from . import possible
from .choices import NOT_DONE
from .fields import ANY, Type
from .kinds import Kind

Values = Mapping[str, Any]
Find = Callable[[str], tuple[str, Values] | None]
"""Given an id: the kind's name and the values of the item, or None when it is not there."""

NEEDED_BY_LIMIT = {
    "leaf": ("hinge_x_mm", "hinge_y_mm", "swing_from_deg", "swing_to_deg", "boxes"),
    "route": ("available_mm", "clear_width_mm"),
    "headroom": ("headroom_mm", "projection_mm"),
    "flat": ("projection_mm",),
    "keep in view": ("x_from_mm", "x_to_mm", "z_from_mm", "z_to_mm"),
}
NOT_ABOVE = {
    "limit": (("x_from_mm", "x_to_mm"), ("z_from_mm", "z_to_mm"), ("clear_width_mm", "available_mm")),
    "room": (("humidity_low_pct", "humidity_high_pct"),),
    "fitting": (("mass_empty_kg", "mass_loaded_kg"), ("fitted_on", "taken_down_on")),
    "fixing": (("penetration_mm", "length_mm"), ("fitted_on", "taken_down_on")),
}
ON_A_FACE = {
    "fixing": (("x_mm", "z_mm"), ("fitted_x_mm", "fitted_z_mm")),
    "hold": (("x_mm", "z_mm"),),
}
TRACE_OF_NEW_HOLE = {"old fabric": "a new hole in old fabric", "later work": "a new hole in later work"}


def findings(kind: Kind, item: str, values: Values, find: Find, before: Values | None = None) -> list[FieldbookError]:
    """Everything wrong with an item as it would stand; an empty list when all is well.

    before  the item as it stands, if it does: what was wrong with it already, by a rule younger than the item,
            keeps nobody from changing something else
    """
    found = _all(kind, item, values, find)
    if not found or before is None:
        return found
    old = {(one.code, one.field, one.reason) for one in _all(kind, item, before, find)}
    return [one for one in found if (one.code, one.field, one.reason) not in old]


def _all(kind: Kind, item: str, values: Values, find: Find) -> list[FieldbookError]:
    found = list(_required(kind, values)) + list(_links(kind, item, values, find)) + list(_order(kind, values))
    if kind.name in ON_A_FACE:
        found += _on_the_face(kind, values, find)
    found += possible.together(kind, values)
    if kind.name == "room":
        found += possible.plan(values)
    if kind.name == "reading":
        found += possible.reading(values)
    if kind.name == "fitting":
        found += possible.gives(values)
    if kind.name == "limit":
        found += [*_limit(kind, values), *possible.leaf(values)]
    if kind.name == "work" and values.get("outcome") == NOT_DONE and not values.get("reason"):
        found.append(Missing("It was not done, and no reason is given.", "Say why.", field="reason"))
    if kind.name == "fixing":
        off_the_face = any(isinstance(one, OutsideTheFace) for one in found)
        found += [*_fixing(values), *_joined(values, find)]
        if not off_the_face:
            found += possible.fixing(values, *(_linked(values, name, find) for name in ("fitting", "hold", "member")))
    return found


def _linked(values: Values, kind: str, find: Find) -> Values | None:
    """The values of what a link of that name points to; None where it points to nothing of that kind."""
    known = find(values[kind]) if values.get(kind) else None
    return known[1] if known and known[0] == kind else None


def _required(kind: Kind, values: Values) -> Iterator[FieldbookError]:
    for field in kind.fields:
        if field.required and values.get(field.name) is None:
            yield Missing(f"{field.label} is empty.", f"Fill in {field.label.lower()}.", field=field.name)


def _links(kind: Kind, item: str, values: Values, find: Find) -> Iterator[FieldbookError]:
    for field in kind.fields:
        if field.type not in {Type.LINK, Type.LINKS} or not values.get(field.name):
            continue
        targets = values[field.name] if field.type is Type.LINKS else [values[field.name]]
        for target in targets:
            known = find(target)
            at = {"field": field.name, "value": target}
            if target == item:
                yield NotAChoice(f"{field.label} points to the item itself.", "Choose another.", **at)
            elif known is None:  # the one finding that may pass by itself
                reason = f"{field.label} points to something that is not in this book yet."
                yield UnknownItem(reason, "Send what it points to first, or choose another.", **at)
            elif field.to not in {ANY, known[0]}:
                yield NotAChoice(f"{field.label} points to a {known[0]}.", f"Choose a {field.to}.", **at)


def _order(kind: Kind, values: Values) -> Iterator[FieldbookError]:
    for low, high in NOT_ABOVE.get(kind.name, ()):
        if values.get(low) is not None and values.get(high) is not None and values[low] > values[high]:
            lower, upper = kind.by_name[low], kind.by_name[high]
            yield OutOfRange(
                f"{lower.label} is {_said(values[low])}, more than {upper.label.lower()} ({_said(values[high])}).",
                "Exchange or correct them.",
                field=low,
                value=values[low],
            )


def _on_the_face(kind: Kind, values: Values, find: Find) -> Iterator[FieldbookError]:
    known = find(values.get("face") or "")
    if known is None or known[0] != "face" or None in {known[1].get("width_mm"), known[1].get("height_mm")}:
        return
    face = known[1]
    noise = possible.NOISE_MM
    spans = {"x": (face.get("left_mm") or 0, face["width_mm"]), "z": (face.get("bottom_mm") or 0, face["height_mm"])}
    for pair in ON_A_FACE[kind.name]:
        for name in pair:
            start, size = spans["z" if "z_mm" in name else "x"]
            value = values.get(name)
            if value is not None and not start - noise <= value <= start + size + noise:
                label = kind.by_name[name].label
                yield OutsideTheFace(
                    f"{label} is {value:g} mm; the face reaches from {start:g} to {start + size:g} mm.",
                    "Measure from the datum again, or choose the face it is on.",
                    field=name,
                    value=value,
                )


def _limit(kind: Kind, values: Values) -> Iterator[FieldbookError]:
    for name in NEEDED_BY_LIMIT.get(values.get("sort", ""), ()):
        if values.get(name) is None:
            label = kind.by_name[name].label
            yield Missing(f"A limit of type “{values['sort']}” needs “{label}”.", "Fill it in.", field=name)
    if values.get("swing_from_deg") is not None and values.get("swing_from_deg") == values.get("swing_to_deg"):
        yield OutOfRange(
            "The leaf swings from and to the same angle.",
            "Give the angle it opens to.",
            field="swing_to_deg",
            value=values["swing_to_deg"],
        )
    for place, box in enumerate(values.get("boxes") or (), 1):
        u0, u1, v0, v1 = box
        if None not in box and not (u0 < u1 and v0 < v1):
            yield UnsuitableShape(
                f"Box {place} has no area.",
                "Give u0 u1 v0 v1 with u0 < u1 and v0 < v1.",
                field="boxes",
                value=[u0, u1, v0, v1],
            )


def _fixing(values: Values) -> Iterator[FieldbookError]:
    if values.get("hole") == "new":
        due = TRACE_OF_NEW_HOLE.get(values.get("fabric", ""))
        if due and values.get("trace") not in {None, due}:
            yield UnsuitableShape(
                f"A new hole in {values['fabric']} leaves “{due}”, not “{values['trace']}”.",
                "Correct the hole or the marks left.",
                field="trace",
                value=values["trace"],
            )
    if values.get("hole") == "none" and (values.get("penetration_mm") or 0) > 0:
        yield OutOfRange(
            f"Depth into the wall is {values['penetration_mm']:g} mm, yet there is no hole.",
            "Say which hole it goes into, or give 0.",
            field="penetration_mm",
            value=values["penetration_mm"],
        )
    if values.get("fitted_place") and values.get("fitted_x_mm") is not None:
        yield NotAChoice(
            f"Place as fitted is “{values['fitted_place']}”, yet x as fitted is {values['fitted_x_mm']:g} mm.",
            "Keep the figures, or the words: not both.",
            field="fitted_place",
            value=values["fitted_place"],
        )


def _joined(values: Values, find: Find) -> Iterator[FieldbookError]:
    """A fixing carries its fitting on the other one, which then cannot hang on it."""
    other, fitting = values.get("other_fitting"), values.get("fitting")
    known = find(other) if other else None
    if known is not None and fitting and fitting in {other, known[1].get("hangs_on")}:
        name = known[1].get("mark") or known[1].get("name") or "The other fitting"
        own = other == fitting
        yield UnsuitableShape(
            f"{name} is the fitting itself."
            if own
            else f"{name} hangs on the fitting that this fixing would fix to it.",
            "Choose the fitting it is fixed to."
            if own
            else "Enter the fixing under the one that hangs, or correct what hangs on what.",
            field="other_fitting",
            value=other,
        )


def _said(value: Any) -> str:
    return value if isinstance(value, str) else f"{value:g}"

"""A make: a thing designed once and put up several times, each copy at a place of its own.

The first of a make is entered like any fitting. A copy has its values, and its fixings at the same places from its
own left and lower edge; it says what it was made like, so that a change of the first can be taken over.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

from ..model.choices import PLANNED
from ..model.kinds import KINDS
from .entry_lines import Line
from .next_mark import next_mark
from .site import Item, Site

FITTING, FIXING = KINDS["fitting"], KINDS["fixing"]
MAKE, MIRRORED = "make", "mirrored"
# Places of a fitting's own parts, that go with it.
CENTRES = {"centre_x_mm": "x_mm", "centre_z_mm": "z_mm"}


class Copy(NamedTuple):
    """Where one copy goes: its left and lower edge on a face, and whether it is turned left to right."""

    face: str
    x_mm: float
    z_mm: float
    mirrored: bool = False


def first_of(site: Site, item: Item) -> Item:
    """What an item was made like in the end; itself where it was made like nothing that is there."""
    seen = {item.id}
    while (before := site.get(item.values.get(MAKE))) is not None and before.id not in seen:
        seen.add(before.id)
        item = before
    return item


def copies_of(site: Site, item: Item) -> list[Item]:
    """What was made like an item, in the order of the marks."""
    return [one for one in site.all(item.kind) if one.id != item.id and first_of(site, one).id == item.id]


def row(fitting: Item, number: int, apart_mm: Sequence[float], up_mm: float = 0, mirrored: bool = False) -> list[Copy]:
    """So many copies along a line, from left edge to left edge: one distance for all, or one for each."""
    places, x = [], fitting.x_mm
    for at in range(number):
        x += apart_mm[min(at, len(apart_mm) - 1)]
        places.append(Copy(fitting.face, x, fitting.z_mm + up_mm * (at + 1), mirrored))
    return places


def copy_lines(site: Site, fitting: Item, copies: Iterable[Copy]) -> list[Line]:
    """Lines that enter copies of a fitting with its fixings: all planned, with marks that count on.

    What belongs to one place alone, a packer or a hole that is there, is not taken over. What is fixed to another
    fitting stays fixed to that.
    """
    lines: list[Line] = []
    marks: list[str] = []
    for number, copy in enumerate(copies, 1):
        values = _copied(FITTING.name, fitting) | {"face": copy.face, "x_mm": copy.x_mm, "z_mm": copy.z_mm}
        values |= {MAKE: first_of(site, fitting).id, "mark": next_mark(FITTING, site, values, marks)}
        if copy.mirrored != bool(fitting.values.get(MIRRORED)):
            values[MIRRORED] = 1
        marks.append(values["mark"])
        for name, axis in CENTRES.items():
            if (at := fitting.values.get(name)) is not None:
                values[name] = _placed(fitting, copy, axis, at)
        lines.append({"kind": FITTING.name, "item": f"copy {number}", "set": values})
        lines += _fixings(site, fitting, copy, f"copy {number}", values["mark"])
    return lines


def _fixings(site: Site, fitting: Item, copy: Copy, name: str, mark: str) -> Iterator[Line]:
    for number, fixing in enumerate(site.of(fitting, FIXING.name), 1):
        if fixing.stands:
            values = {"fitting": name, "mark": mark_on(fitting, fixing, mark) or f"{mark}.{number}"}
            made_like = first_of(site, fixing).id
            yield fixing_line(f"{name}, {number}", fitting, fixing, copy, values | {MAKE: made_like})


def fixing_line(name: str, fitting: Item, fixing: Item, copy: Copy, own: Mapping[str, Any]) -> Line:
    """A fixing of a copy, at the same place from its edges, with values of its own."""
    place = {axis: _placed(fitting, copy, axis, fixing.values[axis]) for axis in ("x_mm", "z_mm")}
    values = {**_copied(FIXING.name, fixing), "face": copy.face, **place, **own}
    return {"kind": FIXING.name, "item": name, "set": values}


def mark_on(fitting: Item, fixing: Item, mark: str) -> str | None:
    """The mark that answers a fixing's on a copy with this one, where the fixing's goes on from its fitting's."""
    own = str(fixing.mark)
    return mark + own.removeprefix(fitting.mark) if own.startswith(fitting.mark) else None


def _copied(kind: str, item: Item) -> dict[str, Any]:
    """What a copy takes over, and that it is only planned."""
    fields = (field for field in KINDS[kind].asked if field.copied)
    return {one.name: item.values[one.name] for one in fields if item.values[one.name] not in (None, [])} | {
        "state": PLANNED
    }


def _placed(fitting: Item, copy: Copy, axis: str, at_mm: float) -> float:
    """The place on a copy that answers one on the fitting."""
    from_edge = at_mm - fitting.values[axis]
    if axis == "x_mm" and copy.mirrored:
        from_edge = fitting.width_mm - from_edge
    return getattr(copy, axis) + from_edge


@dataclass(frozen=True)
class Following:
    """What follows a change: lines for what is only planned, and what stands already and is asked about."""

    lines: list[Line]
    moved: list[Item]
    taken_over: list[Item]
    standing: list[Item]


def following(site: Site, item: Item, changed: Mapping[str, Any]) -> Following:
    """What else a change of a fitting or a fixing means.

    changed  the fields that were changed, with their new values
    A fitting that is set elsewhere takes its planned fixings along, but for those in a hole that is there. A copy
    takes over what it has from the make as that was; what was changed on the copy alone stays.
    """
    moved, lines = list(_moved(site, item, changed)), []
    lines += [_line(one, values) for one, values in moved]
    taken_over, standing = [], []
    for copy in copies_of(site, item):
        new = dict(_taken_over(site, item, copy, changed))
        if new and copy.values["state"] == PLANNED:
            taken_over.append(copy)
            lines.append(_line(copy, new))
        elif new and copy.stands:
            standing.append(copy)
    return Following(lines, [one for one, _ in moved], taken_over, standing)


def _line(item: Item, values: Mapping[str, Any]) -> Line:
    return {"kind": item.kind, "item": item.id, "set": dict(values)}


def _moved(site: Site, item: Item, changed: Mapping[str, Any]) -> Iterator[tuple[Item, dict[str, Any]]]:
    if item.kind != FITTING.name or "face" in changed:
        return
    steps = {axis: changed[axis] - item.values[axis] for axis in ("x_mm", "z_mm") if changed.get(axis) is not None}
    for fixing in site.of(item, FIXING.name) if steps else ():
        if fixing.state == PLANNED and fixing.face == item.face and not fixing.hold:
            yield fixing, {axis: fixing.values[axis] + step for axis, step in steps.items()}


def _taken_over(site: Site, item: Item, copy: Item, changed: Mapping[str, Any]) -> Iterator[tuple[str, Any]]:
    kind = KINDS[item.kind]
    for name, value in changed.items():
        field = kind.by_name[name]
        if field.copied and name != kind.parent and name != "face" and copy.values[name] == item.values[name]:
            yield name, value
    if kind is FIXING and copy.state == PLANNED:
        mirrored = _is_mirrored(site, item) != _is_mirrored(site, copy)
        for axis in ("x_mm", "z_mm"):
            if changed.get(axis) is not None:
                step = changed[axis] - item.values[axis]
                yield axis, copy.values[axis] + (-step if mirrored and axis == "x_mm" else step)


def _is_mirrored(site: Site, fixing: Item) -> bool:
    fitting = site.get(fixing.fitting)
    return bool(fitting and fitting.values.get(MIRRORED))

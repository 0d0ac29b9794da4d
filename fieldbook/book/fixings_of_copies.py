"""Fixings that what was made first has and its copies lack: new ones reach planned copies, standing ones are asked."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any, NamedTuple

from ..model.choices import PLANNED
from .entry_lines import Line
from .makes import FIXING, MAKE, MIRRORED, Copy, copies_of, first_of, fixing_line, mark_on
from .next_mark import next_mark
from .site import Item, Site
from .supposed import with_new


class Lacked(NamedTuple):
    """A fixing that what was made first has, and one of its copies has not."""

    copy: Item
    fixing: Item


def lacked(site: Site, fitting: Item) -> list[Lacked]:
    """What the copies of a fitting, planned and standing, lack of its fixings: copy by copy."""
    fixings = [one for one in site.of(fitting, FIXING.name) if one.stands]
    found = []
    for copy in copies_of(site, fitting) if fixings else ():
        if copy.stands:
            there = {first_of(site, one).id for one in site.of(copy, FIXING.name)}
            found += [Lacked(copy, one) for one in fixings if first_of(site, one).id not in there]
    return found


def lacked_lines(site: Site, lacking: Iterable[Lacked], names: Mapping[str, str] | None = None) -> list[Line]:
    """Lines that enter what copies lack: each planned, at the place that answers that on the first.

    names  what lines before these call a fixing that is not entered yet, by the id it is supposed to have
    """
    lines: list[Line] = []
    taken: dict[str, list[str]] = defaultdict(list)
    for copy, fixing in lacking:
        fitting, made_like = site[fixing.fitting], first_of(site, fixing).id
        own: dict[str, Any] = {"fitting": copy.id, MAKE: (names or {}).get(made_like, made_like)}
        mark = mark_on(fitting, fixing, copy.mark)
        if mark is None or mark in {*taken[copy.id], *(one.mark for one in site.of(copy, FIXING.name))}:
            mark = next_mark(FIXING, site, own, taken[copy.id])
        taken[copy.id].append(mark)
        turned = bool(copy.values.get(MIRRORED)) != bool(fitting.values.get(MIRRORED))
        place = Copy(copy.face, copy.x_mm, copy.z_mm, turned)
        lines.append(fixing_line(f"{mark} of {copy.id}", fitting, fixing, place, own | {"mark": mark}))
    return lines


class Reaching(NamedTuple):
    """What new fixings come to.

    lines     enter them on planned copies
    standing  copies to ask about, and asked_of what the lines call the fixings these lack
    """

    lines: list[Line]
    planned: list[Item]
    standing: list[Item]
    asked_of: list[str]

    def calling(self, before: int, own: Callable[[int], str]) -> Callable[..., str]:
        """What a line is called where something is wrong with it: one of these, after so many others, by its mark."""

        def called(number: int, _: str | None = None) -> str:
            line = self.lines[number - before - 1] if number > before else None
            return str(line["set"]["mark"]) if isinstance(line, dict) else own(number)

        return called


NONE = Reaching([], [], [], [])


def reaching(site: Site, lines: Sequence[Line]) -> Reaching:
    """What copies get when lines enter new fixings on what was made first; a line that is to be mended brings none."""
    new = [line for line in lines if isinstance(line, dict) and _is_placed(site, line)]
    if not new:
        return NONE
    supposed = with_new(site, new)
    names = {one.id: str(line["item"]) for one, line in zip(supposed.items, new, strict=True)}
    fittings = dict.fromkeys(site[one.fitting] for one in supposed.items)
    lacking = [one for fitting in fittings for one in lacked(supposed.site, fitting) if one.fixing.id in names]
    planned = [one for one in lacking if one.copy.state == PLANNED]
    up = [one for one in lacking if one.copy.state != PLANNED]
    return Reaching(
        lacked_lines(supposed.site, planned, names),
        list(dict.fromkeys(one.copy for one in planned)),
        list(dict.fromkeys(one.copy for one in up)),
        list(dict.fromkeys(names[one.fixing.id] for one in up)),
    )


def _is_placed(site: Site, line: Mapping[str, Any]) -> bool:
    """Whether a line enters a new fixing with mark and place, on a fitting that is there."""
    if line["kind"] != FIXING.name or line["item"] in site:
        return False
    values = line.get("set") or {}
    placed = all(isinstance(values.get(axis), int | float) for axis in ("x_mm", "z_mm"))
    return placed and bool(values.get("mark")) and site.get(values.get("fitting")) is not None

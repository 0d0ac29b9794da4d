"""What a thing does to the fabric, in the words a zone forbids it with.

Whatever bears or touches is seen, ticked or not: a fixing touches and bears wherever it stands, and what gives
light warms as well. What rests on a field that is not entered is told with that field.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..book.site import Item, Site
from .asking import Asked
from .finding import Blank

AS_DEEP = "How deep the hole is that is there is not entered; it is taken to be deep enough."

PIERCING = frozenset({"wood screw", "coach screw", "nail"})
GLUED_ON = "adhesive pad"
GIVEN = frozenset({"heat", "light"})

Act = tuple[str, Blank | None]
"""What is done, and the empty field it rests on; None where it is done for certain."""


def joins_ours(asked: Asked, fixing: Item) -> bool:
    """Whether a fixing only joins two fittings and touches no fabric; asks which where nobody said what it joins."""
    if fixing.fabric != "another fitting":
        return False
    fitting = asked.site.get(fixing.fitting)
    if fitting is None or fitting.hangs_on is None:
        asked.need(fixing, "other_fitting")
    return True


def fixing_acts(site: Site, fixing: Item) -> Iterator[Act]:
    """What a fixing does to the face it stands on; nothing where it only joins two fittings."""
    if fixing.fabric == "another fitting":
        return
    yield "contact", None
    yield "load", None
    if makes_hole(site, fixing):
        yield "drilling", None
    elif may_deepen(site, fixing):
        yield "drilling", Blank(fixing, "penetration_mm")
    if fixing.sort == GLUED_ON or fixing.adhesive:
        yield "adhesive", None
    elif fixing.adhesive is None:
        yield "adhesive", Blank(fixing, "adhesive")
    if (fitting := site.get(fixing.fitting)) is not None:
        yield from _given(fitting, ("heat",))


def fitting_acts(fitting: Item) -> Iterator[Act]:
    """What a fitting does to the face by itself, beyond its fixings."""
    if fitting.touches_face is None or fitting.touches_face:
        blank = Blank(fitting, "touches_face") if fitting.touches_face is None else None
        yield "contact", blank
        yield "load", blank
    yield from _given(fitting, ("heat", "light"))


def is_glued(asked: Asked, fixing: Item) -> bool:
    """Whether something of a fixing sticks to the fabric; raises NotEntered where nobody said."""
    return fixing.sort == GLUED_ON or bool(asked.need(fixing, "adhesive"))


def borne_by(fitting: Item) -> set[str]:
    """What a fitting that bears on its face does to it, and what it gives off, in the words an agreement is about."""
    return {"contact", "load"} | set(fitting.gives or ()) - {"nothing"}


def given_off(fitting: Item) -> set[str]:
    """What a fitting gives off: what gives light warms as well."""
    given = set(fitting.gives or ()) & GIVEN
    return given | {"heat"} if given else set()


def makes_hole(site: Site, fixing: Item) -> bool:
    """Whether a fixing goes where no hole is yet: a new one, one made deeper, or a point driven in without one."""
    if fixing.fabric == "another fitting":
        return False
    if fixing.hole == "existing":
        deep = depth_there_mm(site, fixing)
        return deep is not None and fixing.penetration_mm is not None and fixing.penetration_mm > deep
    return fixing.hole == "new" or fixing.sort in PIERCING


def may_deepen(site: Site, fixing: Item) -> bool:
    """Whether a hole that is there already may be made deeper: how deep the fixing goes is not entered."""
    existing = fixing.hole == "existing" and fixing.fabric != "another fitting"
    return existing and fixing.penetration_mm is None and depth_there_mm(site, fixing) is not None


def depth_there_mm(site: Site, fixing: Item) -> float | None:
    """How deep the hole is that a fixing uses again; None where that is not entered."""
    hold = site.get(fixing.hold)
    return hold.depth_mm if hold is not None and hold.kind == "hold" else None


def acts_of(asked: Asked, fixing: Item) -> set[str]:
    """What a fixing does to the fabric, in the words an agreement is about."""
    acts = {"contact", "load"}
    if makes_hole(asked.site, fixing):
        acts.add("drilling")
    if is_glued(asked, fixing):
        acts.add("adhesive")
    return acts


def need_depth(asked: Asked, fixing: Item) -> None:
    """Ask how deep it goes where a hole that is there already may have to be made deeper."""
    if may_deepen(asked.site, fixing):
        asked.need(fixing, "penetration_mm")


def taken_as_deep(site: Site, fixing: Item) -> tuple[str, ...]:
    """What is assumed of a fixing that uses a hole again of which nobody entered how deep it is."""
    again = fixing.hole == "existing" and fixing.fabric != "another fitting"
    return (AS_DEEP,) if again and depth_there_mm(site, fixing) is None else ()


def _given(fitting: Item, asked: tuple[str, ...]) -> Iterator[Act]:
    for act in asked:
        if fitting.gives is None:
            yield act, Blank(fitting, "gives")
        elif act in given_off(fitting):
            yield act, None
